namespace ShopFloor.Engineering.Electrical.Sizing;

/// <summary>A size a run may have: it already carries the current and the fuse there and is not too thin.</summary>
/// <param name="Label">Label of the size, unique in its run.</param>
/// <param name="MassKilograms">Mass of the run with it, kg, 0 or more.</param>
/// <param name="DropVolts">Drop of the run with it, there and back, V, 0 or more.</param>
/// <param name="Price">Price of the run with it, 0 or more, or null when unknown.</param>
public sealed record SizeCandidate(string Label, double MassKilograms, double DropVolts, decimal? Price = null);

/// <summary>A run with the sizes it may have.</summary>
/// <param name="Id">Identifier, unique in the tree.</param>
/// <param name="ParentId">Identifier of the run it starts from, or null at the battery.</param>
/// <param name="Candidates">Sizes it may have, in any order; at least one.</param>
/// <param name="LimitVolts">Drop allowed from the battery to its end and back, V, above 0; null when nothing there asks for one.</param>
public sealed record CandidateRun(string Id, string? ParentId, IReadOnlyList<SizeCandidate> Candidates, double? LimitVolts = null);

/// <summary>The least set of sizes.</summary>
/// <param name="Sizes">Size per run, by the run's identifier.</param>
/// <param name="MassKilograms">Mass of all runs, kg.</param>
/// <param name="Price">Price of all runs, or null when one is unknown.</param>
/// <param name="OutOfReach">
/// Runs whose limit cannot be kept with any sizes. They are not paid for with metal elsewhere: runs that serve only such limits get the size
/// of least drop, and the other limits are kept as if these were not there.
/// </param>
/// <param name="AboveLeastAtMost">
/// How much above the least it may be at most, in kg or price: 0 when it is proven the least. Above 0 only with dozens of runs one behind the other.
/// </param>
public sealed record LeastSet(
    IReadOnlyDictionary<string, SizeCandidate> Sizes, double MassKilograms, decimal? Price, IReadOnlyList<string> OutOfReach, double AboveLeastAtMost);
