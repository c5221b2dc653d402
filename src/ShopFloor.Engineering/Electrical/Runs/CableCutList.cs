using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Runs;

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
