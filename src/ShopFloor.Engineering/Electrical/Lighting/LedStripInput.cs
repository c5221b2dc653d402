using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Lighting;

/// <summary>How the light of a strip is set.</summary>
public enum LedDrive
{
    /// <summary>All of a zone alike: the controller switches each colour's rail.</summary>
    Analogue,

    /// <summary>Every segment by a data line; power comes on two rails.</summary>
    Addressable,
}

/// <summary>How a segment's current follows its voltage.</summary>
public enum LedSegment
{
    /// <summary>The same current at any voltage that suffices: a driver in each segment.</summary>
    ConstantCurrent,

    /// <summary>A resistor sets the current: less voltage, less current and less light.</summary>
    ResistorLimited,
}

/// <summary>A length of strip that is fed and set on its own.</summary>
public sealed record LedZone
{
    /// <summary>Identifier, unique in the list.</summary>
    public required string Id { get; init; }

    /// <summary>Name shown in texts.</summary>
    public required string Name { get; init; }

    /// <summary>Length of strip, m (0.01 to 100).</summary>
    public required double LengthMeters { get; init; }

    /// <summary>Where it is fed: 1 one end, 2 both ends, 3 and more both ends and evenly between (1 to 64).</summary>
    public int FeedPoints { get; init; } = 1;

    /// <summary>Resistance of the wires to one feed point, both together, Ω (0 to 5).</summary>
    public double FeederOhms { get; init; }

    /// <summary>Share of full current of each colour in the usual scene, 0 to 1; empty takes every colour full.</summary>
    public IReadOnlyList<double> SceneShares { get; init; } = [];
}

/// <summary>A strip by its data sheet, and the zones made of it.</summary>
public sealed record LedStripInput
{
    /// <summary>Identifier, for findings; give each its own when a job has several.</summary>
    public string Id { get; init; } = "led-strip";

    /// <summary>Name shown in texts.</summary>
    public string Name { get; init; } = "LED strip";

    /// <summary>Supply voltage of the strip, V: 5, 12 or 24.</summary>
    public required double SupplyVolts { get; init; }

    /// <summary>How it is set.</summary>
    public LedDrive Drive { get; init; } = LedDrive.Analogue;

    /// <summary>How a segment's current follows its voltage.</summary>
    public LedSegment Segment { get; init; } = LedSegment.ResistorLimited;

    /// <summary>Colours with a current of their own: 1, 3 for red-green-blue, 4 with white (1 to 5).</summary>
    public int Colours { get; init; } = 1;

    /// <summary>LEDs per meter, 1/m (1 to 1000).</summary>
    public required double LedsPerMeter { get; init; }

    /// <summary>LEDs in series in the shortest piece that can be cut (1 to 24): 1 at 5 V, usually 3 at 12 V and 6 or 7 at 24 V.</summary>
    public required int LedsPerSegment { get; init; }

    /// <summary>Current of one LED in one colour, A (0.0005 to 2); null takes it from <see cref="WattsPerMeter"/>.</summary>
    public double? AmperesPerLedPerColour { get; init; }

    /// <summary>Power with every colour full, W/m (0.1 to 100); used when the current is not known.</summary>
    public double? WattsPerMeter { get; init; }

    /// <summary>Forward voltage of a segment's LEDs together, V (1 to below the supply); null takes the default share of the supply.</summary>
    public double? SegmentForwardVolts { get; init; }

    /// <summary>Resistance of one rail of the strip, Ω/m (0.0005 to 2).</summary>
    public double RailOhmsPerMeter { get; init; } = LedStrip.DefaultRailOhmsPerMeter;

    /// <summary>Zones.</summary>
    public required IReadOnlyList<LedZone> Zones { get; init; }

    /// <summary>Voltage drop allowed to the worst segment, percent of the supply (0.5 to 30).</summary>
    public double MaxDropPercent { get; init; } = LedStrip.DefaultMaxDropPercent;

    /// <summary>Whether its light can be seen from outside the car.</summary>
    public bool VisibleFromOutside { get; init; }

