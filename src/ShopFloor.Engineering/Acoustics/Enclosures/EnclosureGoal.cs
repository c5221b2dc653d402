using System.Text.Json.Serialization;
using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Acoustics.Enclosures;

/// <summary>What a box should reach.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(QtcGoal), "qtc")]
[JsonDerivedType(typeof(CornerGoal), "corner")]
[JsonDerivedType(typeof(FlatGoal), "flat")]
[JsonDerivedType(typeof(ExcursionGoal), "excursion")]
public abstract record EnclosureGoal
{
    private protected abstract void Check(InputChecks checks);

    internal void CheckInto(InputChecks checks) => Check(checks);
}

/// <summary>A closed box of a wanted total Q.</summary>
/// <param name="Qtc">Total Q (0.3 to 2).</param>
public sealed record QtcGoal(double Qtc) : EnclosureGoal
{
    private protected override void Check(InputChecks checks) => checks.InRange("Goal.Qtc", "Total Q", Qtc, 0.3, 2);
}

/// <summary>The smallest closed box that reaches down to a frequency.</summary>
/// <param name="Hertz">Frequency 3 dB down, Hz (5 to 300).</param>
public sealed record CornerGoal(double Hertz) : EnclosureGoal
{
    private protected override void Check(InputChecks checks) => checks.InRange("Goal.Hertz", "Frequency 3 dB down in Hz", Hertz, 5, 300);
}

/// <summary>The flattest response in the cabin over a band, by volume and, when vented, tuning.</summary>
/// <param name="Vented">Whether the box has a port; else closed.</param>
/// <param name="Cabin">The cabin.</param>
/// <param name="FromHertz">Lowest frequency, Hz (5 to 200).</param>
/// <param name="ToHertz">Highest frequency, Hz (20 to 500), above the lowest.</param>
/// <param name="LeastTuningHertz">Lowest tuning, Hz (10 to 150).</param>
/// <param name="MostTuningHertz">Highest tuning, Hz (10 to 150), above the lowest.</param>
public sealed record FlatGoal(bool Vented, CabinLift Cabin, double FromHertz = 20, double ToHertz = 80, double LeastTuningHertz = 18, double MostTuningHertz = 60) : EnclosureGoal
{
    private protected override void Check(InputChecks checks)
    {
        checks.InRange("Goal.Cabin.CornerHertz", "Corner of the cabin in Hz", Cabin.CornerHertz, 20, 200);
        checks.InRange("Goal.Cabin.LeakHertz", "Frequency the cabin leaks below in Hz", Cabin.LeakHertz, 1, 100);
        checks.InRange("Goal.FromHertz", "Lowest frequency in Hz", FromHertz, 5, 200);
        checks.InRange("Goal.ToHertz", "Highest frequency in Hz", ToHertz, 20, 500);
        checks.InRange("Goal.LeastTuningHertz", "Lowest tuning in Hz", LeastTuningHertz, 10, 150);
        checks.InRange("Goal.MostTuningHertz", "Highest tuning in Hz", MostTuningHertz, 10, 150);
        if (FromHertz >= ToHertz)
            checks.Add("Goal.ToHertz", $"Highest frequency: {ToHertz} Hz is not above the lowest, {FromHertz} Hz.");
        if (LeastTuningHertz >= MostTuningHertz)
            checks.Add("Goal.MostTuningHertz", $"Highest tuning: {MostTuningHertz} Hz is not above the lowest, {LeastTuningHertz} Hz.");
    }
}

/// <summary>The largest box in which the cone stays within its linear excursion at a power.</summary>
/// <param name="Watts">Power into Re, W (0.1 to 20,000): the voltage is √(P·Re).</param>
/// <param name="TuningHertz">Tuning of a vented box, Hz (5 to 500); null for a closed one.</param>
/// <param name="FromHertz">Lowest frequency that is played, Hz (5 to 200).</param>
/// <param name="ToHertz">Highest, Hz (20 to 500), above the lowest.</param>
public sealed record ExcursionGoal(double Watts, double? TuningHertz = null, double FromHertz = 20, double ToHertz = 120) : EnclosureGoal
{
    private protected override void Check(InputChecks checks)
    {
        checks.InRange("Goal.Watts", "Power", Watts, 0.1, 20_000, QuantityKind.Power);
        checks.InRange("Goal.TuningHertz", "Tuning in Hz", TuningHertz, 5, 500);
        checks.InRange("Goal.FromHertz", "Lowest frequency in Hz", FromHertz, 5, 200);
        checks.InRange("Goal.ToHertz", "Highest frequency in Hz", ToHertz, 20, 500);
        if (FromHertz >= ToHertz)
            checks.Add("Goal.ToHertz", $"Highest frequency: {ToHertz} Hz is not above the lowest, {FromHertz} Hz.");
    }
}

