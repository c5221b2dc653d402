using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Fusing;

/// <summary>A conductor a fuse has to protect: downstream of it and of no smaller fuse.</summary>
/// <param name="Name">Name shown in texts.</param>
/// <param name="DeratedAmperes">Current it may carry where it lies, A.</param>
public sealed record ProtectedConductor(string Name, double DeratedAmperes);

/// <summary>A fuse in its place.</summary>
public sealed record FuseDutyInput
{
    /// <summary>Identifier used as the subject of findings.</summary>
    public required string Id { get; init; }

    /// <summary>Name shown in texts.</summary>
    public required string Name { get; init; }

    /// <summary>Rating, A (0.5 to 1000).</summary>
    public required double RatingAmperes { get; init; }

    /// <summary>Form; its voltage and interrupt rating are used.</summary>
    public required FuseSeries Series { get; init; }

    /// <summary>The maker's curve in place of the band of the form, or null.</summary>
    public FuseCurve? MakerCurve { get; init; }

    /// <summary>Load that may flow for hours, A (0 to 2000).</summary>
    public required double ContinuousAmperes { get; init; }

    /// <summary>Share of the rating that may flow for hours, 0.5 to 1.</summary>
    public double ContinuousLoading { get; init; } = ElectricalDefaults.ContinuousLoading;

    /// <summary>Ambient of the fuse, °C (−40 to 125).</summary>
    public double AmbientCelsius { get; init; } = 25;

    /// <summary>Rating lost per °C above 25 °C, 0 to 0.005; 0.002 is a general guide for small fuses.</summary>
    public double DeratingPerCelsius { get; init; }

    /// <summary>Highest voltage of the circuit, V (1 to 60).</summary>
    public double CircuitVolts { get; init; } = ElectricalDefaults.SupplyVolts;

    /// <summary>Largest short-circuit current at the fuse, A (1 to 100 000); null when not known yet, which is reported.</summary>
    public double? ProspectiveAmperes { get; init; }

    /// <summary>Smallest short-circuit current, at the far end of what it protects, A (1 to 100 000); null when not known.</summary>
    public double? FarEndFaultAmperes { get; init; }

    /// <summary>Every conductor downstream that no smaller fuse protects.</summary>
    public required IReadOnlyList<ProtectedConductor> Conductors { get; init; }

    /// <summary>Whether its source is the battery.</summary>
    public bool FedFromBattery { get; init; }

    /// <summary>Whether the conductor is in a sheath, conduit or enclosure from the source to the fuse.</summary>
    public bool SheathedWholeWay { get; init; }

    /// <summary>Distance from the source to the fuse along the conductor, m (0 to 30); null when not yet measured, which is reported.</summary>
    public double? SourceToFuseMeters { get; init; }

    /// <summary>What is wrong with the input, field by field; empty when it can be judged.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        text ??= UnitText.Invariant;
        var checks = new InputChecks(text);
        checks.Named(nameof(Id), "Fuse identifier", Id);
        checks.Named(nameof(Name), "Fuse name", Name);
        checks.InRange(nameof(RatingAmperes), $"{Name}, rating", RatingAmperes, 0.5, 1000, QuantityKind.Current);
        checks.InRange(nameof(ContinuousAmperes), $"{Name}, continuous load", ContinuousAmperes, 0, 2000, QuantityKind.Current);
        checks.InRange(nameof(ContinuousLoading), $"{Name}, continuous load as a share of the rating", ContinuousLoading, 0.5, 1);
        checks.InRange(nameof(AmbientCelsius), $"{Name}, ambient", AmbientCelsius, -40, 125, QuantityKind.Temperature);
        checks.InRange(nameof(DeratingPerCelsius), $"{Name}, rating lost per °C", DeratingPerCelsius, 0, 0.005);
        checks.InRange(nameof(CircuitVolts), $"{Name}, circuit voltage", CircuitVolts, 1, 60, QuantityKind.Voltage);
        checks.InRange(nameof(ProspectiveAmperes), $"{Name}, prospective short-circuit current", ProspectiveAmperes, 1, 100_000, QuantityKind.Current);
        checks.InRange(nameof(FarEndFaultAmperes), $"{Name}, short-circuit current at the far end", FarEndFaultAmperes, 1, 100_000, QuantityKind.Current);
        if (FarEndFaultAmperes > ProspectiveAmperes)
            checks.Add(nameof(FarEndFaultAmperes), $"{Name}, short-circuit current at the far end: {text.Amperes(FarEndFaultAmperes.Value)} is above {text.Amperes(ProspectiveAmperes.Value)} at the fuse; enter that or less.");
        checks.InRange(nameof(SourceToFuseMeters), $"{Name}, distance from the source", SourceToFuseMeters, 0, 30, QuantityKind.Length);
        if (Conductors.Count == 0)
            checks.Add(nameof(Conductors), $"{Name}, conductors it protects: none is named; enter at least one with the current it may carry.");
        for (var i = 0; i < Conductors.Count; i++)
            checks.InRange($"{nameof(Conductors)}[{i}].DeratedAmperes", $"{Name}, current {Conductors[i].Name} may carry", Conductors[i].DeratedAmperes, 0, 5000, QuantityKind.Current);
        if (MakerCurve is { } curve)
            checks.AddRange(curve.Validate(text).Select(p => new InputProblem($"{nameof(MakerCurve)}.{p.Field}", $"{Name}: {p.Message}")));
        return checks.Problems;
    }
}
