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

    public static string State(DriverDatumState state) => state switch
    {
        DriverDatumState.Entered => "entered",
        DriverDatumState.FilledIn => "filled in",
        DriverDatumState.Contradicts => "contradicts the rest",
        _ => "not known",
    };
}
