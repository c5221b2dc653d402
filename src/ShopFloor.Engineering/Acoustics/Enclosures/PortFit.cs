using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Acoustics.Enclosures;

/// <summary>How a port runs in the box.</summary>
public enum PortRun
{
    /// <summary>Straight in from its wall.</summary>
    Straight,

    /// <summary>In from its wall, then one square bend.</summary>
    OneBend,
}

/// <summary>A port that has to find room in a box. Lengths in m.</summary>
public sealed record PortFitInput
{
    /// <summary>Length of the port along its middle, wall included, m (0.005 to 5): see <see cref="PortLength"/>.</summary>
    public required double LengthMeters { get; init; }

    /// <summary>Inner diameter of a round port, m (0.01 to 0.5); null for a slot.</summary>
    public double? DiameterMeters { get; init; }

    /// <summary>Height of a slot along a wall, m (0.005 to 0.5); null for a round port.</summary>
    public double? SlotHeightMeters { get; init; }

    /// <summary>Width of a slot, m (0.01 to 5); its side walls are walls of the box. Null for a round port.</summary>
    public double? SlotWidthMeters { get; init; }

    /// <summary>Thickness of the pipe, or of the board between slot and box, m (0 to 0.1).</summary>
    public double PortWallMeters { get; init; }

    /// <summary>Thickness of the wall it comes through, m (0 to 0.2): that much of its length takes no room inside.</summary>
    public double BoxWallMeters { get; init; }

    /// <summary>Inside of the box along the port as it comes in, m (0.01 to 10).</summary>
    public required double DepthMeters { get; init; }

    /// <summary>Inside of the box across, the way a bend goes, m (0.01 to 10).</summary>
    public required double AcrossMeters { get; init; }

    /// <summary>Straight or bent.</summary>
    public PortRun Run { get; init; }

    /// <summary>Free air in front of the inner end over the diameter or slot height (0.1 to 4). 1, common practice, no source.</summary>
    public double ClearanceRatio { get; init; } = 1;

    /// <summary>Air temperature, °C (−40 to 80).</summary>
    public double AirCelsius { get; init; } = 20;

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(LengthMeters), "Length of the port", LengthMeters, 0.005, 5, QuantityKind.SmallLength);
        checks.InRange(nameof(DiameterMeters), "Diameter of the port", DiameterMeters, 0.01, 0.5, QuantityKind.SmallLength);
        checks.InRange(nameof(SlotHeightMeters), "Height of the slot", SlotHeightMeters, 0.005, 0.5, QuantityKind.SmallLength);
        checks.InRange(nameof(SlotWidthMeters), "Width of the slot", SlotWidthMeters, 0.01, 5, QuantityKind.SmallLength);
        checks.InRange(nameof(PortWallMeters), "Thickness of the port's wall", PortWallMeters, 0, 0.1, QuantityKind.SmallLength);
        checks.InRange(nameof(BoxWallMeters), "Thickness of the box's wall", BoxWallMeters, 0, 0.2, QuantityKind.SmallLength);
        checks.InRange(nameof(DepthMeters), "Inside along the port", DepthMeters, 0.01, 10, QuantityKind.SmallLength);
        checks.InRange(nameof(AcrossMeters), "Inside across the port", AcrossMeters, 0.01, 10, QuantityKind.SmallLength);
        checks.Known(nameof(Run), "Run of the port", Run);
        checks.InRange(nameof(ClearanceRatio), "Free air over the diameter", ClearanceRatio, 0.1, 4);
        checks.InRange(nameof(AirCelsius), "Air temperature", AirCelsius, -40, 80, QuantityKind.Temperature);
        if (DiameterMeters is null == (SlotHeightMeters is null || SlotWidthMeters is null))
            checks.Add(nameof(DiameterMeters), "Port: enter either its diameter, or the height and width of a slot.");
        return checks.Problems;
    }
}

/// <summary>Whether a port finds room.</summary>
/// <param name="Fits">Whether it does, with free air in front of its inner end.</param>
/// <param name="FirstLegMeters">Length along the middle up to the bend, wall included, or all of a straight one, m.</param>
/// <param name="SecondLegMeters">Length along the middle after the bend, m; 0 for a straight one.</param>
/// <param name="LongestMeters">Longest port of this cross-section and run that finds room, m; 0 or less where not even a short one does.</param>
/// <param name="DisplacementCubicMeters">Volume the port takes inside the box, its own air included, m³.</param>
/// <param name="PipeResonanceHertz">First resonance of the port as an open pipe, c/(2·L), Hz.</param>
/// <param name="Findings">What was found, gravest first.</param>
/// <param name="Explanation">How it was reached.</param>
public sealed record PortFitResult(
    bool Fits, double FirstLegMeters, double SecondLegMeters, double LongestMeters, double DisplacementCubicMeters, double PipeResonanceHertz, IReadOnlyList<Finding> Findings, Explanation Explanation);

