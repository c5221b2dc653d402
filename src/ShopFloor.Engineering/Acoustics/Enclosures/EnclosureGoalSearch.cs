using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Numerics;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Acoustics.Enclosures;

/// <summary>Finds the box that reaches a goal within the room there is.</summary>
/// <remarks>
/// Q and corner of a closed box by Small (JAES 20, 1972), without coil inductance and filters; flatness and excursion by the whole circuit with
/// filters. Flatness is the root mean square of the level in the cabin about its mean, over frequencies evenly apart on a logarithmic scale.
/// </remarks>
public static class EnclosureGoalSearch
{
    private const string Theory = "Small, JAES 20 (1972)";
    private const string Circuit = "lumped circuit, search over volume and tuning";

    /// <summary>Searches the box.</summary>
    /// <param name="input">Driver, goal and room.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="EnclosureGoalInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static EnclosureGoalResult Compute(EnclosureGoalInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));
        var air = Air.At(input.AirCelsius);
        var driver = DriverCompletion.Complete(input.Driver, air, text).Parameters!.Joined(input.Count, input.InSeries, input.Isobaric); // checked
        var (box, reached, why) = input.Goal switch
        {
            QtcGoal goal => ForQtc(input, driver, air, goal, text),
            CornerGoal goal => ForCorner(input, driver, air, goal, text),
            FlatGoal goal => Flattest(input, driver, air, goal),
            ExcursionGoal goal => WithinExcursion(input, driver, air, goal, text),
            _ => throw new ArgumentOutOfRangeException(nameof(input), input.Goal.GetType().Name, "This goal is not known."),
        };
        var (band, volts, cabin) = input.Goal switch
        {
            FlatGoal flat => ((flat.FromHertz, flat.ToHertz), 2.83, flat.Cabin),
            ExcursionGoal excursion => ((excursion.FromHertz, excursion.ToHertz), Math.Sqrt(excursion.Watts * driver.ReOhms), null),
            _ => ((20.0, 120.0), 2.83, (CabinLift?)null),
        };
        var summary = BoxSummary.Of(driver, box, air, volts, band, cabin, input.Filters);
        Finding[] findings = reached ? [] : [new Finding("goal-not-reached", Severity.Warn, "enclosure", "Enclosure", why!, "Give more room, take another driver, or ask for less.", input.Goal is QtcGoal or CornerGoal ? Theory : Circuit)]; // said whenever it is not reached
        return new EnclosureGoalResult(reached, box, summary, findings, Explain(input, driver, air, box, summary, reached, text));
    }

    private static (Enclosure Box, bool Reached, string? Why) ForQtc(EnclosureGoalInput input, DriverParameters driver, Air air, QtcGoal goal, UnitText text)
    {
        var volume = ClosedBoxTheory.VolumeFor(driver.Qts, driver.VasCubicMeters(air), goal.Qtc);
        if (volume is { } fits && fits >= input.LeastCubicMeters && fits <= input.MostCubicMeters)
            return (new ClosedBox { NetCubicMeters = fits }, true, null);
        var nearest = volume < input.LeastCubicMeters ? input.LeastCubicMeters : input.MostCubicMeters;
        return (new ClosedBox { NetCubicMeters = nearest }, false, volume is { } asked
            ? $"A Q of {text.Number(goal.Qtc)} asks for {Liters(asked, text)}; there is room for {Liters(input.LeastCubicMeters, text)} to {Liters(input.MostCubicMeters, text)}."
            : $"The driver's own Q of {text.Number(driver.Qts)} is not below {text.Number(goal.Qtc)}: no closed box lowers it.");
    }

    private static (Enclosure Box, bool Reached, string? Why) ForCorner(EnclosureGoalInput input, DriverParameters driver, Air air, CornerGoal goal, UnitText text)
    {
        var (vas, fs, qts) = (driver.VasCubicMeters(air), driver.ResonanceHertz, driver.Qts);
        double Corner(double log)
        {
            var root = Math.Sqrt(1 + vas / Math.Exp(log));
            return fs * root * ClosedBoxTheory.CornerOverResonance(qts * root);
        }

        var (least, most) = (Math.Log(input.LeastCubicMeters), Math.Log(input.MostCubicMeters));
        var (lowest, _, reaches) = Search.Least((log, _) => Corner(log), (least, most), (0, 0), 201);
        if (reaches > goal.Hertz)
        {
            return (new ClosedBox { NetCubicMeters = Math.Exp(lowest) }, false,
                $"Within {Liters(input.LeastCubicMeters, text)} to {Liters(input.MostCubicMeters, text)} a closed box reaches down to {text.Number(reaches)} Hz, not to {text.Number(goal.Hertz)} Hz.");
        }

        // Below the lowest corner it rises as the box gets smaller.
        var log = Search.Zero(at => Corner(at) - goal.Hertz, least, lowest) ?? least;
        return (new ClosedBox { NetCubicMeters = Math.Exp(log) }, true, null);
    }

    private static (Enclosure Box, bool Reached, string? Why) Flattest(EnclosureGoalInput input, DriverParameters driver, Air air, FlatGoal goal)
    {
        var hertz = EnclosureResponse.LogSpaced(goal.FromHertz, goal.ToHertz, 41);
        Enclosure Box(double volume, double tuning) => goal.Vented
            ? new VentedBox { NetCubicMeters = Math.Exp(volume), TuningHertz = Math.Exp(tuning), PortSquareMeters = input.PortSquareMeters, LeakQ = input.LeakQ }
            : new ClosedBox { NetCubicMeters = Math.Exp(volume) };
        double Uneven(double volume, double tuning)
        {
            var levels = BoxSummary.InCabin(FilteredResponse.Of(EnclosureResponse.Over(driver, Box(volume, tuning), air, 1, hertz), input.Filters), goal.Cabin);
            var mean = levels.Average();
            return levels.Sum(level => (level - mean) * (level - mean));
        }

        var tunings = goal.Vented ? (Math.Log(goal.LeastTuningHertz), Math.Log(goal.MostTuningHertz)) : (0.0, 0.0);
        var (first, second, _) = Search.Least(Uneven, (Math.Log(input.LeastCubicMeters), Math.Log(input.MostCubicMeters)), tunings);
        return (Box(first, second), true, null);
    }

    private static (Enclosure Box, bool Reached, string? Why) WithinExcursion(EnclosureGoalInput input, DriverParameters driver, Air air, ExcursionGoal goal, UnitText text)
    {
        var hertz = EnclosureResponse.LogSpaced(goal.FromHertz, goal.ToHertz, 121);
        var volts = Math.Sqrt(goal.Watts * driver.ReOhms);
        Enclosure Box(double log) => goal.TuningHertz is { } tuning
            ? new VentedBox { NetCubicMeters = Math.Exp(log), TuningHertz = tuning, PortSquareMeters = input.PortSquareMeters, LeakQ = input.LeakQ }
            : new ClosedBox { NetCubicMeters = Math.Exp(log) };
        double Over(double log) => FilteredResponse.Of(EnclosureResponse.Over(driver, Box(log), air, volts, hertz), input.Filters).Max(point => point.ExcursionMeters) - driver.XmaxMeters!.Value; // demanded
        var (least, most) = (Math.Log(input.LeastCubicMeters), Math.Log(input.MostCubicMeters));
        const int Steps = 60;
        // From the largest down, the first that keeps it; then the crossing just above.
        for (var n = Steps; n >= 0; n--)
        {
            var log = least + (most - least) * n / Steps;
            if (Over(log) > 0)
                continue;
            var found = n == Steps ? log : Search.Zero(Over, log, least + (most - least) * (n + 1) / Steps) ?? log;
            return (Box(found), true, null);
        }

        return (Box(least), false, $"At {text.Watts(goal.Watts)} the cone leaves its {text.Millimeters(driver.XmaxMeters!.Value)} in every box from {Liters(input.LeastCubicMeters, text)} to {Liters(input.MostCubicMeters, text)}: less power, or a high-pass."); // demanded
    }

    private static string Liters(double cubicMeters, UnitText text) => text.With(1_000 * cubicMeters, "l");

    private static Explanation Explain(EnclosureGoalInput input, DriverParameters driver, Air air, Enclosure box, BoxSummary summary, bool reached, UnitText text)
    {
        var tuning = (box as VentedBox)?.TuningHertz;
        var answer = Liters(box.NetCubicMeters, text) + (tuning is { } hertz ? $", tuned to {text.Number(hertz)} Hz" : ", closed") + (reached ? "" : "; the goal is not reached");
        ExplainedStep step = input.Goal switch
        {
            QtcGoal goal => new("Volume for a Q", "Vb = Vas/((Qtc/Qts)² − 1)", $"{text.Number(1_000 * driver.VasCubicMeters(air))} l / (({text.Number(goal.Qtc)}/{text.Number(driver.Qts)})² − 1)", Liters(box.NetCubicMeters, text), Theory),
            CornerGoal goal => new("Smallest volume for a corner", "fs·√(1 + Vas/Vb)·f3/fc(Qtc) = f3", $"f3 {text.Number(goal.Hertz)} Hz", Liters(box.NetCubicMeters, text), Theory),
            FlatGoal goal => new("Flattest in the cabin", "least Σ(L − L̄)²", $"{text.Number(goal.FromHertz)} to {text.Number(goal.ToHertz)} Hz, cabin {(goal.Cabin.Measured is null ? $"{text.Number(goal.Cabin.CornerHertz)} Hz" : "as measured")}", $"{text.Number(summary.UnevenDecibels, 2)} dB about the mean", Circuit),
            _ => new("Largest volume within the excursion", "max x(f) ≤ Xmax", $"{text.Watts(((ExcursionGoal)input.Goal).Watts)} into Re", $"{text.Millimeters(summary.ExcursionMeters)}", Circuit),
        };
        LimitCheck[] limits = driver.XmaxMeters is { } xmax && input.Goal is ExcursionGoal
            ? [new LimitCheck("Excursion", 1_000 * summary.ExcursionMeters, 1_000 * xmax, "mm", summary.ExcursionMeters <= xmax * (1 + 1e-6), "the driver's linear excursion")]
            : [];
        return new Explanation("Which box reaches the goal?", answer,
            [
                new ExplainedInput("Driver, total Q", driver.Qts, "", "driver data"),
                new ExplainedInput("Driver, resonance", driver.ResonanceHertz, "Hz", "driver data"),
                new ExplainedInput("Driver, Vas", 1_000 * driver.VasCubicMeters(air), "l", "driver data"),
                new ExplainedInput("Room", 1_000 * input.MostCubicMeters, "l", "entered"),
            ],
            [step], limits, limits.FirstOrDefault(limit => !limit.Passed)?.Name);
    }
}
