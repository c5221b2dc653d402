using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Acoustics.Enclosures;

/// <summary>A driver in a box at a voltage, over a band.</summary>
public sealed record EnclosureInput
{
    /// <summary>The driver as its sheet gives it.</summary>
    public required DriverSheet Driver { get; init; }

    /// <summary>How many of them in the box, 1 to 16.</summary>
    public int Count { get; init; } = 1;

    /// <summary>Whether their coils are in series; else in parallel.</summary>
    public bool InSeries { get; init; }

    /// <summary>Whether they stand in pairs one behind the other on one piston (isobaric); then the count is even.</summary>
    public bool Isobaric { get; init; }

    /// <summary>The box.</summary>
    public required Enclosure Box { get; init; }

    /// <summary>Air temperature, °C (−40 to 80).</summary>
    public double AirCelsius { get; init; } = 20;

    /// <summary>Voltage at the terminals, V rms (0.001 to 500).</summary>
    public double Volts { get; init; } = 2.83;

    /// <summary>Largest voltage of the amplifier, V rms (0.1 to 500); null for no limit.</summary>
    public double? AmplifierVolts { get; init; }

    /// <summary>Largest air speed in the port, m/s peak (1 to 100).</summary>
    public double PortMetersPerSecond { get; init; } = LevelLimits.DefaultPortMetersPerSecond;

    /// <summary>Linear excursion of a passive radiator one way, m (1e-5 to 0.2); null for no limit.</summary>
    public double? RadiatorMeters { get; init; }

    /// <summary>Lowest frequency, Hz (1 to 1,000).</summary>
    public double FromHertz { get; init; } = 10;

    /// <summary>Highest frequency, Hz (2 to 20,000), above the lowest.</summary>
    public double ToHertz { get; init; } = 500;

    /// <summary>How many points, 2 to 5,000.</summary>
    public int Points { get; init; } = 200;

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.AddRange(Driver.Validate(text).Select(problem => problem with { Field = $"{nameof(Driver)}.{problem.Field}" }));
        checks.AddRange(Box.Validate(text).Select(problem => problem with { Field = $"{nameof(Box)}.{problem.Field}" }));
        checks.InRange(nameof(Count), "Drivers in the box", Count, 1, 16);
        if (Isobaric && Count % 2 != 0)
            checks.Add(nameof(Count), $"Drivers in the box: {Count} do not make pairs; enter 2, 4 or another even number up to 16.");
        checks.InRange(nameof(AirCelsius), "Air temperature", AirCelsius, -40, 80, QuantityKind.Temperature);
        checks.InRange(nameof(Volts), "Voltage", Volts, 0.001, 500, QuantityKind.Voltage);
        checks.InRange(nameof(AmplifierVolts), "Largest voltage of the amplifier", AmplifierVolts, 0.1, 500, QuantityKind.Voltage);
        checks.InRange(nameof(PortMetersPerSecond), "Largest air speed in the port in m/s", PortMetersPerSecond, 1, 100);
        checks.InRange(nameof(RadiatorMeters), "Linear excursion of the radiator in m", RadiatorMeters, 1e-5, 0.2);
        checks.InRange(nameof(FromHertz), "Lowest frequency in Hz", FromHertz, 1, 1_000);
        checks.InRange(nameof(ToHertz), "Highest frequency in Hz", ToHertz, 2, 20_000);
        checks.InRange(nameof(Points), "Points", Points, 2, 5_000);
        if (FromHertz >= ToHertz)
            checks.Add(nameof(ToHertz), $"Highest frequency: {ToHertz} Hz is not above the lowest, {FromHertz} Hz.");
        if (checks.Problems.Count == 0 && DriverCompletion.Complete(Driver, Air.At(AirCelsius), text) is { Parameters: null } completed)
            checks.Add(nameof(Driver), $"Driver: not known and not to be worked out: {string.Join(", ", completed.Missing)}.");
        return checks.Problems;
    }
}

/// <summary>A driver in a box worked out.</summary>
/// <param name="Driver">The driver, or several as one, as lumped elements.</param>
/// <param name="Response">Level, phase, impedance, excursion and air speed, lowest frequency first.</param>
/// <param name="Largest">Largest level and what ends it.</param>
/// <param name="Findings">Where the sheet contradicts itself.</param>
public sealed record EnclosureResult(DriverParameters Driver, IReadOnlyList<ResponsePoint> Response, IReadOnlyList<LargestLevelPoint> Largest, IReadOnlyList<Finding> Findings);

/// <summary>Driver, box and voltage together.</summary>
public static class EnclosureSimulation
{
    /// <summary>Computes the response.</summary>
    /// <param name="input">Driver, box and band.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="EnclosureInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static EnclosureResult Compute(EnclosureInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        InputChecks.ThrowIfAny(input.Validate(text));
        var air = Air.At(input.AirCelsius);
        var completed = DriverCompletion.Complete(input.Driver, air, text);
        var driver = completed.Parameters!.Joined(input.Count, input.InSeries, input.Isobaric); // checked
        var response = EnclosureResponse.Over(driver, input.Box, air, input.Volts, EnclosureResponse.LogSpaced(input.FromHertz, input.ToHertz, input.Points));
        return new EnclosureResult(driver, response, LargestLevel.Of(response, input.Volts, driver, new LevelLimits(input.AmplifierVolts, input.PortMetersPerSecond, input.RadiatorMeters)), completed.Findings);
    }
}