    /// <summary>Power the supply may give, W (1 to 5000); null when not chosen yet.</summary>
    public double? SupplyWatts { get; init; }

    /// <summary>Current the controller may switch in each colour of a zone, A (0.01 to 100); null when not chosen yet.</summary>
    public double? ControllerAmperesPerColour { get; init; }

    /// <summary>What is wrong with the input, field by field; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        text ??= UnitText.Invariant;
        var checks = new InputChecks(text);
        if (SupplyVolts is not (5 or 12 or 24))
            checks.Add(nameof(SupplyVolts), $"{Name}, supply voltage: {text.Volts(SupplyVolts)} is not accepted; enter {text.Volts(5)}, {text.Volts(12)} or {text.Volts(24)}.");
        checks.Known(nameof(Drive), $"{Name}, how it is set", Drive);
        checks.Known(nameof(Segment), $"{Name}, kind of segment", Segment);
        checks.InRange(nameof(Colours), $"{Name}, colours", Colours, 1, 5);
        checks.InRange(nameof(LedsPerMeter), $"{Name}, LEDs per meter", LedsPerMeter, 1, 1000);
        checks.InRange(nameof(LedsPerSegment), $"{Name}, LEDs per segment", LedsPerSegment, 1, 24);
        if (AmperesPerLedPerColour is null && WattsPerMeter is null)
            checks.Add(nameof(AmperesPerLedPerColour), $"{Name}, current: nothing was entered; enter the current of one LED in one colour or the power per meter.");
        checks.InRange(nameof(AmperesPerLedPerColour), $"{Name}, current of one LED in one colour", AmperesPerLedPerColour, 0.0005, 2, QuantityKind.Current);
        checks.InRange(nameof(WattsPerMeter), $"{Name}, power in W per m", WattsPerMeter, 0.1, 100);
        checks.InRange(nameof(SegmentForwardVolts), $"{Name}, forward voltage of a segment", SegmentForwardVolts, 1, 0.98 * SupplyVolts, QuantityKind.Voltage);
        checks.InRange(nameof(RailOhmsPerMeter), $"{Name}, resistance of one rail in Ω per m", RailOhmsPerMeter, 0.0005, 2);
        checks.InRange(nameof(MaxDropPercent), $"{Name}, voltage drop allowed in %", MaxDropPercent, 0.5, 30);
        checks.InRange(nameof(SupplyWatts), $"{Name}, power of the supply", SupplyWatts, 1, 5000, QuantityKind.Power);
        checks.InRange(nameof(ControllerAmperesPerColour), $"{Name}, controller current per colour", ControllerAmperesPerColour, 0.01, 100, QuantityKind.Current);
        for (var i = 0; i < Zones.Count; i++)
        {
            var zone = Zones[i];
            var at = $"{nameof(Zones)}[{i}].";
            checks.Named(at + nameof(zone.Id), "Zone identifier", zone.Id);
            checks.Named(at + nameof(zone.Name), "Zone name", zone.Name);
            checks.InRange(at + nameof(zone.LengthMeters), $"{zone.Name}, length", zone.LengthMeters, 0.01, 100, QuantityKind.Length);
            checks.InRange(at + nameof(zone.FeedPoints), $"{zone.Name}, feed points", zone.FeedPoints, 1, LedStrip.MostFeedPoints);
            checks.InRange(at + nameof(zone.FeederOhms), $"{zone.Name}, resistance of the wires to a feed point in Ω", zone.FeederOhms, 0, 5);
            if (zone.SceneShares.Count != 0 && zone.SceneShares.Count != Colours)
                checks.Add(at + nameof(zone.SceneShares), $"{zone.Name}, scene: {zone.SceneShares.Count} shares are not accepted; enter one for each of the {Colours} colours, or none.");
            for (var colour = 0; colour < zone.SceneShares.Count; colour++)
                checks.InRange($"{at}{nameof(zone.SceneShares)}[{colour}]", $"{zone.Name}, share of colour {colour + 1}", zone.SceneShares[colour], 0, 1);
        }

        checks.Distinct(nameof(Zones), "Zones", Zones.Select(z => z.Id));
        return checks.Problems;
    }
}
