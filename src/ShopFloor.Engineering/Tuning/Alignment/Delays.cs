using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Alignment;

/// <summary>Delays that make the sound of all drivers arrive together: the latest gets none.</summary>
public static class Delays
{
    /// <summary>Computes the delays.</summary>
    /// <param name="input">Drivers and processor.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="DelayInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static DelayResult Compute(DelayInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        InputChecks.ThrowIfAny(input.Validate(text));
        text ??= UnitText.Invariant;
        var speed = Air.At(input.AirCelsius).SpeedMetersPerSecond;
        var step = input.DelayStepSeconds ?? 1 / input.SampleRateHertz;
        var measured = input.Drivers[0].ArrivalSeconds is not null;
        double Arrival(DelayDriver driver) => driver.ArrivalSeconds ?? driver.DistanceMeters!.Value / speed; // one of both, checked
        var latest = input.Drivers.Where(driver => !driver.IsRearFill).MaxBy(Arrival)!; // one at least, checked
        var most = Math.Floor(input.MaximumDelaySeconds / step + 1e-9);
        var findings = new FindingList("delays", "Delays");
        List<DriverDelay> delays = [.. input.Drivers.Select(driver =>
        {
            var exact = Arrival(latest) - Arrival(driver) + (driver.IsRearFill ? input.RearFillLagSeconds : 0);
            var set = Math.Clamp(Math.Round(exact / step, MidpointRounding.AwayFromZero), 0, most) * step;
            if (exact > input.MaximumDelaySeconds + step / 2)
            {
                findings.About(
                    driver.Id, driver.Name, "delay-too-long", driver.IsRearFill ? Severity.Warn : Severity.Stop,
                    $"It would take {Milliseconds(exact, text)}; the processor delays by {Milliseconds(input.MaximumDelaySeconds, text)} at most.",
                    "Take a processor with more delay, or leave the driver furthest away out of the alignment.", "maker's sheet as entered");
            }

            if (driver.IsRearFill)
                RearFill.Judge(driver, Arrival(driver) + set - Arrival(latest), findings, text);
            return new DriverDelay(driver.Id, driver.Name, Arrival(driver), exact, set, set * input.SampleRateHertz, set * speed, set - exact);
        })];
        Compare(input, speed, findings, text);
        var largest = delays.Max(delay => Math.Abs(delay.ErrorSeconds));
        return new DelayResult(delays, speed, findings.Sorted, new Explanation(
            "Which delays make the sound arrive together?",
            $"{latest.Name} arrives last and gets none; the others wait for it, at most {Milliseconds(delays.Max(delay => delay.DelaySeconds), text)}.",
            [
                .. measured ? [] : new[] { new ExplainedInput("Air temperature", input.AirCelsius, "°C", "entered") },
                new ExplainedInput("Step of the delay", step * 1e3, "ms", input.DelayStepSeconds is null ? "one sample" : "entered"),
                .. input.Drivers.Select(driver => measured
                    ? new ExplainedInput($"{driver.Name}, arrival", Arrival(driver) * 1e3, "ms", "measured")
                    : new ExplainedInput($"{driver.Name}, distance", driver.DistanceMeters!.Value, "m", "entered")), // checked
            ],
            [
                new ExplainedStep("Speed of sound", "343.2·√((t + 273.15)/293.15)", $"343.2·√(({text.Number(input.AirCelsius)} + 273.15)/293.15)", text.With(speed, "m/s", 5), "ISO 9613-1"),
                .. delays.Select(delay => new ExplainedStep(delay.Name, "latest arrival − own arrival", $"{Milliseconds(Arrival(latest), text)} − {Milliseconds(delay.ArrivalSeconds, text)}", $"{Milliseconds(delay.DelaySeconds, text)}, {text.Number(delay.DelaySamples, 5)} samples", "geometry")),
            ],
            [new LimitCheck("Error by rounding", largest * 1e3, step * 500, "ms", largest <= step / 2 + 1e-12, "half a step")],
            latest.Name));
    }

    private static void Compare(DelayInput input, double speed, FindingList findings, UnitText text)
    {
        // Arrivals carry the latency of the measurement, the same for all; what is left over beside the distance belongs to filters or to a mistake.
        List<(DelayDriver Driver, double Beyond)> both = [.. input.Drivers
            .Where(driver => driver is { ArrivalSeconds: not null, DistanceMeters: not null })
            .Select(driver => (driver, driver.ArrivalSeconds!.Value - driver.DistanceMeters!.Value / speed))]; // filtered
        if (both.Count < 2)
            return;
        var usual = both.Select(pair => pair.Beyond).Order().ElementAt(both.Count / 2);
        foreach (var (driver, beyond) in both.Where(pair => Math.Abs(pair.Beyond - usual) > 0.001))
        {
            findings.About(
                driver.Id, driver.Name, "arrival-unlike-distance", Severity.Warn,
                $"It was measured {Milliseconds(Math.Abs(beyond - usual), text)} {(beyond > usual ? "later" : "earlier")} than its distance says beside the other drivers.",
                "Measure again: a low-pass delays what is measured, and a reflection may have been taken for the first arrival.", Unsourced.CommonPractice);
        }
    }

    private static string Milliseconds(double seconds, UnitText text) => text.With(seconds * 1e3, "ms", 4);
}
