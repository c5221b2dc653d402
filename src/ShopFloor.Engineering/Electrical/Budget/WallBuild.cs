namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>One layer of a wall.</summary>
/// <param name="Name">Material.</param>
/// <param name="ThicknessMeters">Thickness, m.</param>
/// <param name="ConductivityWattsPerMeterKelvin">Thermal conductivity, W/(m·K).</param>
public sealed record WallLayer(string Name, double ThicknessMeters, double ConductivityWattsPerMeterKelvin);

/// <summary>How a wall of a compartment is built, and the heat it lets through.</summary>
/// <remarks>
/// U = 1/(R_si + Σ d/λ + R_se) with R_si = 0.13 m²·K/W for still air and horizontal heat flow (ISO 6946). The other side of a wall in a
/// car is taken as still air too (parked), 0.13; outdoors in wind it would be 0.04. Conductivities: design values of ISO 10456, from memory.
/// </remarks>
/// <param name="Name">Name shown in texts.</param>
/// <param name="Layers">Layers; may be empty for bare metal sheet.</param>
/// <param name="OuterResistance">Surface resistance of the far side, m²·K/W.</param>
public sealed record WallBuild(string Name, IReadOnlyList<WallLayer> Layers, double OuterResistance = WallBuild.StillAirResistance)
{
    /// <summary>Surface resistance of still air, m²·K/W. Source: ISO 6946.</summary>
    public const double StillAirResistance = 0.13;

    /// <summary>Surface resistance outdoors in wind, m²·K/W. Source: ISO 6946.</summary>
    public const double WindResistance = 0.04;

    /// <summary>Where the values come from.</summary>
    public const string Source = "ISO 6946 surface resistances; conductivities of ISO 10456, from memory";

    /// <summary>Body sheet, 0.8 mm.</summary>
    public static WallBuild BareSteel { get; } = new("bare steel", [new("steel", 0.0008, 50)]);

    /// <summary>Body sheet with 8 mm of carpet and felt.</summary>
    public static WallBuild CarpetedSteel { get; } = new("steel with carpet", [new("steel", 0.0008, 50), new("carpet", 0.008, 0.06)]);

    /// <summary>12 mm plywood.</summary>
    public static WallBuild Plywood { get; } = new("12 mm plywood", [new("plywood", 0.012, 0.13)]);

    /// <summary>12 mm plywood with 5 mm of carpet.</summary>
    public static WallBuild CarpetedPlywood { get; } = new("12 mm plywood with carpet", [new("plywood", 0.012, 0.13), new("carpet", 0.005, 0.06)]);

    /// <summary>18 mm medium-density fibreboard.</summary>
    public static WallBuild Fibreboard { get; } = new("18 mm fibreboard", [new("fibreboard", 0.018, 0.14)]);

    /// <summary>4 mm glass or acrylic.</summary>
    public static WallBuild Glass { get; } = new("4 mm glass", [new("glass", 0.004, 1.0)]);

    /// <summary>Every build offered.</summary>
    public static IReadOnlyList<WallBuild> All { get; } = [BareSteel, CarpetedSteel, Plywood, CarpetedPlywood, Fibreboard, Glass];

    /// <summary>Heat let through, W/(m²·K).</summary>
    public double WattsPerSquareMeterKelvin =>
        1 / (StillAirResistance + Layers.Sum(l => l.ThicknessMeters / l.ConductivityWattsPerMeterKelvin) + OuterResistance);
}

/// <summary>A wall of the compartment.</summary>
/// <param name="Name">Name shown in texts.</param>
/// <param name="AreaSquareMeters">Area, m² (0 to 20).</param>
/// <param name="WattsPerSquareMeterKelvin">Heat let through, W/(m²·K) (0.05 to 20), from a <see cref="WallBuild"/> or entered.</param>
/// <param name="Origin">"entered", or the build and its source.</param>
public sealed record CompartmentWall(string Name, double AreaSquareMeters, double WattsPerSquareMeterKelvin, string Origin = "entered")
{
    /// <summary>A wall of a known build.</summary>
    /// <param name="name">Name shown in texts.</param>
    /// <param name="areaSquareMeters">Area, m².</param>
    /// <param name="build">Build.</param>
    public static CompartmentWall Of(string name, double areaSquareMeters, WallBuild build)
    {
        ArgumentNullException.ThrowIfNull(build);
        return new CompartmentWall(name, areaSquareMeters, build.WattsPerSquareMeterKelvin, $"{build.Name}: {WallBuild.Source}");
    }
}
