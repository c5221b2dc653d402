using ShopFloor.Engineering.Fabrication.Volume;
using ShopFloor.Engineering.Geometry;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Net volume of a box: its inside less driver, port and bracing.</summary>
public static class BoxVolumes
{
    /// <param name="alternative">The box whose port stands inside.</param>
    /// <param name="mesh">The measured surface, where the inside comes from a file.</param>
    /// <returns>Null while the inside is not known.</returns>
    public static BoxVolumeResult? Of(EnclosureView view, StudiedAlternative alternative, MeshMeasurement? mesh, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(alternative);
        var form = view.Form.Volume;
        List<VolumeRow> rows = [];
        if (form.MeshFileId is not null)
        {
            if (mesh?.VolumeCubicMeters is not (> 1e-6 and < 10 and { } enclosed))
            {
                return null;
            }

            rows.Add(new VolumeRow { Name = "Inside of the surface", Shape = new KnownSolid(enclosed), Reason = "from the file" });
        }
        else if (form is { WidthMeters: { } width, HeightMeters: { } height, DepthMeters: { } depth })
        {
            rows.Add(new VolumeRow { Name = "Inside", Shape = new BoxSolid(width, height, depth), Reason = "measured inside" });
        }
        else
        {
            return null;
        }

        if (view.Driver?.Data.DisplacementLitres is { } driver)
        {
            rows.Add(new VolumeRow { Name = "Loudspeaker", Shape = new KnownSolid(driver / 1000), Count = view.Form.Count, Subtracted = true, Reason = "part data" });
        }

        if (PortCubicMeters(alternative) is { } port)
        {
            rows.Add(new VolumeRow { Name = "Port", Shape = new KnownSolid(port), Subtracted = true, Reason = "its length with a wall of 5 mm" });
        }

        if (form.BracingCubicMeters is > 0 and { } bracing)
        {
            rows.Add(new VolumeRow { Name = "Bracing and the like", Shape = new KnownSolid(bracing), Subtracted = true, Reason = "entered" });
        }

        var input = new BoxVolumeInput { Rows = rows, WantedCubicMeters = alternative.Alternative.NetCubicMeters };
        return input.Validate(text).Count > 0 ? null : BoxVolume.Compute(input, text);
    }

    // From memory: tubes and boards of ports are about this thick.
    private const double WallMeters = 0.005;

    private static double? PortCubicMeters(StudiedAlternative studied)
    {
        var a = studied.Alternative;
        if (a.Kind != EnclosureKind.Vented || studied.Result?.PortMeters is not (> 0 and { } length))
        {
            return null;
        }

        var outside = a.PortShape == PortShape.Round
            ? Math.PI / 4 * Math.Pow(a.PortDiameterMeters + 2 * WallMeters, 2)
            : (a.SlotWidthMeters + 2 * WallMeters) * (a.SlotHeightMeters + 2 * WallMeters);
        return a.Ports * outside * length;
    }
}
