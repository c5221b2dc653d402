using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Whether a port finds room in the chamber it stands in, whichever way it is laid.</summary>
/// <param name="Words">How it lies, or why it does not.</param>
/// <param name="LongestMeters">Longest port of this cross-section that finds room, m.</param>
/// <param name="Around">Whether only the box around a surface was asked: what does not fit there fits nowhere, what does may still meet a wall where the shape narrows.</param>
public sealed record PortRoom(bool Fits, string Words, double LongestMeters, bool Around)
{
    /// <param name="form">The enclosure: the chamber behind the cone for a vented box, that before it for a band-pass.</param>
    /// <returns>Null for a box without a port, or while the chamber's sides or the port's length are not known.</returns>
    public static PortRoom? Of(EnclosureForm form, BoxAlternative box, double? lengthMeters, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(form);
        ArgumentNullException.ThrowIfNull(box);
        ArgumentNullException.ThrowIfNull(text);
        if (BoxVolumes.PortChamber(box) is not { } chamber || lengthMeters is not { } length || BoxVolumes.FormOf(form, chamber) is not { Inside: { } inside } volume)
        {
            return null;
        }

        var around = volume.MeshFileId is not null;
        var room = around ? "in the box around the surface" : "inside";
        // Names of a surface's sides are those of its file.
        (string Name, double Meters)[] sides = around
            ? [("y", inside.Depth), ("x", inside.Width), ("z", inside.Height)]
            : [("depth", inside.Depth), ("width", inside.Width), ("height", inside.Height)];
        string Along(string name) => around ? name : $"the {name}";
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
                        return new PortRoom(true, $"fits {(run == PortRun.Straight ? $"straight along {Along(along.Name)}" : $"along {Along(along.Name)} with one bend along {Along(across.Name)}")}{(around ? " of the box around the surface" : "")}", fit.LongestMeters, around);
                    }

                    longest = Math.Max(longest, fit.LongestMeters);
                }
            }
        }

        return new PortRoom(false, longest > 0 ? $"The port is {text.Millimeters(length)} long; {text.Millimeters(longest)} find room {room}, bent once." : $"There is no room {room} for a port of this cross-section.", longest, around);
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
