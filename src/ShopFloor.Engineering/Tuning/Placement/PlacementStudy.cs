using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Geometry;
using ShopFloor.Engineering.Numerics;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Placement;

/// <summary>Distances, angles, directivity and first reflections of drivers in a cabin.</summary>
/// <remarks>
/// Straight paths; a driver as a flat piston in a large wall (Beranek, Acoustics: 2·J1(ka·sin θ)/(ka·sin θ)); reflections by image sources
/// (Allen and Berkley, JASA 65, 1979), first ones only, where the mirrored path meets the pane. Heads, seats and curved panes are left out.
/// </remarks>
public static class PlacementStudy
{
    private const string Piston = "Beranek, Acoustics: rigid piston in an infinite wall";
    private const string Images = "Allen and Berkley, JASA 65 (1979): image sources";
    private const string Practice = "common practice, no source";
    private const double HighestHertz = 20_000;
    private const int MostNotches = 8;

    /// <summary>Computes every path.</summary>
    /// <param name="input">Drivers, ears and panes.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="PlacementInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static PlacementResult Compute(PlacementInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        InputChecks.ThrowIfAny(input.Validate(text));
        var (words, speed) = (text ?? UnitText.Invariant, Air.At(input.AirCelsius).SpeedMetersPerSecond);
        var paths = input.Ears.SelectMany(ear =>
        {
            var nearest = input.Drivers.Min(driver => (ear.Place - driver.Place).Length);
            var farthest = input.Drivers.Max(driver => (ear.Place - driver.Place).Length);
            return input.Drivers.Select(driver => Path(driver, ear, input, speed, nearest, farthest));
        }).ToList();
        return new PlacementResult(speed, paths, Find(paths, words), Explain(input, speed, paths[0], words));
    }

    /// <summary>Level of a piston off its axis, dB: 20·log10|2·J1(ka·sin θ)/(ka·sin θ)|.</summary>
    /// <param name="hertz">Frequency, Hz, above 0.</param>
    /// <param name="radiusMeters">Radius of the piston, m, above 0.</param>
    /// <param name="offAxisDegrees">Angle, °, 0 to 90.</param>
    /// <param name="speedMetersPerSecond">Speed of sound, m/s, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static double DirectivityDecibels(double hertz, double radiusMeters, double offAxisDegrees, double speedMetersPerSecond)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(hertz);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(radiusMeters);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(speedMetersPerSecond);
        if (!(offAxisDegrees is >= 0 and <= 90))
            throw new ArgumentOutOfRangeException(nameof(offAxisDegrees), offAxisDegrees, "Accepted is 0 to 90.");
        var x = 2 * Math.PI * hertz / speedMetersPerSecond * radiusMeters * Math.Sin(offAxisDegrees * Math.PI / 180);
        return x < 1e-6 ? 0 : 20 * Math.Log10(Math.Max(Math.Abs(2 * Bessel.J1(x) / x), 1e-6));
    }

    private static DriverPath Path(PlacedDriver driver, ListeningPlace ear, PlacementInput input, double speed, double nearest, double farthest)
    {
        var direct = ear.Place - driver.Place;
        var distance = direct.Length;
        var angle = Math.Acos(Math.Clamp(direct.Dot(driver.Axis) / (distance * driver.Axis.Length), -1, 1)) * 180 / Math.PI;
        IReadOnlyList<OffAxisLevel> levels = angle <= 90 ? [.. input.Hertz.Select(hertz => new OffAxisLevel(hertz, DirectivityDecibels(hertz, driver.PistonRadiusMeters, angle, speed)))] : [];
        IReadOnlyList<FirstReflection> reflections = [.. input.Panes.Select(pane => Reflection(driver.Place, ear.Place, pane, distance, speed)).OfType<FirstReflection>().OrderBy(one => one.DelaySeconds)];
        return new DriverPath(driver.Id, ear.Id, distance, distance / speed, distance - nearest, (farthest - distance) / speed, angle, levels, reflections);
    }

    private static FirstReflection? Reflection(Point3 from, Point3 to, ReflectingPane pane, double distance, double speed)
    {
        var normal = pane.First.Cross(pane.Second);
        normal *= 1 / normal.Length;
        var (before, behind) = ((from - pane.Corner).Dot(normal), (to - pane.Corner).Dot(normal));
        // Both must stand on one side, neither in the pane.
        if (before * behind <= 1e-12)
            return null;
        var image = from - normal * (2 * before);
        var way = to - image;
        var hit = image + way * (before / (before + behind));
        if (!Inside(hit - pane.Corner, pane))
            return null;
        var (path, delay) = (way.Length, (way.Length - distance) / speed);
        var level = 20 * Math.Log10(distance / path) - pane.LossDecibels;
        var gain = Math.Pow(10, level / 20);
        double[] notches = delay > 0 ? [.. Enumerable.Range(0, MostNotches).Select(n => (2 * n + 1) / (2 * delay)).Where(hertz => hertz <= HighestHertz)] : [];
        return new FirstReflection(pane.Id, path, delay, level, notches, 20 * Math.Log10(Math.Max(1 - gain, 1e-6)), 20 * Math.Log10(1 + gain));
    }

    private static bool Inside(Point3 place, ReflectingPane pane)
    {
        double aa = pane.First.Dot(pane.First), bb = pane.Second.Dot(pane.Second), ab = pane.First.Dot(pane.Second), pa = place.Dot(pane.First), pb = place.Dot(pane.Second);
        var whole = aa * bb - ab * ab;
        return (pa * bb - pb * ab) / whole is >= 0 and <= 1 && (pb * aa - pa * ab) / whole is >= 0 and <= 1;
    }

    private static IReadOnlyList<Finding> Find(List<DriverPath> paths, UnitText words)
    {
        var findings = new FindingList("placement", "Placement");
        foreach (var path in paths)
        {
            var (id, name) = ($"{path.DriverId}|{path.EarId}", $"{path.DriverId} to {path.EarId}");
            if (path.OffAxisDegrees > 90)
                findings.About(id, name, "driver-looks-away", Severity.Warn, $"The ear is {words.With(path.OffAxisDegrees, "°")} off the driver's axis, behind it.", "Turn the driver, or count on low frequencies only.", Piston);
            else if (path.OffAxis.FirstOrDefault(level => level.Decibels < -6) is { } beam)
                findings.About(id, name, "driver-beams", Severity.Note, $"At {words.With(beam.Hertz, "Hz")} the driver is {words.With(-beam.Decibels, "dB")} down at the ear, {words.With(path.OffAxisDegrees, "°")} off its axis.", "Aim it nearer to the ear, or cross it over below.", Piston);
            if (path.Reflections.MaxBy(one => one.Decibels) is { Decibels: > -6, NotchHertz.Count: > 0 } strong)
            {
                findings.About(id, name, "strong-reflection", Severity.Note,
                    $"The pane “{strong.PaneId}” throws back {words.With(strong.Decibels, "dB")} after {words.With(strong.DelaySeconds * 1e3, "ms")}: dips from {words.With(strong.NotchHertz[0], "Hz")} on, down to {words.With(strong.NotchDecibels, "dB")}.",
                    "Move or aim the driver so that the pane gets less; an equaliser cannot fill a dip of cancellation.", Images);
            }
        }

        return findings.Sorted;
    }

    private static Explanation Explain(PlacementInput input, double speed, DriverPath first, UnitText words) => new(
        "When and how does each driver reach each ear?",
        $"{input.Drivers.Count * input.Ears.Count} paths at {words.With(speed, "m/s", 5)}.",
        [new ExplainedInput("Air temperature", input.AirCelsius, "°C", "entered")],
        [
            new ExplainedStep("Speed of sound", "343.2·√((t + 273.15)/293.15)", $"t = {words.Celsius(input.AirCelsius)}", words.With(speed, "m/s", 5), "ISO 9613-1"),
            new ExplainedStep($"{first.DriverId} to {first.EarId}", "d/c", $"{words.Meters(first.DistanceMeters)}/{words.With(speed, "m/s", 5)}", words.With(first.DelaySeconds * 1e3, "ms", 5), Practice),
            new ExplainedStep("Level off the axis", "20·log10|2·J1(ka·sin θ)/(ka·sin θ)|", $"θ = {words.With(first.OffAxisDegrees, "°")}", first.OffAxis.Count > 0 ? words.With(first.OffAxis[^1].Decibels, "dB") : "behind", Piston),
        ],
        [],
        null);
}
