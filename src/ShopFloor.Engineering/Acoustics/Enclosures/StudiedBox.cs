using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Acoustics.Enclosures;

/// <summary>What is said of a box that was worked out: its limits, its findings and how it was reached.</summary>
internal sealed class StudiedBox(EnclosureStudyInput input, DriverParameters driver, Air air)
{
    private const string Circuit = "Small, JAES 20 and 21 (1972, 1973); every quantity is proportional to the voltage";

    private const string Helmholtz = "Helmholtz resonator with end corrections (Dalmont, Nederveen and Joly, 2001)";

    public double? CornerHertz { get; init; }

    public required ResponsePoint WorstExcursion { get; init; }

    public required ResponsePoint? WorstPort { get; init; }

    public required ResponsePoint WorstPower { get; init; }

    /// <summary>Where the filters raise the level most.</summary>
    public required (double Hertz, double Decibels) Boost { get; init; }

    public double? Qtc => Box is ClosedBox ? ClosedBoxTheory.Qtc(driver.Qts, driver.VasCubicMeters(air) / Box.NetCubicMeters) : null;

    public double? PortMeters => Tuned is var (volume, hertz, area)
        ? PortLength.Meters(air, volume / input.Ports, hertz, area / input.Ports, input.Ends)
        : null;

    private Enclosure Box => input.Simulation.Box;

    private (double Volume, double Hertz, double Area)? Tuned => Box switch
    {
        VentedBox vented => (vented.NetCubicMeters, vented.TuningHertz, vented.PortSquareMeters),
        BandPassBox band => (band.FrontCubicMeters, band.TuningHertz, band.PortSquareMeters),
        _ => null,
    };

    public IEnumerable<Finding> Find(UnitText text)
    {
        var worst = WorstExcursion;
        var here = $"{text.Millimeters(worst.ExcursionMeters)} one way at {text.With(worst.Hertz, "Hz")} and {text.Volts(input.Simulation.Volts)}";
        if (input.MechanicalMeters is { } end && worst.ExcursionMeters > end)
            yield return Of("enclosure-cone-strikes", Severity.Stop, $"The cone would go {here}; it breaks at {text.Millimeters(end)}.", "Set a high-pass, make the box smaller, tune it lower or give it less power.", Circuit);
        else if (driver.XmaxMeters is { } linear && worst.ExcursionMeters > linear)
            yield return Of("enclosure-excursion", Severity.Warn, $"The cone goes {here}; it is linear to {text.Millimeters(linear)}.", "Set a high-pass, make the box smaller, tune it lower or give it less power.", Circuit);
        if (driver.XmaxMeters is null)
            yield return Of("enclosure-excursion-unknown", Severity.Note, "The linear excursion of the driver is not known, so nothing ends its level at low frequencies.", "Enter it on the part.", "needed for the largest level");
        if (WorstPort is { PortMetersPerSecond: { } speed } port && Box is not RadiatorBox && speed > input.Simulation.PortMetersPerSecond)
            yield return Of("enclosure-port-speed", Severity.Warn, $"Air in the port moves at {Speed(speed, text)} at {text.With(port.Hertz, "Hz")}; above {Speed(input.Simulation.PortMetersPerSecond, text)} it is heard.", "Make the port larger, or flare its ends; it gets longer for the same tuning.", "a twentieth of the speed of sound, from memory");
        if (input.Simulation.RadiatorMeters is { } bears && WorstPort is { RadiatorMeters: { } moved } radiator && moved > bears)
            yield return Of("enclosure-radiator-excursion", Severity.Warn, $"The radiator goes {text.Millimeters(moved)} one way at {text.With(radiator.Hertz, "Hz")}; it is made for {text.Millimeters(bears)}.", "Use a larger radiator or two, or set a high-pass.", Circuit);
        if (Tuned is not null && PortMeters is null)
            yield return Of("enclosure-port-too-short", Severity.Warn, "No port of this cross-section is short enough for this tuning.", "Make the port larger or the tuning lower.", Helmholtz);
        if (PortMeters is { } length && length > 0 && Tuned is { } tuned && PortLength.PipeResonanceHertz(air, length, tuned.Area / input.Ports, input.Ends) is var pipe and < 250)
            yield return Of("enclosure-port-pipe", Severity.Note, $"The port is {text.Millimeters(length)} long and sounds as a pipe at {text.With(pipe, "Hz")}.", "Keep the low-pass well below, or make the port smaller and shorter.", "standing wave of an open pipe");
        if (input.Simulation.AmplifierVolts is { } most && Boost is { Decibels: > 0.5 } && input.Simulation.Volts * Math.Pow(10, Boost.Decibels / 20) > 1.01 * most)
            yield return Of("enclosure-boost-clips", Severity.Warn, $"The filters raise {text.With(Boost.Hertz, "Hz")} by {text.With(Boost.Decibels, "dB")}; at full level the amplifier would have to give {text.Volts(input.Simulation.Volts * Math.Pow(10, Boost.Decibels / 20))} and has {text.Volts(most)}.", $"Turn the channel down by {text.With(Boost.Decibels, "dB")}, or cut elsewhere instead of raising here.", "gain of the filters entered");
        if (input.Cabin is { Measured: { } heard } && !(heard.Covers(input.JudgedFromHertz) && heard.Covers(80)))
            yield return Of("enclosure-transfer-short", Severity.Note, $"The measurement of the car reaches from {text.With(heard.Hertz[0], "Hz")} to {text.With(heard.Hertz[^1], "Hz")}; beyond, its end values are held.", $"Measure from {text.With(input.JudgedFromHertz, "Hz")} or below to 80 Hz or above.", "the file");
        if (driver.RatedWatts is { } rated && WorstPower.Watts > 1.05 * rated)
            yield return Of("enclosure-coil-power", Severity.Warn, $"The resistance of the coil gets {text.Watts(WorstPower.Watts)} at {text.With(WorstPower.Hertz, "Hz")}; it bears {text.Watts(rated)} for long.", "Set the gain for less, or limit the level.", "rating of the part by its nominal impedance (IEC 60268-5), counted in the coil's resistance");
    }

