using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Sizing;

/// <summary>One run of a supply tree, from the end of its parent to where it branches or feeds loads.</summary>
public sealed record TreeRun
{
    /// <summary>Identifier, unique in the tree.</summary>
    public required string Id { get; init; }

    /// <summary>Name shown in texts.</summary>
    public required string Name { get; init; }

    /// <summary>Identifier of the run it starts from, or null when it starts at the battery.</summary>
    public string? ParentId { get; init; }

    /// <summary>The way through the vehicle with its return; its length is required here. A size or fuse chosen by hand is kept.</summary>
    public required RunData Route { get; init; }

    /// <summary>Whether it has a fuse at its start; without one the nearest fuse upstream protects it.</summary>
    public bool HasFuse { get; init; } = true;

    /// <summary>Fuse the maker of what it feeds asks for, A (0.5 to 1000), or null.</summary>
    public double? MakerFuseAmperes { get; init; }

    /// <summary>Share of the rated currents behind it that flows for long, 0.1 to 1.</summary>
    public double DemandFactor { get; init; } = 1;

    /// <summary>Labels of the sizes it may have; null allows all.</summary>
    public IReadOnlyList<string>? AllowedSizes { get; init; }

    /// <summary>Whether copper-clad aluminium may be chosen for it.</summary>
    public bool AllowCopperCladAluminium { get; init; }
}

/// <summary>A consumer at the end of a run.</summary>
public sealed record TreeLoad
{
    /// <summary>Identifier, unique in the tree.</summary>
    public required string Id { get; init; }

    /// <summary>Name shown in texts.</summary>
    public required string Name { get; init; }

    /// <summary>The run it is connected to the end of.</summary>
    public required string RunId { get; init; }

    /// <summary>Largest continuous current, A (0.001 to 2000).</summary>
    public required double RatedAmperes { get; init; }

    /// <summary>Average current on music, A, up to the rated one; null takes the rated one.</summary>
    public double? MusicAmperes { get; init; }

    /// <summary>Current at idle, A, up to the rated one; null takes the rated one.</summary>
    public double? IdleAmperes { get; init; }

    /// <summary>Drop allowed from the battery to it and back, V (0.005 to 10); null takes <see cref="SizingRules.MaxDropPercent"/>.</summary>
    public double? MaxDropVolts { get; init; }
}

/// <summary>A supply tree to choose conductors for.</summary>
public sealed record TreeSizingInput
{
    /// <summary>Most runs accepted.</summary>
    public const int MostRuns = 2000;

    /// <summary>Runs, in any order.</summary>
    public required IReadOnlyList<TreeRun> Runs { get; init; }

    /// <summary>Loads.</summary>
    public required IReadOnlyList<TreeLoad> Loads { get; init; }

    /// <summary>Voltage at the battery, V (6 to 49.9: the rules used are those below 50 V).</summary>
    public double SupplyVolts { get; init; } = ElectricalDefaults.SupplyVolts;

    /// <summary>Fuses, loading and drop limit; its table and sizes are used only when <see cref="Cables"/> is null.</summary>
    public SizingRules Rules { get; init; } = new();

    /// <summary>Cables to choose from, of any systems and materials; null takes the available sizes of <see cref="Rules"/>.</summary>
    public IReadOnlyList<CableOption>? Cables { get; init; }

    /// <summary>Whether only cables the shop keeps may be chosen. A size chosen by hand is kept all the same.</summary>
    public bool StockedOnly { get; init; }

    /// <summary>What to have least of.</summary>
    public SizingObjective Objective { get; init; } = SizingObjective.ConductorMass;

    /// <summary>
    /// Whether a fuse is above the largest of several fuses behind it and not below a single one (<see cref="FuseRatings.LeastBefore"/>), so
    /// that a branch fault does not name the wrong fuse. On by default.
    /// </summary>
    public bool FuseNotBelowFusesBehind { get; init; } = true;

    /// <summary>What is wrong with the input, field by field; empty when it can be sized.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null) => TreeInputChecks.Find(this, text ?? UnitText.Invariant);

    internal IReadOnlyList<CableOption> Options => Cables
        ?? [.. CableOption.FromTable(Rules.Table).Where(o => Rules.AvailableSizes.Contains(o.Conductor.Label))];
}
