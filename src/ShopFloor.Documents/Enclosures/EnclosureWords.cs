using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Documents.Enclosures;

/// <summary>Boxes in a few words, for papers.</summary>
public static class EnclosureWords
{
    private const double LitresPerCubicFoot = 28.316846592;

    public static string Volume(double cubicMeters, UnitText text, UnitSystem units)
    {
        ArgumentNullException.ThrowIfNull(text);
        return units == UnitSystem.Us ? text.With(cubicMeters * 1000 / LitresPerCubicFoot, "ft³") : text.With(cubicMeters * 1000, "l");
    }

    public static string Box(BoxAlternative box, UnitText text, UnitSystem units)
    {
        ArgumentNullException.ThrowIfNull(box);
        return $"{BoxAlternative.Words(box.Kind)}, {Volume(box.NetCubicMeters, text, units)}{(box.Kind == EnclosureKind.BandPass ? $" and {Volume(box.FrontCubicMeters, text, units)}" : "")}{(EnclosureStudies.TuningHertz(box) is { } hertz ? $", tuned to {text.With(hertz, "Hz")}" : "")}";
    }

    public static string Port(StudiedAlternative studied, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(studied);
        ArgumentNullException.ThrowIfNull(text);
        var box = studied.Alternative;
        if (box.Kind == EnclosureKind.PassiveRadiator)
        {
            return $"{text.Number(box.Radiators)} radiator{(box.Radiators > 1 ? "s" : "")}, {text.Kilograms(box.RadiatorKilograms + box.RadiatorAddedKilograms)} each";
        }

        if (!box.HasPort)
        {
            return "none";
        }

        var size = box.PortShape == PortShape.Round ? $"Ø {text.Millimeters(box.PortDiameterMeters)}" : $"{text.Millimeters(box.SlotWidthMeters)} × {text.Millimeters(box.SlotHeightMeters)}";
        return $"{(box.Ports > 1 ? $"{text.Number(box.Ports)} of " : "")}{size}{(box.PortFlared ? ", flared" : "")}, {(studied.Result?.PortMeters is { } length ? $"{text.Millimeters(length)} long" : "no length fits")}";
    }

    public static string HighPass(StudiedAlternative studied, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(studied);
        return Corner(studied.HighPassHertz, studied.Alternative.Tuned is null ? studied.Alternative.HighPassOrder : null, text);
    }

    public static string LowPass(StudiedAlternative studied, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(studied);
        return Corner(studied.LowPassHertz, studied.Alternative.Tuned is null ? studied.Alternative.LowPassOrder : null, text);
    }

    // The slope of one taken over from the tuning stands with its shape.
    private static string Corner(double? hertz, int? order, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return hertz is { } corner ? order is { } slope ? $"{text.With(corner, "Hz")}, {text.With(6 * slope, "dB")} an octave" : $"{text.With(corner, "Hz")}, as tuned" : "none";
    }

    /// <summary>Air, room and resonance of the port, of what is known.</summary>
    public static string PortFacts(StudiedAlternative studied, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(studied);
        ArgumentNullException.ThrowIfNull(text);
        return string.Join("; ", new[]
        {
            studied.Alternative.Kind == EnclosureKind.BandPass ? "in the chamber before the cone" : null,
            Port(studied, text),
            studied.Result?.WorstPort is { PortMetersPerSecond: { } air } worst ? $"air {text.With(air, "m/s")} at {text.With(worst.Hertz, "Hz")}" : null,
            studied.Room?.Words.TrimEnd('.'),
            PortRoom.PipeHertz(studied.Alternative, studied.Result?.PortMeters) is { } pipe ? $"sounds as a pipe at {text.With(pipe, "Hz")}" : null,
        }.OfType<string>());
    }

    /// <summary>What is left for the air in each chamber that was measured.</summary>
    public static string Chambers(EnclosureView view, UnitText text, UnitSystem units)
    {
        ArgumentNullException.ThrowIfNull(view);
        var band = view.Built.Alternative.Kind == EnclosureKind.BandPass;
        BoxChamber[] chambers = band ? [BoxChamber.Behind, BoxChamber.Before] : [BoxChamber.Behind];
        return string.Join("; ", chambers
            .Select(chamber => (chamber, BoxVolumes.Of(view, view.Built, chamber, text)))
            .Where(each => each.Item2 is not null)
            .Select(each => $"{(band ? each.chamber == BoxChamber.Before ? "before the cone " : "behind the cone " : "")}{Volume(each.Item2!.NetCubicMeters, text, units)} left for the air")); // asked for above
    }

    public static string State(DriverDatumState state) => state switch
    {
        DriverDatumState.Entered => "entered",
        DriverDatumState.FilledIn => "filled in",
        DriverDatumState.Contradicts => "contradicts the rest",
        _ => "not known",
    };
}
