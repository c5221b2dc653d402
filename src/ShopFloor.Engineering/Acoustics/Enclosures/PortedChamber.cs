using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Acoustics.Enclosures;

/// <summary>A chamber before its port is put in: that of a vented box, or the one before the driver of a band-pass. Lengths in m.</summary>
public sealed record PortedChamberInput
{
    /// <summary>Volume of the chamber without its port, less driver and bracing, m³ (1e-5 to 5).</summary>
    public required double WithoutPortCubicMeters { get; init; }

    /// <summary>Tuning of chamber and port, Hz (5 to 500).</summary>
    public required double TuningHertz { get; init; }

    /// <summary>Ports alike, 1 to 8.</summary>
    public int Ports { get; init; } = 1;

    /// <summary>Cross-section of one port inside, m² (1e-5 to 1).</summary>
    public required double PortSquareMeters { get; init; }

    /// <summary>Cross-section of one port with its walls, m² (1e-5 to 1), not below that inside.</summary>
    public required double OutsideSquareMeters { get; init; }

    /// <summary>Thickness of the wall it comes through, m (0 to 0.2): that much of its length takes no room inside.</summary>
    public double BoxWallMeters { get; init; }

    /// <summary>How the outer end meets the air.</summary>
    public PortEnd OuterEnd { get; init; } = PortEnd.Flush;

    /// <summary>How the inner end meets the air.</summary>
    public PortEnd InnerEnd { get; init; } = PortEnd.Free;

    /// <summary>Air temperature, °C (−40 to 80).</summary>
    public double AirCelsius { get; init; } = 20;

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        text ??= UnitText.Invariant;
        var checks = new InputChecks(text);
        checks.InRange(nameof(WithoutPortCubicMeters), "Volume without the port in m³", WithoutPortCubicMeters, 1e-5, 5);
        checks.InRange(nameof(TuningHertz), "Tuning in Hz", TuningHertz, 5, 500);
        checks.InRange(nameof(Ports), "Ports", Ports, 1, 8);
        checks.InRange(nameof(PortSquareMeters), "Cross-section of a port in m²", PortSquareMeters, 1e-5, 1);
        checks.InRange(nameof(OutsideSquareMeters), "Cross-section with walls in m²", OutsideSquareMeters, 1e-5, 1);
        checks.InRange(nameof(BoxWallMeters), "Thickness of the box's wall", BoxWallMeters, 0, 0.2, QuantityKind.SmallLength);
        checks.Known(nameof(OuterEnd), "Outer end", OuterEnd);
        checks.Known(nameof(InnerEnd), "Inner end", InnerEnd);
        checks.InRange(nameof(AirCelsius), "Air temperature", AirCelsius, -40, 80, QuantityKind.Temperature);
        if (OutsideSquareMeters < PortSquareMeters)
            checks.Add(nameof(OutsideSquareMeters), $"Cross-section with walls: {text.Number(OutsideSquareMeters)} m² is below the {text.Number(PortSquareMeters)} m² inside.");
        return checks.Problems;
    }
}

/// <summary>A chamber with its port in it.</summary>
/// <param name="NetCubicMeters">What is left for the air, m³; null when the port takes more than there is.</param>
/// <param name="LengthMeters">Length to cut of each port, m; null when no length gives the tuning.</param>
/// <param name="DisplacementCubicMeters">What all ports take, m³.</param>
/// <param name="PipeResonanceHertz">Lowest standing wave in a port, Hz; null without a length.</param>
/// <param name="Findings">What stands against it.</param>
/// <param name="Explanation">How it was reached.</param>
public sealed record PortedChamberResult(
    double? NetCubicMeters, double? LengthMeters, double DisplacementCubicMeters, double? PipeResonanceHertz, IReadOnlyList<Finding> Findings, Explanation Explanation);

/// <summary>Net volume and length of port of a chamber together: each hangs on the other.</summary>
/// <remarks>
/// With K = n·S·(c/2πf)², the port L = K/V − e long and takes n·A·(L − w). So V = G − n·A·(K/V − e − w), a square equation whose larger root is the chamber;
/// it has none when the port takes more than there is.
/// </remarks>
public static class PortedChamber
{
    private const string Source = "Helmholtz resonator with end corrections (Dalmont, Nederveen and Joly, 2001)";

    /// <summary>Works the chamber out.</summary>
    /// <param name="input">Chamber and port.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="PortedChamberInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static PortedChamberResult Compute(PortedChamberInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));
        var air = Air.At(input.AirCelsius);
        var all = input.Ports * input.OutsideSquareMeters;
        var reach = air.SpeedMetersPerSecond / (2 * Math.PI * input.TuningHertz);
        var bore = input.Ports * input.PortSquareMeters * reach * reach;
        var ends = (PortLength.Correction(input.OuterEnd) + PortLength.Correction(input.InnerEnd)) * Math.Sqrt(input.PortSquareMeters / Math.PI);
        // A port no longer than the wall is thick takes nothing.
        double? net = input.WithoutPortCubicMeters;
        if (bore / input.WithoutPortCubicMeters - ends > input.BoxWallMeters)
        {
            var half = (input.WithoutPortCubicMeters + all * (ends + input.BoxWallMeters)) / 2;
            var under = half * half - all * bore;
            net = under >= 0 ? half + Math.Sqrt(under) : null;
        }

        var length = net is { } volume && bore / volume - ends is > 0 and var cut ? cut : (double?)null;
        var displaced = Math.Max(0, (length ?? 0) - input.BoxWallMeters) * all;
        double? pipe = length is { } known ? PortLength.PipeResonanceHertz(air, known, input.PortSquareMeters, (input.OuterEnd, input.InnerEnd)) : null;
        var found = new FindingList("chamber", "Chamber");
        if (net is null)
            found.Add("port-fills-chamber", Severity.Stop, "The port takes more volume than the chamber has.", "Take a smaller cross-section, a higher tuning or a larger chamber.", Source);
        else if (length is null)
            found.Add("enclosure-port-too-short", Severity.Warn, "No port of this cross-section is short enough for this tuning.", "Make the port larger or the tuning lower.", Source);
        return new PortedChamberResult(net, length, displaced, pipe, found.Sorted, new Explanation(
            "What is left of the chamber with its port in it?",
            net is { } left && length is { } long_ ? $"{text.With(left * 1000, "l")}, each port {text.Millimeters(long_)} long" : "no port gives this tuning",
            [new("Volume without the port", input.WithoutPortCubicMeters * 1000, "l", "entered"), new("Tuning", input.TuningHertz, "Hz", "entered"), new("Cross-section of all ports", input.Ports * input.PortSquareMeters * 10_000, "cm²", "entered")],
            [
                new("Net volume", "V = G − n·A·(K/V − e − w), the larger root", $"G {text.With(input.WithoutPortCubicMeters * 1000, "l")}, K {text.Number(bore)} m⁴, e {text.Millimeters(ends)}, w {text.Millimeters(input.BoxWallMeters)}", net is { } v ? text.With(v * 1000, "l") : "no root", Source),
                new("Length of a port", "L = K/V − e", "", length is { } l ? text.Millimeters(l) : "none", Source),
            ],
            [],
            null));
    }
}
