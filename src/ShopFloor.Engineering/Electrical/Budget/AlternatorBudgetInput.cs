using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>Something added to the car that draws while music plays.</summary>
/// <param name="Id">Identifier, unique in the list.</param>
/// <param name="Name">Name shown in texts.</param>
/// <param name="MusicAmperes">Average current on music, A (0 to 2000); null means not known, which is reported and never taken as zero.</param>
public sealed record MusicLoad(string Id, string Name, double? MusicAmperes);

/// <summary>The charging system, the engine speeds and what draws.</summary>
/// <remarks>
/// The output comes from the first of these that is given: a curve, the stamped rating, the rated current with default shares.
/// </remarks>
public sealed record AlternatorBudgetInput
{
    /// <summary>Default ratio of alternator to engine speed, range 2 to 3. From memory; measure the pulleys.</summary>
    public const double DefaultPulleyRatio = 2.5;

    /// <summary>Default engine speed at idle, 1/min. From memory; read the tachometer.</summary>
    public const double DefaultIdleRpm = 750;

    /// <summary>Default engine speed at cruise, 1/min. From memory; read the tachometer.</summary>
    public const double DefaultCruiseRpm = 2000;

    /// <summary>Output curve at room temperature (or hot, see <see cref="CurveIsHot"/>), rising in speed; at least two points, or empty.</summary>
    public IReadOnlyList<AlternatorPoint> Curve { get; init; } = [];

    /// <summary>Whether the curve was measured on a hot alternator, so that no hot share is taken off again.</summary>
    public bool CurveIsHot { get; init; }

    /// <summary>Rating as stamped, "50/120 A 13.5 V" (SAE J56, ISO 8854); null when not read.</summary>
    public string? StampedRating { get; init; }

    /// <summary>Rated output, A (10 to 1000), when nothing better is known.</summary>
    public double? RatedAmperes { get; init; }

    /// <summary>Alternator speed over engine speed, 1 to 5.</summary>
    public double PulleyRatio { get; init; } = DefaultPulleyRatio;

    /// <summary>Engine speed at idle, 1/min (300 to 2000).</summary>
    public double IdleEngineRpm { get; init; } = DefaultIdleRpm;

    /// <summary>Engine speed at cruise, 1/min (800 to 8000).</summary>
    public double CruiseEngineRpm { get; init; } = DefaultCruiseRpm;

    /// <summary>Hot output as a share of output at room temperature, 0.5 to 1.</summary>
    public double HotFraction { get; init; } = ElectricalDefaults.AlternatorHotFraction;

    /// <summary>What the vehicle itself draws, A (0 to 500); null takes the default.</summary>
    public double? VehicleBaseAmperes { get; init; }

    /// <summary>Everything added.</summary>
    public required IReadOnlyList<MusicLoad> Loads { get; init; }

    /// <summary>Capacity of all batteries on the alternator, Ah (1 to 2000); null when not known, then no drift is given.</summary>
    public double? BatteryAmpereHours { get; init; }

    /// <summary>What is wrong with the input, field by field; empty when it can be computed. A missing current becomes a finding instead.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        if (Curve.Count == 0 && StampedRating is null && RatedAmperes is null)
            checks.Add(nameof(RatedAmperes), $"Alternator output: nothing was entered; enter a curve, {AlternatorRating.Accepted}, or the rated current.");
        if (Curve.Count == 1)
            checks.Add(nameof(Curve), "Output curve: one point is not a curve; enter two points or more, or none.");
        AlternatorChecks.Curve(checks, nameof(Curve), Curve, 500, 25_000);
        if (StampedRating is not null && AlternatorRating.Parse(StampedRating) is null)
            checks.Add(nameof(StampedRating), $"Stamped rating: \u201c{StampedRating}\u201d is not accepted; enter {AlternatorRating.Accepted}.");
        checks.InRange(nameof(RatedAmperes), "Rated output of the alternator", RatedAmperes, 10, 1000, QuantityKind.Current);
        AlternatorChecks.Speeds(checks, "", PulleyRatio, IdleEngineRpm, CruiseEngineRpm);
        checks.InRange(nameof(HotFraction), "Hot output as a share of the cold output", HotFraction, 0.5, 1);
        checks.InRange(nameof(VehicleBaseAmperes), "What the vehicle itself draws", VehicleBaseAmperes, 0, 500, QuantityKind.Current);
        checks.InRange(nameof(BatteryAmpereHours), "Battery capacity in Ah", BatteryAmpereHours, 1, 2000);
        for (var i = 0; i < Loads.Count; i++)
        {
            checks.Named($"{nameof(Loads)}[{i}].{nameof(MusicLoad.Id)}", "Load identifier", Loads[i].Id);
            checks.Named($"{nameof(Loads)}[{i}].{nameof(MusicLoad.Name)}", "Load name", Loads[i].Name);
            checks.InRange($"{nameof(Loads)}[{i}].{nameof(MusicLoad.MusicAmperes)}", $"{Loads[i].Name}, current on music", Loads[i].MusicAmperes, 0, 2000, QuantityKind.Current);
        }

        checks.Distinct(nameof(Loads), "Loads", Loads.Select(l => l.Id));
        return checks.Problems;
    }
}
