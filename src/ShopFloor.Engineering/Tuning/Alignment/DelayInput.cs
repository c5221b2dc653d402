using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Alignment;

/// <summary>A driver, or several on one channel, as the delay sees it.</summary>
/// <param name="Id">Identifier of the channel.</param>
/// <param name="Name">Its name.</param>
/// <param name="DistanceMeters">Way from the driver to the listener's head, m (0.02 to 20); null when not known.</param>
/// <param name="ArrivalSeconds">Measured arrival, s (−1 to 2), all on one clock; null when not measured.</param>
/// <param name="IsRearFill">Whether it is rear fill, which comes late on purpose.</param>
public sealed record DelayDriver(string Id, string Name, double? DistanceMeters = null, double? ArrivalSeconds = null, bool IsRearFill = false);

/// <summary>Drivers whose sound shall arrive together.</summary>
public sealed record DelayInput
{
    /// <summary>1 to 64 drivers: all with a distance, or all with an arrival. An arrival goes before a distance.</summary>
    public required IReadOnlyList<DelayDriver> Drivers { get; init; }

    /// <summary>Air temperature, °C (−40 to 80).</summary>
    public double AirCelsius { get; init; } = 20;

    /// <summary>Sample rate of the processor, Hz.</summary>
    public double SampleRateHertz { get; init; } = 48_000;

    /// <summary>Step of the delay, s (1e-7 to 0.01); null for one sample.</summary>
    public double? DelayStepSeconds { get; init; }

    /// <summary>Largest delay of the processor, s (0 to 1).</summary>
    public double MaximumDelaySeconds { get; init; } = 0.02;

    /// <summary>How much later rear fill comes than the front, s (0 to 0.05).</summary>
    public double RearFillLagSeconds { get; init; } = 0.015;

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(Drivers), "Drivers", Drivers.Count, 1, 64);
        checks.Distinct(nameof(Drivers), "Drivers", Drivers.Select(driver => driver.Id));
        checks.InRange(nameof(AirCelsius), "Air temperature", AirCelsius, -40, 80, QuantityKind.Temperature);
        checks.InRange(nameof(SampleRateHertz), "Sample rate in Hz", SampleRateHertz, FilterLimits.LeastSampleRateHertz, FilterLimits.LargestSampleRateHertz);
        checks.InRange(nameof(DelayStepSeconds), "Step of the delay in s", DelayStepSeconds, 1e-7, 0.01);
        checks.InRange(nameof(MaximumDelaySeconds), "Largest delay in s", MaximumDelaySeconds, 0, 1);
        checks.InRange(nameof(RearFillLagSeconds), "Lag of rear fill in s", RearFillLagSeconds, 0, 0.05);
        var measured = Drivers.Any(driver => driver.ArrivalSeconds is not null);
        foreach (var (driver, at) in Drivers.Take(64).Select((driver, at) => (driver, at)))
        {
            checks.Named($"{nameof(Drivers)}[{at}].{nameof(driver.Id)}", "Identifier of the driver", driver.Id);
            checks.InRange($"{nameof(Drivers)}[{at}].{nameof(driver.DistanceMeters)}", "Distance", driver.DistanceMeters, 0.02, 20, QuantityKind.Length);
            checks.InRange($"{nameof(Drivers)}[{at}].{nameof(driver.ArrivalSeconds)}", "Arrival in s", driver.ArrivalSeconds, -1, 2);
            if (measured && driver.ArrivalSeconds is null)
                checks.Add($"{nameof(Drivers)}[{at}].{nameof(driver.ArrivalSeconds)}", $"Arrival of {driver.Name}: nothing was measured, but other drivers were; measure this one too, or take all arrivals out.");
            else if (!measured && driver.DistanceMeters is null)
                checks.Add($"{nameof(Drivers)}[{at}].{nameof(driver.DistanceMeters)}", $"Distance of {driver.Name}: nothing was entered; enter 0.02 to 20 m.");
        }

        if (Drivers.Count > 0 && Drivers.All(driver => driver.IsRearFill))
            checks.Add(nameof(Drivers), "Drivers: all are rear fill; name at least one that is not, so that it can come after it.");
        return checks.Problems;
    }
}

/// <summary>Delay of a driver.</summary>
/// <param name="Id">Identifier of the channel.</param>
/// <param name="Name">Its name.</param>
/// <param name="ArrivalSeconds">When its sound arrives without delay, s: measured, or distance over the speed of sound.</param>
/// <param name="ExactSeconds">Delay it would take exactly, s.</param>
/// <param name="DelaySeconds">Delay to set, on the processor's steps, s.</param>
/// <param name="DelaySamples">The same in samples.</param>
/// <param name="DelayMeters">The way sound goes in that time, m.</param>
/// <param name="ErrorSeconds">What rounding and range leave over, s: late is positive.</param>
public sealed record DriverDelay(string Id, string Name, double ArrivalSeconds, double ExactSeconds, double DelaySeconds, double DelaySamples, double DelayMeters, double ErrorSeconds);

/// <summary>Delays.</summary>
/// <param name="Delays">In the order of the drivers.</param>
/// <param name="SpeedMetersPerSecond">Speed of sound, m/s.</param>
/// <param name="Findings">What to know.</param>
/// <param name="Explanation">How it was reached.</param>
public sealed record DelayResult(IReadOnlyList<DriverDelay> Delays, double SpeedMetersPerSecond, IReadOnlyList<Finding> Findings, Explanation Explanation);