    public Explanation Explain(UnitText text)
    {
        var simulation = input.Simulation;
        List<ExplainedInput> inputs =
        [
            new("Resonance of the driver", driver.ResonanceHertz, "Hz", "part data"),
            new("Its total Q", driver.Qts, "", "part data"),
            new("Its Vas, all drivers", driver.VasCubicMeters(air) * 1000, "l", "part data"),
            new(Box is BandPassBox ? "Net volume behind" : "Net volume", Box.NetCubicMeters * 1000, "l", "entered"),
            .. Box is BandPassBox front ? new ExplainedInput[] { new("Net volume before", front.FrontCubicMeters * 1000, "l", "entered") } : [],
            new("Voltage", simulation.Volts, "V", "from the power it gets"),
        ];
        if (Tuned is { } port)
        {
            inputs.Add(new("Tuning", port.Hertz, "Hz", "entered"));
            inputs.Add(new("Cross-section of the port", port.Area * 10_000, "cm²", "entered"));
        }

        if (input.Cabin is { } cabin)
            inputs.Add(cabin.Measured is { } heard ? new("Points measured in the car", heard.Hertz.Count, "", "file of the job") : new("Corner of the cabin", cabin.CornerHertz, "Hz", "vehicle"));
        inputs.AddRange(input.Filters.Select(filter => new ExplainedInput("Filter before the amplifier", filter.Hertz, "Hz", "entered")));
        return new Explanation(
            $"{input.Name}: what does this box do?",
            string.Join("; ", new[]
            {
                CornerHertz is { } corner ? $"3 dB down at {text.With(corner, "Hz")}" : "no corner in the band",
                Qtc is { } q ? $"Qtc {text.Number(q)}" : null,
                PortMeters is { } length ? $"port {text.Millimeters(length)} long" : null,
                $"cone {text.Millimeters(WorstExcursion.ExcursionMeters)} one way at {text.With(WorstExcursion.Hertz, "Hz")}",
            }.OfType<string>()) + ".",
            inputs,
            [.. Steps(text)],
            [.. Limits()],
            null);
    }

