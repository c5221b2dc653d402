using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Loads;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Signal.Levels;

/// <summary>Levels, gains and noise from every source to every driver.</summary>
public static class SignalLevels
{
    /// <summary>Computes every channel that has a load.</summary>
    /// <param name="input">The path.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="SignalPathInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static IReadOnlyList<ChannelLevels> Compute(SignalPathInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));
        var routes = new SignalRoutes(input);
        return [.. LoadMap.Of(input, text).Select(channel => Of(channel, routes, input.GainOverlapDecibels, text))];
    }

    /// <summary>Gain a channel needs so that a tone <paramref name="overlapDecibels"/> below full scale gives the target voltage, as a ratio.</summary>
    /// <param name="targetVolts">Voltage wanted at the output, V rms, above 0.</param>
    /// <param name="inputVolts">Voltage at the input at full scale, V rms, above 0.</param>
    /// <param name="overlapDecibels">Gain overlap, dB, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static double GainFor(double targetVolts, double inputVolts, double overlapDecibels)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(targetVolts);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(inputVolts);
        ArgumentOutOfRangeException.ThrowIfNegative(overlapDecibels);
        return targetVolts / inputVolts * DecibelLevels.ToRatio(overlapDecibels);
    }

    private static ChannelLevels Of(LoadedChannel channel, SignalRoutes routes, double overlap, UnitText text)
    {
        var amplifier = channel.Amplifier;
        var at = amplifier.Outputs.Select((port, index) => (port.Id, index)).First(pair => pair.Id == channel.Load.Outputs[0]).index;
        var ways = routes.To(amplifier, amplifier.Inputs[at]).Select(RouteLevel.Follow).ToList();
        var loudest = ways.Where(way => way.InputVolts > 0).MaxBy(way => way.InputVolts);
        var gain = channel.TargetVolts is { } target && loudest?.InputVolts is { } volts ? GainFor(target, volts, overlap) : (double?)null;

        // The control is marked in volts for rated output of one channel; a bridged pair gives twice the voltage of one.
        var rated = amplifier.RatedPowers.MaxBy(point => point.Ohms)!; // checked: at least one
        var ratedVolts = Math.Sqrt(rated.Watts * rated.Ohms);
        var sensitivity = ratedVolts / (channel.IsBridged ? gain / 2 : gain);
        var noise = NoiseAtLoad(channel, loudest, gain, ratedVolts);
        return new ChannelLevels
        {
            Channel = channel,
            Routes = ways,
            Loudest = loudest,
            Gain = gain,
            SensitivityVolts = sensitivity,
            OutsideRangeDecibels = Outside(sensitivity, amplifier),
            SignalToNoiseDecibels = noise > 0 && channel.TargetVolts is { } wanted ? DecibelLevels.OfRatio(wanted / noise.Value) : null,
            Noise = [.. channel.Drivers.Select(driver => new DriverNoise(driver.Driver.Id, SoundLevel(driver, channel, noise)))],
            Step = channel is { TargetVolts: { } step, TargetWatts: { } watts } ? new GainStep(ToneFor(channel, loudest), -overlap, step, watts) : null,
            Explanation = Explain(channel, loudest, gain, sensitivity, ratedVolts, overlap, text),
        };
    }

    private static double? Outside(double? sensitivity, AmplifierDevice amplifier) => sensitivity switch
    {
        null => null,
        { } s when amplifier.SensitivityMinVolts is { } min && s < min => DecibelLevels.OfRatio(min / s),
        { } s when amplifier.SensitivityMaxVolts is { } max && s > max => DecibelLevels.OfRatio(max / s),
        _ => amplifier is { SensitivityMinVolts: null, SensitivityMaxVolts: null } ? null : 0,
    };

    private static double? NoiseAtLoad(LoadedChannel channel, RouteLevels? way, double? gain, double ratedVolts)
    {
        if (gain is null || way?.NoiseVolts is not { } before || channel.Amplifier.SignalToNoiseDecibels is not { } own)
            return null;
        var reference = channel.Amplifier.NoiseReference == NoiseReference.OneWatt ? 2 : ratedVolts; // 1 W in 4 Ω is 2 V
        // The two halves of a bridged pair make noise of their own each: √2 of one.
        var amplifier = reference * DecibelLevels.ToRatio(-own) * (channel.IsBridged ? Math.Sqrt(2) : 1);
        return Math.Sqrt(Math.Pow(before * gain.Value, 2) + amplifier * amplifier);
    }

    private static double? SoundLevel(DriverShare driver, LoadedChannel channel, double? noiseVolts)
    {
        if (noiseVolts is not { } volts || volts <= 0 || driver.Driver.SensitivityDecibels is not { } sensitivity)
            return null;
        var across = volts * channel.NominalOhms / (channel.NominalOhms + channel.Load.CableOhms);
        var watts = across * across / channel.NominalOhms * driver.Share;
        // Sensitivity is stated with all coils in parallel, as data sheets of dual-coil drivers usually do (from memory).
        var stated = SignalDefaults.SensitivityVolts * SignalDefaults.SensitivityVolts / (driver.Driver.CoilOhms / driver.Driver.Coils);
        return sensitivity + 10 * Math.Log10(watts / stated);
    }

    // A tone the channel lets through whole: 1 kHz where it can be, else 50 Hz, else the middle of its band.
    private static double ToneFor(LoadedChannel channel, RouteLevels? way)
    {
        double low = channel.Drivers.Max(driver => driver.Driver.LowestHertz ?? 0), high = double.PositiveInfinity;
        foreach (var hop in way?.Route.Hops ?? [])
        {
            if (hop is { Device: ProcessingDevice processing, Output: { } output } && processing.Bands.FirstOrDefault(band => band.Output == output.Id) is { } band)
                (low, high) = (Math.Max(low, band.HighPassHertz ?? 0), Math.Min(high, band.LowPassHertz ?? double.PositiveInfinity));
        }

        foreach (var usual in new[] { 1_000.0, 50, 5_000 })
        {
            if (usual >= 2 * low && usual <= high / 2)
                return usual;
        }

        return Math.Round(double.IsInfinity(high) ? Math.Max(20, 2 * low) : Math.Sqrt(Math.Max(20, low) * high));
    }

    private static Explanation Explain(LoadedChannel channel, RouteLevels? way, double? gain, double? sensitivity, double ratedVolts, double overlap, UnitText text)
    {
        const string ohm = "Ohm's law";
        var steps = new List<ExplainedStep>();
        var limits = new List<LimitCheck>();
        if (channel is { TargetWatts: { } watts, TargetVolts: { } volts })
        {
            steps.Add(new ExplainedStep("Voltage for the power", "V = √(P / Z) · (Z + R)", $"√({text.Number(watts)} / {text.Number(channel.NominalOhms)}) · ({text.Number(channel.NominalOhms)} + {text.Number(channel.Load.CableOhms)})", text.Volts(volts), ohm));
            if (gain is { } ratio && way?.InputVolts is { } at)
            {
                steps.Add(new ExplainedStep("Gain", "A = V / Vin · 10^(overlap / 20)", $"{text.Number(volts)} / {text.Number(at)} · 10^({text.Number(overlap)} / 20)", $"{text.Number(ratio)} ({text.With(DecibelLevels.OfRatio(ratio), "dB")})", "definition of gain; overlap " + Unsourced.CommonPractice));
                steps.Add(new ExplainedStep("Position of the control", channel.IsBridged ? "S = 2 · Vrated / A" : "S = Vrated / A", $"{(channel.IsBridged ? "2 · " : "")}{text.Number(ratedVolts)} / {text.Number(ratio)}", text.Volts(sensitivity!.Value), "definition of input sensitivity")); // there is a gain
            }

            if (channel.AvailableWatts is { } available)
                limits.Add(new LimitCheck("Power the amplifier has for the load", watts, available, "W", watts <= available * (1 + 1e-9), "rated powers of the amplifier, CTA-2006"));
            if (channel.DriverLimitWatts is { } borne)
                limits.Add(new LimitCheck("Power the drivers bear", watts, borne, "W", watts <= borne * (1 + 1e-9), "part data"));
        }

        return new Explanation(
            $"{channel.Name}: which gain?",
            gain is { } answer ? $"{text.With(DecibelLevels.OfRatio(answer), "dB")}, control at {text.Volts(sensitivity!.Value)}" : "not known yet",
            [
                new ExplainedInput("Nominal load", channel.NominalOhms, "Ω", "part data and wiring"),
                new ExplainedInput("Cable", channel.Load.CableOhms, "Ω", "length and size"),
                new ExplainedInput("Gain overlap", overlap, "dB", Unsourced.CommonPractice),
            ],
            steps,
            limits,
            limits.OrderBy(limit => limit.Limit).FirstOrDefault()?.Name);
    }
}
