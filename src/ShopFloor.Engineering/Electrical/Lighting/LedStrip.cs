using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Lighting;

/// <summary>Currents, voltage drop, feed points, supply and fuse of LED strips.</summary>
/// <remarks>
/// Drop at the far end of a strip that draws evenly: I·R/2 fed at one end, I·R/8 in the middle fed at both; here it is solved cell by
/// cell, which also holds where resistors set the current and with wires to the feed points. The loop is both rails; an analogue strip
/// of several colours returns each colour on a rail of its own, so its loop is (1 + 1/colours) rails for the whole current.
/// </remarks>
public static class LedStrip
{
    /// <summary>Resistance of one rail when nothing is entered, Ω/m: 3 mm wide, 70 µm of copper. Common build, no source; measure it.</summary>
    public const double DefaultRailOhmsPerMeter = 0.082;

    /// <summary>Drop allowed when nothing is entered, percent. Common practice, no source.</summary>
    public const double DefaultMaxDropPercent = 5;

    /// <summary>Forward voltage of a segment over its supply when nothing is entered. From memory: 3 LEDs of 3.1 V on 12 V.</summary>
    public const double DefaultForwardShare = 0.775;

    /// <summary>Most feed points tried.</summary>
    public const int MostFeedPoints = 64;

    /// <summary>Load over rating of supplies and controllers. Handbook practice, as for fuses.</summary>
    public const double Loading = ElectricalDefaults.ContinuousLoading;

    private const int MostCells = 1000;

    /// <summary>Resistance of a copper rail at 20 °C, Ω/m.</summary>
    /// <param name="widthMeters">Width, m, above 0.</param>
    /// <param name="thicknessMeters">Thickness of the copper, m, above 0 (35 µm is one ounce per square foot).</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is not above 0.</exception>
    public static double CopperRailOhmsPerMeter(double widthMeters, double thicknessMeters)
    {
        if (!(widthMeters > 0))
            throw new ArgumentOutOfRangeException(nameof(widthMeters), widthMeters, "Enter a width above 0.");
        if (!(thicknessMeters > 0))
            throw new ArgumentOutOfRangeException(nameof(thicknessMeters), thicknessMeters, "Enter a thickness above 0.");
        return Copper.OhmSquareMillimetersPerMeter * 1e-6 / (widthMeters * thicknessMeters);
    }

    /// <summary>Computes the zones, supply, controller and fuse.</summary>
    /// <param name="input">Strip and zones.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="LedStripInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static LedStripResult Compute(LedStripInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));

        var perMeter = AmperesPerMeterPerColour(input);
        List<LedZoneResult> zones = [.. input.Zones.Select(z => Zone(input, z, perMeter))];
        var full = zones.Sum(z => z.FullAmperes);
        var watts = full * input.SupplyVolts;
        var controller = zones.Count == 0 ? 0 : zones.Max(z => z.AmperesPerColour) / Loading;
        var fuse = full > 0 ? FuseRatings.Smallest(FuseRatings.All, FuseRatings.MinimumRating(full, Loading), 500, input.SupplyVolts) : null;
        var limits = zones.Select(z => new LimitCheck(
            $"{z.Name}: drop to the worst segment", z.WorstDropPercent, input.MaxDropPercent, "%", z.WorstDropPercent <= input.MaxDropPercent, "entered, or common practice")).ToList();
        if (input.SupplyWatts is { } supply)
            limits.Add(new LimitCheck("Power within 80 % of the supply", watts, supply * Loading, "W", watts <= supply * Loading, "handbook practice"));
        if (input.ControllerAmperesPerColour is { } amperes)
            limits.Add(new LimitCheck("Current of a colour within 80 % of the controller", controller * Loading, amperes * Loading, "A", controller <= amperes, "handbook practice"));

