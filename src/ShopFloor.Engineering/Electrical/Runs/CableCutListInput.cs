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
public sealed record CableCut(string Id, string Name, string Cable, double? LengthMeters, double ServiceLoopMeters = CableCut.DefaultServiceLoopMeters, int Conductors = 1)
{
    /// <summary>Room to take an end off, or to turn a part out without pulling, both ends together, m. Common practice, no source.</summary>
    public const double DefaultServiceLoopMeters = 0.3;
}

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
