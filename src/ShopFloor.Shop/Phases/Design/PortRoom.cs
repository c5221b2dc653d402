using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Whether a port finds room in the box whose sides were measured, whichever way it is laid.</summary>
/// <param name="Words">How it lies, or why it does not.</param>
/// <param name="LongestMeters">Longest port of this cross-section that finds room, m.</param>
public sealed record PortRoom(bool Fits, string Words, double LongestMeters)
{
    /// <returns>Null for a box without a port behind the cone, or while its sides or the port's length are not known.</returns>
    public static PortRoom? Of(BoxVolumeForm inside, BoxAlternative box, double? lengthMeters, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(inside);
        ArgumentNullException.ThrowIfNull(box);
        ArgumentNullException.ThrowIfNull(text);
        if (box.Kind != EnclosureKind.Vented || lengthMeters is not { } length || inside is not { MeshFileId: null, WidthMeters: { } width, HeightMeters: { } height, DepthMeters: { } depth })
        {
            return null;
        }

        (string Name, double Meters)[] sides = [("depth", depth), ("width", width), ("height", height)];
        var longest = 0.0;
        foreach (var run in new[] { PortRun.Straight, PortRun.OneBend })
        {
            foreach (var along in sides)
            {
                foreach (var across in sides.Where(side => side.Name != along.Name))
                {
                    var third = sides.First(side => side.Name != along.Name && side.Name != across.Name);
                    if (Try(box, length, along.Meters, across.Meters, third.Meters, run, text) is not { } fit)
                    {
                        continue;
                    }

                    if (fit.Fits)
                    {
                        return new PortRoom(true, run == PortRun.Straight ? $"fits straight along the {along.Name}" : $"fits along the {along.Name} with one bend along the {across.Name}", fit.LongestMeters);
                    }

                    longest = Math.Max(longest, fit.LongestMeters);
                }
            }
        }

        return new PortRoom(false, longest > 0 ? $"The port is {text.Millimeters(length)} long; {text.Millimeters(longest)} find room inside, bent once." : "The box has no room for a port of this cross-section.", longest);
    }

    /// <summary>Lowest frequency at which the port sounds by itself as an open pipe, Hz; null without a length.</summary>
    public static double? PipeHertz(BoxAlternative box, double? lengthMeters)
    {
        ArgumentNullException.ThrowIfNull(box);
        return lengthMeters is > 0 and { } length ? PortLength.PipeResonanceHertz(Air.Standard, length, box.PortSquareMeters / box.Ports, EnclosureStudies.Ends(box)) : null;
    }

    private static PortFitResult? Try(BoxAlternative box, double length, double along, double across, double third, PortRun run, UnitText text)
    {
        var round = box.PortShape == PortShape.Round;
        // Ports alike lie beside each other along the third side.
        var beside = box.Ports * ((round ? box.PortDiameterMeters : box.SlotWidthMeters) + (round ? 2 * BoxVolumes.PortWallMeters : 0));
        if (beside > third)
        {
            return null;
        }

        var input = new PortFitInput
        {
            LengthMeters = length,
            DiameterMeters = round ? box.PortDiameterMeters : null,
            SlotWidthMeters = round ? null : box.SlotWidthMeters,
            SlotHeightMeters = round ? null : box.SlotHeightMeters,
            PortWallMeters = BoxVolumes.PortWallMeters,
            DepthMeters = along,
            AcrossMeters = across,
            Run = run,
        };
        return input.Validate(text).Count > 0 ? null : PortFit.Check(input, text);
    }
}
