using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Lighting;

/// <summary>How the current of a strip follows its voltage.</summary>
public enum LedStripKind
{
    /// <summary>Segments with a constant-current driver, or addressable LEDs: the current stays.</summary>
    ConstantCurrent,

    /// <summary>Segments with a resistor: the current falls with the voltage.</summary>
    ResistorLimited,
}

/// <summary>One colour of a strip.</summary>
/// <param name="Name">Colour.</param>
/// <param name="AmperesPerMeter">Current at full brightness, A/m (0.001 to 20).</param>
public sealed record LedChannel(string Name, double AmperesPerMeter);

/// <summary>A light strip (one zone) and how it is fed.</summary>
public sealed record LedStripInput
{
    /// <summary>Name shown in texts.</summary>
    public string Name { get; init; } = "Light strip";

    /// <summary>Length, m (0.05 to 50).</summary>
    public required double LengthMeters { get; init; }

    /// <summary>Supply, V (3 to 30); strips are made for 5, 12 or 24 V.</summary>
    public required double SupplyVolts { get; init; }

    /// <summary>The colours; all on at once is the worst case (white).</summary>
    public required IReadOnlyList<LedChannel> Channels { get; init; }

    /// <summary>Segments on a meter (1 to 300).</summary>
    public required double SegmentsPerMeter { get; init; }

    /// <summary>How the current follows the voltage.</summary>
    public LedStripKind Kind { get; init; } = LedStripKind.ResistorLimited;

    /// <summary>Forward voltage of the LEDs of one segment together, V (1 to 29), for resistor-limited strips. About 9.6 V for three white LEDs; from memory.</summary>
    public double SegmentForwardVolts { get; init; } = 9.6;

    /// <summary>Resistance of both supply conductors of the strip together, Ω/m (0.001 to 10). Measure it; 0.1 Ω/m is from memory.</summary>
    public double LoopOhmsPerMeter { get; init; } = 0.1;

    /// <summary>Resistance there and back of the feeder to each feed point, Ω (0 to 5).</summary>
    public double FeederLoopOhms { get; init; }

    /// <summary>Feed points: 1 at one end; 2 both ends; more evenly spaced, both ends included (1 to 50).</summary>
    public int FeedPoints { get; init; } = 1;

    /// <summary>Share of full brightness on average, 0.01 to 1.</summary>
    public double Duty { get; init; } = 1;

    /// <summary>Largest drop to the worst-fed LED, percent of the supply (0.5 to 30). Common practice, no source.</summary>
    public double MaxDropPercent { get; init; } = 5;

    /// <summary>Whether it can be seen from outside the car.</summary>
    public bool VisibleFromOutside { get; init; }

    /// <summary>A/m of a colour from the LEDs on a meter, in series groups: LEDs/m / LEDs in a group · current.</summary>
    /// <param name="ledsPerMeter">LEDs on a meter.</param>
    /// <param name="ledsInSeries">LEDs in a segment sharing one current: 3 on most 12 V strips, 1 on 5 V.</param>
    /// <param name="amperesPerLed">Current through one LED of that colour, A.</param>
    public static double AmperesPerMeter(double ledsPerMeter, int ledsInSeries, double amperesPerLed) => ledsPerMeter / ledsInSeries * amperesPerLed;

    /// <summary>What is wrong with the input, field by field; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var written = text ?? UnitText.Invariant;
        var checks = new InputChecks(written);
        checks.InRange(nameof(LengthMeters), $"{Name}, length", LengthMeters, 0.05, 50, QuantityKind.Length);
        checks.InRange(nameof(SupplyVolts), $"{Name}, supply", SupplyVolts, 3, 30, QuantityKind.Voltage);
        if (Channels.Count == 0)
            checks.Add(nameof(Channels), $"{Name}, colours: nothing was entered; enter one colour or more.");
        for (var i = 0; i < Channels.Count; i++)
            checks.InRange($"{nameof(Channels)}[{i}].{nameof(LedChannel.AmperesPerMeter)}", $"{Name}, {Channels[i].Name}, current of one meter", Channels[i].AmperesPerMeter, 0.001, 20, QuantityKind.Current);
        checks.InRange(nameof(SegmentsPerMeter), $"{Name}, segments on a meter", SegmentsPerMeter, 1, 300);
        checks.Known(nameof(Kind), $"{Name}, kind", Kind);
        checks.InRange(nameof(SegmentForwardVolts), $"{Name}, forward voltage of a segment", SegmentForwardVolts, 1, 29, QuantityKind.Voltage);
        if (Kind == LedStripKind.ResistorLimited && SegmentForwardVolts >= SupplyVolts)
            checks.Add(nameof(SegmentForwardVolts), $"{Name}, forward voltage of a segment: {written.Volts(SegmentForwardVolts)} is not accepted; enter less than the supply of {written.Volts(SupplyVolts)}.");
        checks.InRange(nameof(LoopOhmsPerMeter), $"{Name}, resistance of the strip in Ω/m", LoopOhmsPerMeter, 0.001, 10);
        checks.InRange(nameof(FeederLoopOhms), $"{Name}, resistance of the feeder in Ω", FeederLoopOhms, 0, 5);
        checks.InRange(nameof(FeedPoints), $"{Name}, feed points", FeedPoints, 1, 50);
        checks.InRange(nameof(Duty), $"{Name}, share of full brightness", Duty, 0.01, 1);
        checks.InRange(nameof(MaxDropPercent), $"{Name}, largest drop in %", MaxDropPercent, 0.5, 30);
        return checks.Problems;
    }
}
