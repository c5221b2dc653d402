using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Geometry;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Tuning.Placement;

/// <summary>A driver at a place.</summary>
public sealed record PlacedDriver
{
    /// <summary>Identifier, its own.</summary>
    public required string Id { get; init; }

    /// <summary>Middle of the cone, m.</summary>
    public required Point3 Place { get; init; }

    /// <summary>Where it looks; any length above 0.</summary>
    public required Point3 Axis { get; init; }

    /// <summary>Effective radius of the cone, m (0.001 to 0.5).</summary>
    public required double PistonRadiusMeters { get; init; }
}

/// <summary>An ear, or the middle of a head.</summary>
/// <param name="Id">Identifier, its own.</param>
/// <param name="Place">Where it is, m.</param>
public sealed record ListeningPlace(string Id, Point3 Place);

/// <summary>A flat piece that throws sound back, such as a pane: a parallelogram by a corner and its two sides.</summary>
public sealed record ReflectingPane
{
    /// <summary>Identifier, its own.</summary>
    public required string Id { get; init; }

    /// <summary>A corner, m.</summary>
    public required Point3 Corner { get; init; }

    /// <summary>From the corner along one side, m.</summary>
    public required Point3 First { get; init; }

    /// <summary>From the corner along the other side, m.</summary>
    public required Point3 Second { get; init; }

    /// <summary>What the sound loses at it, dB (0 to 60).</summary>
    public double LossDecibels { get; init; }
}

/// <summary>Drivers, ears and panes of a cabin.</summary>
public sealed record PlacementInput
{
    /// <summary>Drivers, 1 to 64.</summary>
    public required IReadOnlyList<PlacedDriver> Drivers { get; init; }

    /// <summary>Ears, 1 to 32.</summary>
    public required IReadOnlyList<ListeningPlace> Ears { get; init; }

    /// <summary>Panes, up to 64.</summary>
    public IReadOnlyList<ReflectingPane> Panes { get; init; } = [];

    /// <summary>Air temperature, °C (−40 to 80).</summary>
    public double AirCelsius { get; init; } = 20;

    /// <summary>Frequencies the directivity is told at, Hz (10 to 40,000), up to 200.</summary>
    public IReadOnlyList<double> Hertz { get; init; } = [500, 1_000, 2_000, 4_000, 8_000, 16_000];

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        Count(checks, nameof(Drivers), "Drivers", Drivers.Count, 1, 64);
        Count(checks, nameof(Ears), "Ears", Ears.Count, 1, 32);
        Count(checks, nameof(Panes), "Panes", Panes.Count, 0, 64);
        Count(checks, nameof(Hertz), "Frequencies", Hertz.Count, 0, 200);
        checks.InRange(nameof(AirCelsius), "Air temperature", AirCelsius, -40, 80, QuantityKind.Temperature);
        checks.Distinct(nameof(Drivers), "Drivers", Drivers.Select(one => one.Id));
        checks.Distinct(nameof(Ears), "Ears", Ears.Select(one => one.Id));
        checks.Distinct(nameof(Panes), "Panes", Panes.Select(one => one.Id));
        for (var n = 0; n < Hertz.Count; n++)
            checks.InRange($"{nameof(Hertz)}[{n}]", "Frequency in Hz", Hertz[n], 10, 40_000);
        for (var n = 0; n < Drivers.Count; n++)
        {
            var at = $"{nameof(Drivers)}[{n}]";
            checks.Named($"{at}.Id", "Driver", Drivers[n].Id);
            Within(checks, $"{at}.{nameof(PlacedDriver.Place)}", "Place of the driver", Drivers[n].Place);
            checks.InRange($"{at}.{nameof(PlacedDriver.PistonRadiusMeters)}", "Radius of the cone", Drivers[n].PistonRadiusMeters, 0.001, 0.5, QuantityKind.SmallLength);
            if (!(Drivers[n].Axis.Length is > 1e-9 and < 1e9))
                checks.Add($"{at}.{nameof(PlacedDriver.Axis)}", "Axis of the driver: it has no length; enter a direction.");
            for (var ear = 0; ear < Ears.Count; ear++)
            {
                if ((Ears[ear].Place - Drivers[n].Place).Length < 0.01)
                    checks.Add($"{nameof(Ears)}[{ear}].{nameof(ListeningPlace.Place)}", $"Ear “{Ears[ear].Id}” and driver “{Drivers[n].Id}” are at one place; they must be 10 mm apart or more.");
            }
        }