        return new LedStripResult
        {
            Zones = zones,
            FullAmperes = full,
            FullWatts = watts,
            SceneAmperes = zones.Sum(z => z.SceneAmperes),
            LeastSupplyWatts = watts / Loading,
            LeastControllerAmperesPerColour = controller,
            Fuse = fuse,
            Findings = LedStripFindings.Find(input, zones, watts, controller, text),
            Explanation = Explain(input, perMeter, zones, full, watts, fuse, limits, text),
        };
    }

    internal static double LoopOhmsPerMeter(LedStripInput input) =>
        input.RailOhmsPerMeter * (input.Drive == LedDrive.Analogue ? 1 + 1.0 / input.Colours : 2);

    internal static double ForwardVolts(LedStripInput input) => input.SegmentForwardVolts ?? DefaultForwardShare * input.SupplyVolts;

    private static double AmperesPerMeterPerColour(LedStripInput input) => input.AmperesPerLedPerColour is { } led
        ? led * input.LedsPerMeter / input.LedsPerSegment
        : input.WattsPerMeter!.Value / input.SupplyVolts / input.Colours; // validated: one of the two is there

    private static LedZoneResult Zone(LedStripInput input, LedZone zone, double perMeterPerColour)
    {
        var perColour = perMeterPerColour * zone.LengthMeters;
        var full = perColour * input.Colours;
        var segments = Math.Max(1, (int)Math.Round(zone.LengthMeters * input.LedsPerMeter / input.LedsPerSegment));
        var ladder = new StripLadder(
            input.SupplyVolts, ForwardVolts(input), input.Segment, full, zone.LengthMeters, Math.Min(segments, MostCells), LoopOhmsPerMeter(input), zone.FeederOhms);
        var volts = ladder.Solve(zone.FeedPoints);
        var worst = Array.IndexOf(volts, volts.Min());
        var drop = input.SupplyVolts - volts[worst];
        int? least = null;
        for (var feeds = 1; feeds <= MostFeedPoints && least is null; feeds++)
        {
            if (input.SupplyVolts - ladder.Solve(feeds).Min() <= input.MaxDropPercent / 100 * input.SupplyVolts)
                least = feeds;
        }

        var stride = Math.Max(1, (int)Math.Ceiling(ladder.Cells / 100.0));
        return new LedZoneResult
        {
            ZoneId = zone.Id,
            Name = zone.Name,
            AmperesPerColour = perColour,
            FullAmperes = full,
            FullWatts = full * input.SupplyVolts,
            SceneAmperes = zone.SceneShares.Count == 0 ? full : zone.SceneShares.Sum(share => share * perColour),
            DrawnAmperes = volts.Sum(ladder.Share) * full / ladder.Cells,
            WorstDropVolts = drop,
            WorstDropPercent = 100 * drop / input.SupplyVolts,
            WorstPositionMeters = ladder.Position(worst),
            DimmestShare = ladder.Share(volts[worst]),
            LeastFeedPoints = least,
            Course = [.. Enumerable.Range(0, ladder.Cells).Where(i => i % stride == 0).Select(i => new StripPoint(ladder.Position(i), volts[i], ladder.Share(volts[i])))],
        };
    }

    private static Explanation Explain(
        LedStripInput input, double perMeter, List<LedZoneResult> zones, double full, double watts, FuseChoice? fuse, List<LimitCheck> limits, UnitText text)
    {
        var inputs = new List<ExplainedInput>
        {
            new("Supply voltage", input.SupplyVolts, "V", "part data"),
            new("Colours", input.Colours, "", "part data"),
            new("LEDs per meter", input.LedsPerMeter, "1/m", "part data"),
            new("LEDs per segment", input.LedsPerSegment, "", "part data"),
            new("Current of one colour per meter", perMeter, "A/m", input.AmperesPerLedPerColour is null ? "from the power per meter" : "from the current of one LED"),
            new("Resistance of one rail", input.RailOhmsPerMeter, "Ω/m",
                ElectricalDefaults.Origin(input.RailOhmsPerMeter, DefaultRailOhmsPerMeter, $"3 mm of 70 µm copper, {Unsourced.CommonPractice}")),
            new("Drop allowed", input.MaxDropPercent, "%", ElectricalDefaults.Origin(input.MaxDropPercent, DefaultMaxDropPercent, Unsourced.CommonPractice)),
        };
        if (input.Segment == LedSegment.ResistorLimited)
        {
            inputs.Add(new("Forward voltage of a segment", ForwardVolts(input), "V",
                input.SegmentForwardVolts is null ? $"default: {ElectricalDefaults.FromMemory}" : "part data"));
        }

        var steps = new List<ExplainedStep>
        {
            new("Current with every colour full", "I = i_LED · (LEDs per meter / LEDs per segment) · colours · length",
                $"{text.Number(perMeter)} · {input.Colours} · {text.Number(input.Zones.Sum(z => z.LengthMeters))}", text.Amperes(full), "sum over segments in parallel"),
        };
        steps.AddRange(zones.Select((z, i) => new ExplainedStep(
            $"{z.Name}: drop to the worst segment", "Kirchhoff's current law at every segment; evenly drawn it is I · R / 2 from one end, I · R / 8 from both",
            $"I {text.Amperes(z.FullAmperes)}, R {text.With(LoopOhmsPerMeter(input) * input.Zones[i].LengthMeters, "Ω")}, {input.Zones[i].FeedPoints} feed points",
            $"{text.Volts(z.WorstDropVolts)} ({text.Percent(z.WorstDropPercent)})", "Kirchhoff's laws")));
        steps.Add(new("Power of the supply", "P_supply = P / 0.8", $"{text.Number(watts)} / {text.Number(Loading)}", text.Watts(watts / Loading), "handbook practice"));
        steps.Add(new("Fuse", "I_fuse ≥ I / 0.8", $"{text.Number(full)} / {text.Number(Loading)}", fuse is null ? "none is large enough" : text.Amperes(fuse.RatingAmperes), RunFindings.FuseSource));
        return new Explanation($"{input.Name}: current, drop and supply?",
            $"{text.Amperes(full)} ({text.Watts(watts)}) with every colour full; supply {text.Watts(watts / Loading)} or more", inputs, steps, limits,
            limits.FirstOrDefault(l => !l.Passed)?.Name);
    }
}
