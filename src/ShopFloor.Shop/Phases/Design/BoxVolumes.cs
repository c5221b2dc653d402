using System.Globalization;
using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Engineering.Fabrication.Volume;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>The chambers of a box.</summary>
public enum BoxChamber
{
    /// <summary>Behind the cone: all of a box that is no band-pass.</summary>
    Behind,

    /// <summary>Before the cone, where a band-pass has its port.</summary>
    Before,
}

/// <summary>Net volume of a chamber: its inside less driver, port and bracing.</summary>
public static class BoxVolumes
{
    // From memory: tubes and boards of ports are about this thick.
    internal const double PortWallMeters = 0.005;

    private const string PortName = "Port";

    /// <param name="alternative">The box whose port stands inside.</param>
    /// <returns>Null while the inside is not known or <see cref="Refusals"/> says what is wrong.</returns>
    public static BoxVolumeResult? Of(EnclosureView view, StudiedAlternative alternative, BoxChamber chamber, UnitText text) =>
        InputOf(view, alternative, chamber) is { } input && input.Validate(text).Count == 0 ? BoxVolume.Compute(input, text) : null;

    /// <summary>What keeps the volume from being worked out, in words: shapes that are not whole or not possible.</summary>
    public static IReadOnlyList<string> Refusals(EnclosureView view, StudiedAlternative alternative, BoxChamber chamber, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(view);
        var form = FormOf(view.Form, chamber);
        List<string> missing =
        [
            .. form.Shapes.Where(shape => shape.Missing.Count > 0).Select(shape => $"{shape.Title}: still needed: {string.Join(", ", shape.Missing)}."),
            .. form.Fill.Missing.Count > 0 ? new[] { $"Filling: still needed: {string.Join(", ", form.Fill.Missing)}." } : [],
        ];
        if (missing.Count > 0)
        {
            return missing;
        }

        return form.Shapes.Count == 0 && Inside(form) is null && form.Fill.Measurement is null ? []
            : [.. (InputOf(view, alternative, chamber)?.Validate(text) ?? []).Select(problem => problem.Message)];
    }

    private static BoxVolumeInput? InputOf(EnclosureView view, StudiedAlternative alternative, BoxChamber chamber)
    {
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(alternative);
        var form = FormOf(view.Form, chamber);
        // A surface that was asked for and is not there would leave only half of the box.
        if (form.MeshFileId is not null && Inside(form) is null || form.Fill.Missing.Count > 0)
        {
            return null;
        }

        List<VolumeRow> rows = Inside(form) is { } inside ? [inside] : [];
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
            rows.AddRange(Parts(view, alternative, chamber).Select(row => row with { AfterFill = !form.Fill.PartsInside }));
        }

        return new BoxVolumeInput { Rows = rows, Fill = fill, WantedCubicMeters = chamber == BoxChamber.Before ? alternative.Alternative.FrontCubicMeters : alternative.Alternative.NetCubicMeters };
    }

    private static VolumeRow? Inside(BoxVolumeForm form) => form switch
    {
        { MeshFileId: not null } => form.Surface?.InsideCubicMeters(form.MeshWallMeters ?? 0) is > 1e-6 and < 10 and { } enclosed
            ? new VolumeRow { Name = "Inside of the surface", Shape = new KnownSolid(enclosed), Reason = form.MeshWallMeters is > 0 and { } wall ? string.Create(CultureInfo.CurrentCulture, $"from the file, walls of {wall * 1000:0.#} mm taken off") : "from the file" }
            : null,
        { WidthMeters: { } width, HeightMeters: { } height, DepthMeters: { } depth } => new VolumeRow { Name = "Inside", Shape = new BoxSolid(width, height, depth), Reason = "measured inside" },
        _ => null,
    };

    private static IEnumerable<VolumeRow> Parts(EnclosureView view, StudiedAlternative alternative, BoxChamber chamber)
    {
        if (view.Driver?.Data.DisplacementLitres is > 0 and { } driver && (chamber == BoxChamber.Before) == (alternative.Alternative.Kind == EnclosureKind.BandPass && view.Form.MagnetInFront))
        {
            yield return new VolumeRow { Name = "Loudspeaker", Shape = new KnownSolid(driver / 1000), Count = view.Form.Count, Subtracted = true, Reason = "part data" };
        }

        if (PortChamber(alternative.Alternative) == chamber && PortCubicMeters(alternative) is { } port)
        {
            yield return new VolumeRow { Name = PortName, Shape = new KnownSolid(port), Subtracted = true, Reason = "its length with a wall of 5 mm" };
        }
    }

    /// <summary>The form that measures a chamber.</summary>
    public static BoxVolumeForm FormOf(EnclosureForm form, BoxChamber chamber)
    {
        ArgumentNullException.ThrowIfNull(form);
        return chamber == BoxChamber.Before ? form.FrontVolume : form.Volume;
    }

    /// <summary>The chamber the port stands in; null for a box without one.</summary>
    public static BoxChamber? PortChamber(BoxAlternative box)
    {
        ArgumentNullException.ThrowIfNull(box);
        return box.Kind switch { EnclosureKind.Vented => BoxChamber.Behind, EnclosureKind.BandPass => BoxChamber.Before, _ => null };
    }

    /// <summary>Net volume of a chamber as it comes out with the port cut for just that volume; as <paramref name="measured"/> says where no port stands in it.</summary>
    public static PortedChamberResult? WithPort(EnclosureView view, StudiedAlternative alternative, BoxChamber chamber, BoxVolumeResult measured, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(alternative);
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(measured);
        var box = alternative.Alternative;
        // Filled with the port in it, what was measured is already without it.
        if (PortChamber(box) != chamber || alternative.Result is null || FormOf(view.Form, chamber).Fill is { Measurement: not null, PartsInside: true })
        {
            return null;
        }

        var ends = EnclosureStudies.Ends(box);
        var input = new PortedChamberInput
        {
            WithoutPortCubicMeters = measured.NetCubicMeters + measured.Rows.Where(row => row.Name == PortName).Sum(row => Math.Abs(row.CubicMeters)),
            TuningHertz = box.TuningHertz,
            Ports = box.Ports,
            PortSquareMeters = box.PortSquareMeters / box.Ports,
            OutsideSquareMeters = OutsideSquareMeters(box),
            OuterEnd = ends.Outer,
            InnerEnd = ends.Inner,
        };
        return input.Validate(text).Count > 0 ? null : PortedChamber.Compute(input, text);
    }

    private static double? PortCubicMeters(StudiedAlternative studied) =>
        studied.Result?.PortMeters is > 0 and { } length ? studied.Alternative.Ports * OutsideSquareMeters(studied.Alternative) * length : null;

    private static double OutsideSquareMeters(BoxAlternative a) => a.PortShape == PortShape.Round
        ? Math.PI / 4 * Math.Pow(a.PortDiameterMeters + 2 * PortWallMeters, 2)
        : (a.SlotWidthMeters + 2 * PortWallMeters) * (a.SlotHeightMeters + 2 * PortWallMeters);
}
