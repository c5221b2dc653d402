using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>One run from a source to one consumer, with its fuse at the source end.</summary>
public sealed record RunSizingInput
{
    /// <summary>Identifier used as the subject of findings.</summary>
    public required string Id { get; init; }

    /// <summary>Name shown in texts.</summary>
    public required string Name { get; init; }

    /// <summary>Current that conductor and fuse are chosen for, A (0.001 to 2000).</summary>
    public required double ContinuousAmperes { get; init; }

    /// <summary>Average current on music, A, up to the continuous current; null takes the continuous current.</summary>
    public double? MusicAmperes { get; init; }

    /// <summary>Current at idle, A, up to the continuous current; null when unknown.</summary>
    public double? IdleAmperes { get; init; }

    /// <summary>Voltage at the source, V (6 to 49.9: the rules used are those below 50 V).</summary>
    public double SupplyVolts { get; init; } = ElectricalDefaults.SupplyVolts;

    /// <summary>Whether the run starts at the battery; otherwise at a fused distribution point.</summary>
    public bool FedFromBattery { get; init; }

    /// <summary>Fuse the maker of the consumer asks for, A, or null.</summary>
    public double? MakerFuseAmperes { get; init; }

    /// <summary>Least rating that keeps fuses behind this run from outlasting its own, A, or null; given up when no conductor allows it.</summary>
    public double? FuseNotBelowAmperes { get; init; }

    /// <summary>Largest short-circuit current its fuse may have to interrupt, A (0 to 1 000 000); null leaves the fuse's form unchecked.</summary>
    public double? ProspectiveAmperes { get; init; }

    /// <summary>Drop allowed there and back, V; null takes <see cref="SizingRules.MaxDropPercent"/>.</summary>
    public double? MaxDropVolts { get; init; }

    /// <summary>The way through the vehicle; its length is required here.</summary>
    public required RunData Run { get; init; }

    /// <summary>Tables and rules.</summary>
    public SizingRules Rules { get; init; } = new();

    /// <summary>What is wrong with the input, field by field; empty when it can be sized.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        text ??= UnitText.Invariant;
        var checks = new InputChecks(text);
        checks.Named(nameof(Id), "Run identifier", Id);
        checks.InRange(nameof(ContinuousAmperes), $"{Name}, continuous current", ContinuousAmperes, 0.001, 2000, QuantityKind.Current);
        var most = ContinuousAmperes is > 0 and <= 2000 ? ContinuousAmperes : 2000;
        checks.InRange(nameof(MusicAmperes), $"{Name}, current on music", MusicAmperes, 0, most, QuantityKind.Current);
        checks.InRange(nameof(IdleAmperes), $"{Name}, current at idle", IdleAmperes, 0, most, QuantityKind.Current);
        checks.InRange(nameof(SupplyVolts), $"{Name}, supply voltage", SupplyVolts, 6, 49.9, QuantityKind.Voltage);
        checks.InRange(nameof(MakerFuseAmperes), $"{Name}, maker's fuse", MakerFuseAmperes, 0.5, 1000, QuantityKind.Current);
        checks.InRange(nameof(FuseNotBelowAmperes), $"{Name}, least fuse for the fuses behind it", FuseNotBelowAmperes, 0, 1000, QuantityKind.Current);
        checks.InRange(nameof(ProspectiveAmperes), $"{Name}, short-circuit current", ProspectiveAmperes, 0, 1_000_000, QuantityKind.Current);
        checks.InRange(nameof(MaxDropVolts), $"{Name}, voltage drop allowed", MaxDropVolts, 0.005, 10, QuantityKind.Voltage);
        if (Run.LengthMeters is null)
            checks.Add($"{nameof(Run)}.{nameof(RunData.LengthMeters)}", $"{Name}, length one way: nothing was entered; enter {text.Range(0.05, 30, QuantityKind.Length)}.");
        checks.AddRange(Run.Validate(Name, Rules.For(Run).Table, text).Select(p => p with { Field = $"{nameof(Run)}.{p.Field}" }));
        Rules.CheckMetal(checks, nameof(Run), Name, Run);
        checks.AddRange(Rules.Validate(text).Select(p => p with { Field = $"{nameof(Rules)}.{p.Field}" }));
        return checks.Problems;
    }
}