        for (var n = 0; n < Ears.Count; n++)
        {
            checks.Named($"{nameof(Ears)}[{n}].Id", "Ear", Ears[n].Id);
            Within(checks, $"{nameof(Ears)}[{n}].{nameof(ListeningPlace.Place)}", "Place of the ear", Ears[n].Place);
        }

        for (var n = 0; n < Panes.Count; n++)
        {
            var at = $"{nameof(Panes)}[{n}]";
            checks.Named($"{at}.Id", "Pane", Panes[n].Id);
            Within(checks, $"{at}.{nameof(ReflectingPane.Corner)}", "Corner of the pane", Panes[n].Corner);
            checks.InRange($"{at}.{nameof(ReflectingPane.LossDecibels)}", "Loss at the pane in dB", Panes[n].LossDecibels, 0, 60);
            if (!(Panes[n].First.Cross(Panes[n].Second).Length is > 1e-6 and < 1e6))
                checks.Add($"{at}.{nameof(ReflectingPane.First)}", "Sides of the pane: they enclose no area; enter two that do not lie along each other.");
        }

        return checks.Problems;
    }

    private static void Count(InputChecks checks, string field, string label, int count, int least, int most)
    {
        if (count < least || count > most)
            checks.Add(field, $"{label}: {count} were given; enter {least} to {most}.");
    }

    private static void Within(InputChecks checks, string field, string label, Point3 place)
    {
        checks.InRange($"{field}.X", label + " in m, x", place.X, -50, 50);
        checks.InRange($"{field}.Y", label + " in m, y", place.Y, -50, 50);
        checks.InRange($"{field}.Z", label + " in m, z", place.Z, -50, 50);
    }
}

/// <summary>Level of a driver off its axis.</summary>
/// <param name="Hertz">Frequency, Hz.</param>
/// <param name="Decibels">Against the level on its axis, dB.</param>
public sealed record OffAxisLevel(double Hertz, double Decibels);

/// <summary>A first reflection.</summary>
/// <param name="PaneId">The pane.</param>
/// <param name="PathMeters">Way by the pane, m.</param>
/// <param name="DelaySeconds">After the direct sound, s.</param>
/// <param name="Decibels">Against the direct sound where the driver beams no more one way than the other, dB.</param>
/// <param name="NotchHertz">First cancellations 1/(2Δt), 3/(2Δt), … up to 20 kHz, at most 8, Hz.</param>
/// <param name="NotchDecibels">Depth of a cancellation, dB.</param>
/// <param name="PeakDecibels">Height of the peaks between, dB.</param>
public sealed record FirstReflection(string PaneId, double PathMeters, double DelaySeconds, double Decibels, IReadOnlyList<double> NotchHertz, double NotchDecibels, double PeakDecibels);

/// <summary>From a driver to an ear.</summary>
/// <param name="DriverId">The driver.</param>
/// <param name="EarId">The ear.</param>
/// <param name="DistanceMeters">Distance, m.</param>
/// <param name="DelaySeconds">Time of the sound, s.</param>
/// <param name="NearerMeters">Path beyond that of the nearest driver to this ear, m.</param>
/// <param name="AddDelaySeconds">Delay to add so that this driver arrives with the farthest at this ear, s.</param>
/// <param name="OffAxisDegrees">Angle off the driver's axis, °.</param>
/// <param name="OffAxis">Level off the axis; empty behind the driver, where a piston in a wall sends nothing that is told here.</param>
/// <param name="Reflections">First reflections, earliest first.</param>
public sealed record DriverPath(
    string DriverId, string EarId, double DistanceMeters, double DelaySeconds, double NearerMeters, double AddDelaySeconds, double OffAxisDegrees, IReadOnlyList<OffAxisLevel> OffAxis, IReadOnlyList<FirstReflection> Reflections);

/// <summary>What a placement gives.</summary>
/// <param name="SpeedMetersPerSecond">Speed of sound, m/s.</param>
/// <param name="Paths">Every driver to every ear.</param>
/// <param name="Findings">What to look at.</param>
/// <param name="Explanation">How it was reached.</param>
public sealed record PlacementResult(double SpeedMetersPerSecond, IReadOnlyList<DriverPath> Paths, IReadOnlyList<Finding> Findings, Explanation Explanation);
