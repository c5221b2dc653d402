using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Runs;

/// <summary>One run to cut.</summary>
/// <param name="Id">Identifier, unique in the list.</param>
/// <param name="Name">Name shown in texts.</param>
/// <param name="Cable">What is cut, for example "16 AWG pair" or "shielded pair".</param>
/// <param name="LengthMeters">Measured length one way, m (0.05 to 100); null means not measured, which is reported.</param>
/// <param name="ServiceLoopMeters">Extra left at the ends together, m (0 to 10).</param>
/// <param name="Conductors">Single conductors cut to that length: 2 for a pair laid as singles, 1 for cable that holds both (1 to 20).</param>
public sealed record CableCut(string Id, string Name, string Cable, double? LengthMeters, double ServiceLoopMeters = 0.3, int Conductors = 1);

/// <summary>Runs to cut.</summary>
public sealed record CableCutListInput
{
    /// <summary>The runs; may be empty.</summary>
    public required IReadOnlyList<CableCut> Cuts { get; init; }

    /// <summary>What is wrong with the input, field by field; empty when it can be computed. A missing length becomes a finding instead.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        for (var i = 0; i < Cuts.Count; i++)
        {
            var (cut, at) = (Cuts[i], $"{nameof(Cuts)}[{i}].");
            checks.Named(at + nameof(cut.Cable), $"{cut.Name}, cable", cut.Cable);
            checks.InRange(at + nameof(cut.LengthMeters), $"{cut.Name}, length", cut.LengthMeters, 0.05, 100, QuantityKind.Length);
            checks.InRange(at + nameof(cut.ServiceLoopMeters), $"{cut.Name}, service loop", cut.ServiceLoopMeters, 0, 10, QuantityKind.Length);
            checks.InRange(at + nameof(cut.Conductors), $"{cut.Name}, conductors", cut.Conductors, 1, 20);
        }

        checks.Distinct(nameof(Cuts), "Runs", Cuts.Select(c => c.Id));
        return checks.Problems;
    }
}

/// <summary>One piece to cut.</summary>
/// <param name="Id">Identifier of the run.</param>
/// <param name="Cable">What is cut.</param>
/// <param name="CutMeters">Length of each piece with the service loop, m.</param>
/// <param name="Pieces">How many.</param>
public sealed record CablePiece(string Id, string Cable, double CutMeters, int Pieces);

/// <summary>Sum of one cable.</summary>
/// <param name="Cable">What is cut.</param>
/// <param name="TotalMeters">All its pieces, m.</param>
public sealed record CableTotal(string Cable, double TotalMeters);

/// <summary>The cut list with its sums.</summary>
public sealed record CableCutListResult
{
    /// <summary>Pieces, by cable, longest first.</summary>
    public required IReadOnlyList<CablePiece> Pieces { get; init; }

    /// <summary>Sum by cable.</summary>
    public required IReadOnlyList<CableTotal> Totals { get; init; }

    /// <summary>Runs without a length.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }
}

/// <summary>Turns measured runs into pieces to cut, service loop included.</summary>
public static class CableCutList
{
    /// <summary>Computes the list.</summary>
    /// <param name="input">The runs.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="CableCutListInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static CableCutListResult Compute(CableCutListInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        InputChecks.ThrowIfAny(input.Validate(text));
        var findings = new FindingList("cable-cut-list", "Cut list");
        foreach (var cut in input.Cuts.Where(c => c.LengthMeters is null))
            findings.About(cut.Id, cut.Name, "run-length-missing", Severity.Warn, "Its length is not known, so it is not in the cut list.", "Measure the route with a cord.", "needed for the cut list");
        List<CablePiece> pieces =
        [
            .. input.Cuts
                .SelectMany(c => c.LengthMeters is { } length ? new[] { new CablePiece(c.Id, c.Cable, length + c.ServiceLoopMeters, c.Conductors) } : [])
                .OrderBy(p => p.Cable, StringComparer.Ordinal).ThenByDescending(p => p.CutMeters),
        ];
        return new CableCutListResult
        {
            Pieces = pieces,
            Totals = [.. pieces.GroupBy(p => p.Cable).Select(g => new CableTotal(g.Key, g.Sum(p => p.CutMeters * p.Pieces)))],
            Findings = findings.Sorted,
        };
    }
}
