using ShopFloor.Engineering.Fabrication.Volume;
using ShopFloor.Engineering.Geometry;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Net volume of a box: its inside less driver, port and bracing.</summary>
public static class BoxVolumes
{
    // From memory: tubes and boards of ports are about this thick.
    internal const double PortWallMeters = 0.005;

    /// <param name="alternative">The box whose port stands inside.</param>
    /// <param name="mesh">The measured surface, where the inside comes from a file.</param>
    /// <returns>Null while the inside is not known or <see cref="Refusals"/> says what is wrong.</returns>
    public static BoxVolumeResult? Of(EnclosureView view, StudiedAlternative alternative, MeshMeasurement? mesh, UnitText text) =>
        InputOf(view, alternative, mesh) is { } input && input.Validate(text).Count == 0 ? BoxVolume.Compute(input, text) : null;

    /// <summary>What keeps the volume from being worked out, in words: shapes that are not whole or not possible.</summary>
    public static IReadOnlyList<string> Refusals(EnclosureView view, StudiedAlternative alternative, MeshMeasurement? mesh, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(view);
        var form = view.Form.Volume;
        List<string> missing =
        [
            .. form.Shapes.Where(shape => shape.Missing.Count > 0).Select(shape => $"{shape.Title}: still needed: {string.Join(", ", shape.Missing)}."),
            .. form.Fill.Missing.Count > 0 ? new[] { $"Filling: still needed: {string.Join(", ", form.Fill.Missing)}." } : [],
        ];
        if (missing.Count > 0)
        {
            return missing;
        }

        return form.Shapes.Count == 0 && Inside(form, mesh) is null && form.Fill.Measurement is null ? []
            : [.. (InputOf(view, alternative, mesh)?.Validate(text) ?? []).Select(problem => problem.Message)];
    }

    private static BoxVolumeInput? InputOf(EnclosureView view, StudiedAlternative alternative, MeshMeasurement? mesh)
    {
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(alternative);
        var form = view.Form.Volume;
        // A surface that was asked for and is not there would leave only half of the box.
        if (form.MeshFileId is not null && Inside(form, mesh) is null || form.Fill.Missing.Count > 0)
        {
            return null;
        }

        List<VolumeRow> rows = Inside(form, mesh) is { } inside ? [inside] : [];
        foreach (var shape in form.Shapes)
        {
            if (shape.Solid is not { } solid)
            {
                return null;
            }

            rows.Add(new VolumeRow { Name = shape.Title, Shape = solid, Count = shape.Count, Subtracted = shape.Takes, Reason = shape.Takes ? "taken away" : "added" });
        }

        var fill = form.Fill.Measurement;
        if (fill is null && !rows.Exists(row => !row.Subtracted))
        {
            return null;
        }

        var filledAlone = fill is not null && !rows.Exists(row => !row.Subtracted);
        if (filledAlone)
        {
            // Whatever stood in the box while it was filled is not in the filled volume.
            rows.Clear();
        }

        if (!filledAlone && form.BracingCubicMeters is > 0 and { } bracing)
        {
            rows.Add(new VolumeRow { Name = "Bracing and the like", Shape = new KnownSolid(bracing), Subtracted = true, Reason = "entered" });
        }

        if (!(filledAlone && form.Fill.PartsInside))
        {
            rows.AddRange(Parts(view, alternative).Select(row => row with { AfterFill = !form.Fill.PartsInside }));
        }

        return new BoxVolumeInput { Rows = rows, Fill = fill, WantedCubicMeters = alternative.Alternative.NetCubicMeters };
    }

    private static VolumeRow? Inside(BoxVolumeForm form, MeshMeasurement? mesh) => form switch
    {
        { MeshFileId: not null } => mesh?.VolumeCubicMeters is > 1e-6 and < 10 and { } enclosed
            ? new VolumeRow { Name = "Inside of the surface", Shape = new KnownSolid(enclosed), Reason = "from the file" }
            : null,
        { WidthMeters: { } width, HeightMeters: { } height, DepthMeters: { } depth } => new VolumeRow { Name = "Inside", Shape = new BoxSolid(width, height, depth), Reason = "measured inside" },
        _ => null,
    };

    private static IEnumerable<VolumeRow> Parts(EnclosureView view, StudiedAlternative alternative)
    {
        if (view.Driver?.Data.DisplacementLitres is > 0 and { } driver)
        {
            yield return new VolumeRow { Name = "Loudspeaker", Shape = new KnownSolid(driver / 1000), Count = view.Form.Count, Subtracted = true, Reason = "part data" };
        }

        if (PortCubicMeters(alternative) is { } port)
        {
            yield return new VolumeRow { Name = "Port", Shape = new KnownSolid(port), Subtracted = true, Reason = "its length with a wall of 5 mm" };
        }
    }

    private static double? PortCubicMeters(StudiedAlternative studied)
    {
        var a = studied.Alternative;
        if (a.Kind != EnclosureKind.Vented || studied.Result?.PortMeters is not (> 0 and { } length))
        {
            return null;
        }

        var outside = a.PortShape == PortShape.Round
            ? Math.PI / 4 * Math.Pow(a.PortDiameterMeters + 2 * PortWallMeters, 2)
            : (a.SlotWidthMeters + 2 * PortWallMeters) * (a.SlotHeightMeters + 2 * PortWallMeters);
        return a.Ports * outside * length;
    }
}