/// <summary>Room for a port, straight or with one square bend, measured along its middle.</summary>
/// <remarks>
/// With diameter d, outer diameter o, free air f and walls w: straight L ≤ depth + w − f. Bent, the first leg ends half an o before the far wall, so
/// that L₁ ≤ depth + w − o/2, and the second runs from half an o beside the near wall to f before the other: L₂ ≤ across − o/2 − f, and more than o/2. A slot lies on a
/// wall that is one of its sides, so that only one board counts: its middle is half its height from that wall.
/// </remarks>
public static class PortFit
{
    private const string Practice = Unsourced.CommonPractice;

    /// <summary>Checks the room.</summary>
    /// <param name="input">Port and box.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="PortFitInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static PortFitResult Check(PortFitInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));
        var bore = input.DiameterMeters ?? input.SlotHeightMeters!.Value; // one of the two is there
        var slot = input.DiameterMeters is null;
        var half = bore / 2 + (slot ? 0 : input.PortWallMeters);
        var free = input.ClearanceRatio * bore;
        var second = input.AcrossMeters - half - free;
        // A second leg that ends inside the first is no bend.
        var bent = input.Run == PortRun.OneBend && second > half;
        var first = input.DepthMeters + input.BoxWallMeters - (bent ? half : free);
        // The thickness across has to be there too; a slot's board stands away from its wall.
        var thickness = bore + (slot ? 1 : 2) * input.PortWallMeters;
        var longest = thickness <= input.AcrossMeters && first > 0 ? first + (bent ? second : 0) : 0;
        var fits = input.LengthMeters <= longest + 1e-9;
        var firstLeg = Math.Min(input.LengthMeters, Math.Max(0, first));
        var inside = Math.Max(0, input.LengthMeters - input.BoxWallMeters);
        var displaced = inside * (slot ? input.SlotWidthMeters!.Value * thickness : Math.PI / 4 * thickness * thickness);
        var pipe = Air.At(input.AirCelsius).SpeedMetersPerSecond / (2 * input.LengthMeters);
        return new PortFitResult(fits, firstLeg, input.LengthMeters - firstLeg, longest, displaced, pipe, Find(input, longest, fits, pipe, text),
            new Explanation("Does the port find room?", fits ? "Yes" : $"No: {text.Millimeters(longest)} is the longest",
                [new("Length", input.LengthMeters * 1000, "mm", "entered"), new("Free air in front of the inner end", free * 1000, "mm", $"{text.Number(input.ClearanceRatio)} times the bore; {Practice}")],
                [
                    new("Longest", input.Run == PortRun.Straight ? "L = depth + wall − free" : "L = (depth + wall − o/2) + (across − o/2 − free)", "", text.Millimeters(longest), "plane geometry"),
                    new("Resonance of the pipe", "f = c / (2 · L)", $"{text.Number(Air.At(input.AirCelsius).SpeedMetersPerSecond, 4)} / (2 · {text.Number(input.LengthMeters, 4)})", text.With(pipe, "Hz"), "open pipe, ends not corrected"),
                ],
                [new LimitCheck("Length of the port", input.LengthMeters * 1000, longest * 1000, "mm", fits, Practice)], fits ? null : "Length of the port"));
    }

    private static IReadOnlyList<Finding> Find(PortFitInput input, double longest, bool fits, double pipe, UnitText text)
    {
        var found = new FindingList("port", "Port");
        if (!fits)
        {
            found.Add("port-too-long", Severity.Stop, longest > 0
                    ? $"It is {text.Millimeters(input.LengthMeters)} long; {text.Millimeters(longest)} find room with free air in front of the inner end."
                    : "The box has no room for a port of this cross-section.",
                input.Run == PortRun.Straight ? "Bend it, take a smaller cross-section, or a larger box." : "Take a smaller cross-section or a larger box.", Practice);
        }

        found.Add("port-pipe-resonance", Severity.Note, $"As an open pipe it sounds by itself at {text.With(pipe, "Hz")}.", "Keep the crossover well below, or put the inner end away from the driver.", "open pipe: f = c / (2 · L)");
        if (input.Run == PortRun.OneBend)
            found.Add("port-bend", Severity.Note, "A square bend acts somewhat shorter or longer than its middle line, by its shape.", "Measure the tuning, and cut to it.", Practice);
        return found.Sorted;
    }
}