    private IEnumerable<ExplainedStep> Steps(UnitText text)
    {
        var ratio = driver.VasCubicMeters(air) / Box.NetCubicMeters;
        yield return new("Stiffness of the box", "α = Vas/Vb", $"{text.With(driver.VasCubicMeters(air) * 1000, "l")} / {text.With(Box.NetCubicMeters * 1000, "l")}", text.Number(ratio), "Small, JAES 20 (1972)");
        if (Qtc is { } q)
        {
            yield return new("Total Q in the box", "Qtc = Qts·√(1 + α)", $"{text.Number(driver.Qts)} · √(1 + {text.Number(ratio)})", text.Number(q), "Small, JAES 20 (1972)");
            yield return new("Resonance in the box", "fc = fs·√(1 + α)", $"{text.With(driver.ResonanceHertz, "Hz")} · √(1 + {text.Number(ratio)})", text.With(driver.ResonanceHertz * Math.Sqrt(1 + ratio), "Hz"), "Small, JAES 20 (1972)");
        }

        if (Tuned is { } port && PortMeters is { } length)
            yield return new("Length of a port", "L = c²·S/(4π²·fb²·V) − end corrections", $"S {text.With(port.Area / input.Ports * 10_000, "cm²")}, fb {text.With(port.Hertz, "Hz")}, V {text.With(port.Volume / input.Ports * 1000, "l")}", text.Millimeters(length), Helmholtz);
        yield return new("Response", "p = jωρ·U/(2πr), U by the circuit of coil, cone and box", $"{text.Volts(input.Simulation.Volts)} at the terminals, half-space, 1 m", CornerHertz is { } corner ? $"3 dB down at {text.With(corner, "Hz")}" : "no corner in the band", Circuit);
        if (input.Cabin is { Measured: not null } known)
            yield return new("Gain of the cabin", "level in the car − level in free air, as measured", "straight between points over log frequency", $"{text.With(known.Decibels(input.JudgedFromHertz), "dB")} at {text.With(input.JudgedFromHertz, "Hz")}", "measurement in the car");
        else if (input.Cabin is { } cabin)
            yield return new("Gain of the cabin", "10·log10(1 + (f0/f)⁴), f0 = c/(2·L)", $"f0 {text.With(cabin.CornerHertz, "Hz")}", $"{text.With(CabinGain.Decibels(input.JudgedFromHertz, cabin.CornerHertz, cabin.LeakHertz), "dB")} at {text.With(input.JudgedFromHertz, "Hz")}", "pressure of a small closed volume, from memory; a measurement in the car decides");
    }

    private IEnumerable<LimitCheck> Limits()
    {
        if (driver.XmaxMeters is { } linear)
            yield return new("Excursion one way", WorstExcursion.ExcursionMeters * 1000, linear * 1000, "mm", WorstExcursion.ExcursionMeters <= linear, "linear excursion of the part");
        if (WorstPort is { PortMetersPerSecond: { } speed } && Box is not RadiatorBox)
            yield return new("Air in the port", speed, input.Simulation.PortMetersPerSecond, "m/s", speed <= input.Simulation.PortMetersPerSecond, "a twentieth of the speed of sound, from memory");
        if (driver.RatedWatts is { } rated)
            yield return new("Power into the coil's resistance", WorstPower.Watts, rated, "W", WorstPower.Watts <= rated, "rating of the part by its nominal impedance (IEC 60268-5)");
    }

    private static string Speed(double metersPerSecond, UnitText text) => text.With(metersPerSecond, "m/s");

    private Finding Of(string code, Severity severity, string what, string remedy, string source) => new(code, severity, input.Id, input.Name, what, remedy, source);
}