/// <summary>A driver, what its box should reach, and the room there is.</summary>
public sealed record EnclosureGoalInput
{
    /// <summary>The driver as its sheet gives it.</summary>
    public required DriverSheet Driver { get; init; }

    /// <summary>How many of them in the box, 1 to 16.</summary>
    public int Count { get; init; } = 1;

    /// <summary>Whether their coils are in series; else in parallel.</summary>
    public bool InSeries { get; init; }

    /// <summary>Whether they stand in pairs one behind the other on one piston (isobaric); then the count is even.</summary>
    public bool Isobaric { get; init; }

    /// <summary>What to reach.</summary>
    public required EnclosureGoal Goal { get; init; }

    /// <summary>Smallest net volume, m³ (1e-4 to 5).</summary>
    public double LeastCubicMeters { get; init; } = 0.005;

    /// <summary>Largest net volume there is room for, m³ (1e-4 to 5), above the smallest.</summary>
    public double MostCubicMeters { get; init; } = 0.2;

    /// <summary>Cross-section of a port, m² (1e-5 to 1), for its air speed.</summary>
    public double PortSquareMeters { get; init; } = 0.008;

    /// <summary>Q of leaks of a vented box (1 to 1000); null for none. Small, JAES 21 (1973): 7 is a good start.</summary>
    public double? LeakQ { get; init; } = 7;

    /// <summary>Filters before the amplifier.</summary>
    public IReadOnlyList<FilterSection> Filters { get; init; } = [];

    /// <summary>Air temperature, °C (−40 to 80).</summary>
    public double AirCelsius { get; init; } = 20;

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.AddRange(Driver.Validate(text).Select(problem => problem with { Field = $"{nameof(Driver)}.{problem.Field}" }));
        checks.InRange(nameof(Count), "Drivers in the box", Count, 1, 16);
        if (Isobaric && Count % 2 != 0)
            checks.Add(nameof(Count), $"Drivers in the box: {Count} do not make pairs; enter 2, 4 or another even number up to 16.");
        checks.InRange(nameof(LeastCubicMeters), "Smallest volume in m³", LeastCubicMeters, 1e-4, 5);
        checks.InRange(nameof(MostCubicMeters), "Largest volume in m³", MostCubicMeters, 1e-4, 5);
        checks.InRange(nameof(PortSquareMeters), "Cross-section of the port in m²", PortSquareMeters, 1e-5, 1);
        checks.InRange(nameof(LeakQ), "Q of leaks", LeakQ, 1, 1_000);
        checks.InRange(nameof(AirCelsius), "Air temperature", AirCelsius, -40, 80, QuantityKind.Temperature);
        Goal.CheckInto(checks);
        for (var n = 0; n < Filters.Count; n++)
            Filters[n].Check(checks, $"{nameof(Filters)}[{n}]");
        if (LeastCubicMeters >= MostCubicMeters)
            checks.Add(nameof(MostCubicMeters), $"Largest volume: {MostCubicMeters} m³ is not above the smallest, {LeastCubicMeters} m³.");
        if (Goal is ExcursionGoal && Driver.XmaxMeters is null)
            checks.Add($"{nameof(Driver)}.{nameof(DriverSheet.XmaxMeters)}", "Linear excursion: nothing was entered; this goal needs it.");
        if (checks.Problems.Count == 0 && DriverCompletion.Complete(Driver, Air.At(AirCelsius), text) is { Parameters: null } completed)
            checks.Add(nameof(Driver), $"Driver: not known and not to be worked out: {string.Join(", ", completed.Missing)}.");
        return checks.Problems;
    }
}

/// <summary>The box found.</summary>
/// <param name="Reached">Whether the goal is reached within the room; else the box is the nearest there is.</param>
/// <param name="Box">The box.</param>
/// <param name="Summary">Its numbers.</param>
/// <param name="Findings">What was found.</param>
/// <param name="Explanation">How it was reached.</param>
public sealed record EnclosureGoalResult(bool Reached, Enclosure Box, BoxSummary Summary, IReadOnlyList<Finding> Findings, Explanation Explanation);
