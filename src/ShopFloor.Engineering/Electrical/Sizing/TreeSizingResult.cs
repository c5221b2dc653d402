using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical.Sizing;

/// <summary>The conductor chosen for one run of a tree.</summary>
public sealed record SizedTreeRun
{
    /// <summary>Identifier of the run.</summary>
    public required string RunId { get; init; }

    /// <summary>Name of the run.</summary>
    public required string Name { get; init; }

    /// <summary>Conductor.</summary>
    public required ConductorSize Conductor { get; init; }

    /// <summary>Name of the ampacity table its current is from.</summary>
    public required string TableName { get; init; }

    /// <summary>What decided the size: the limit that the next lighter (or cheaper) cable would break.</summary>
    public required SizeDecision DecidedBy { get; init; }

    /// <summary>Label of the next lighter (or cheaper) cable that was refused, or null when there is none.</summary>
    public required string? RefusedSize { get; init; }

    /// <summary>Continuous current, A.</summary>
    public required double ContinuousAmperes { get; init; }

    /// <summary>Average current on music, A.</summary>
    public required double MusicAmperes { get; init; }

    /// <summary>Current at idle, A.</summary>
    public required double IdleAmperes { get; init; }

    /// <summary>Current the conductor may carry here, A.</summary>
    public required double DeratedAmperes { get; init; }

    /// <summary>Its own fuse, or null when it has none.</summary>
    public required FuseChoice? Fuse { get; init; }

    /// <summary>Rating of the fuse that protects it, its own or the nearest upstream, A; null when nothing does.</summary>
    public required double? ProtectedByAmperes { get; init; }

    /// <summary>Drop of this run there and back at the current of the limit, V.</summary>
    public required double DropVolts { get; init; }

    /// <summary>Drop from the battery to its end, V.</summary>
    public required double TotalDropVolts { get; init; }

    /// <summary>Ampacity left above the larger of load and protecting fuse, A.</summary>
    public required double SlackAmperes { get; init; }

    /// <summary>Drop left at the tightest load behind it, V; null when it feeds nothing.</summary>
    public required double? SlackVolts { get; init; }

    /// <summary>Length of conductor, return included, m.</summary>
    public required double ConductorMeters { get; init; }

    /// <summary>Mass of the metal, kg.</summary>
    public required double ConductorKilograms { get; init; }

    /// <summary>Mass with insulation, kg; the insulation is an estimate.</summary>
    public required double CableKilograms { get; init; }

    /// <summary>Price of the conductor, or null when the cable has no price.</summary>
    public required decimal? Price { get; init; }

    /// <summary>Every limit checked.</summary>
    public required IReadOnlyList<LimitCheck> Limits { get; init; }
}

/// <summary>The drop at one load of a tree.</summary>
/// <param name="LoadId">Identifier of the load.</param>
/// <param name="Name">Name of the load.</param>
/// <param name="DropVolts">Drop from the battery to it and back, V.</param>
/// <param name="LimitVolts">Drop allowed, V.</param>
public sealed record TreeLoadDrop(string LoadId, string Name, double DropVolts, double LimitVolts)
{
    /// <summary>Drop left, V.</summary>
    public double SlackVolts => LimitVolts - DropVolts;
}

/// <summary>What one way of choosing comes to over the whole tree.</summary>
/// <param name="ConductorKilograms">Mass of the metal, kg.</param>
/// <param name="CableKilograms">Mass with insulation, kg; the insulation is an estimate.</param>
/// <param name="Price">Price of the conductors, or null when one has no price.</param>
public sealed record TreeTotals(double ConductorKilograms, double CableKilograms, decimal? Price);

/// <summary>Why no set of conductors keeps every limit, and what would help.</summary>
/// <param name="RunId">The run that cannot be sized, or that takes most of the drop.</param>
/// <param name="RunName">Its name.</param>
/// <param name="LoadId">The load whose drop limit cannot be kept, or null.</param>
/// <param name="Limit">The limit that is broken.</param>
/// <param name="Best">The best value that can be reached, in <paramref name="Unit"/>.</param>
/// <param name="Needed">The value needed, in <paramref name="Unit"/>.</param>
/// <param name="Unit">Unit symbol.</param>
/// <param name="Help">What would help.</param>
public sealed record TreeBlocker(
    string RunId, string RunName, string? LoadId, SizeDecision Limit, double Best, double Needed, string Unit, string Help);

/// <summary>The least set of conductors of a tree.</summary>
public sealed record TreeSizingResult
{
    /// <summary>Whether a set exists that keeps every limit; otherwise <see cref="Blockers"/> says why and there are no runs.</summary>
    public required bool IsFeasible { get; init; }

    /// <summary>Runs in the order of the input; empty when nothing is feasible.</summary>
    public required IReadOnlyList<SizedTreeRun> Runs { get; init; }

    /// <summary>Drops at the loads in the order of the input; empty when nothing is feasible.</summary>
    public required IReadOnlyList<TreeLoadDrop> Loads { get; init; }

    /// <summary>What the chosen set comes to, or null.</summary>
    public required TreeTotals? Totals { get; init; }

    /// <summary>What choosing run by run, with the drop shared by length, comes to, or null.</summary>
    public required TreeTotals? RunByRun { get; init; }

    /// <summary>
    /// How much above the least the set may be at most, in kg or price of the objective: 0 when it is proven the least. Above 0 only on trees
    /// with dozens of runs one behind the other.
    /// </summary>
    public double AboveLeastAtMost { get; init; }

    /// <summary>Why nothing is feasible; empty when something is.</summary>
    public required IReadOnlyList<TreeBlocker> Blockers { get; init; }

    /// <summary>What was found.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }

    /// <summary>Metal saved against run by run, kg.</summary>
    public double? SavedKilograms => RunByRun?.ConductorKilograms - Totals?.ConductorKilograms;

    /// <summary>Price saved against run by run; null when a price is missing.</summary>
    public decimal? SavedPrice => RunByRun?.Price - Totals?.Price;
}
