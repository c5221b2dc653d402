using System.Globalization;

namespace ShopFloor.Engineering.Electrical.Conductors;

/// <summary>Conductor sizes shipped with the program, by size system, thinnest first.</summary>
public static class PublishedSizes
{
    /// <summary>IEC 60228 class 5, plain copper, 0.5 to 150 mm²: highest resistance at 20 °C as the standard's table has it.</summary>
    public static IReadOnlyList<ConductorSize> Class5 { get; } = Metric(
        SizeSystem.Class5Metric, "class 5", "IEC 60228, class 5, plain copper, highest resistance at 20 °C",
        (0.5, 39.0), (0.75, 26.0), (1, 19.5), (1.5, 13.3), (2.5, 7.98), (4, 4.95), (6, 3.30), (10, 1.91),
        (16, 1.21), (25, 0.780), (35, 0.554), (50, 0.386), (70, 0.272), (95, 0.206), (120, 0.161), (150, 0.129));

    /// <summary>IEC 60228 class 5, tinned copper, 0.5 to 150 mm²: highest resistance at 20 °C as the standard's table has it.</summary>
    public static IReadOnlyList<ConductorSize> Class5Tinned { get; } = Metric(
        SizeSystem.Class5Metric, "class 5 tinned", "IEC 60228, class 5, tinned copper, highest resistance at 20 °C",
        (0.5, 40.1), (0.75, 26.7), (1, 20.0), (1.5, 13.7), (2.5, 8.21), (4, 5.09), (6, 3.39), (10, 1.95),
        (16, 1.24), (25, 0.795), (35, 0.565), (50, 0.393), (70, 0.277), (95, 0.210), (120, 0.164), (150, 0.132));

    /// <summary>
    /// Vehicle cable to ISO 6722-1 and ISO 19642-3, plain copper, 0.13 to 120 mm². Resistances from memory: use the cable maker's figure
    /// where it is at hand.
    /// </summary>
    public static IReadOnlyList<ConductorSize> Vehicle { get; } = Metric(
        SizeSystem.VehicleMetric, "vehicle cable", "ISO 6722-1 and ISO 19642-3 sizes; highest resistance at 20 °C from memory, use the maker's data",
        (0.13, 136), (0.22, 84.8), (0.35, 54.4), (0.5, 37.1), (0.75, 24.7), (1, 18.5), (1.25, 14.9), (1.5, 12.7), (2, 9.42), (2.5, 7.60),
        (3, 6.15), (4, 4.71), (5, 3.94), (6, 3.14), (8, 2.38), (10, 1.82), (12, 1.52), (16, 1.16), (20, 0.955), (25, 0.743), (30, 0.647),
        (35, 0.527), (40, 0.473), (50, 0.368), (60, 0.315), (70, 0.259), (95, 0.196), (120, 0.153));

    /// <summary>Gauge sizes 18 to 4/0 AWG of another material, thinnest first. The label names the material, so that copper is never mistaken for it.</summary>
    /// <param name="material">Material of the conductor.</param>
    public static IReadOnlyList<ConductorSize> Gauges(ConductorMaterial material)
    {
        ArgumentNullException.ThrowIfNull(material);
        return material == ConductorMaterial.AnnealedCopper
            ? ConductorSize.Gauges
            : [.. ConductorSize.Gauges.Select(s => s with
                {
                    Label = $"{s.Label} {material.Name}",
                    Material = material,
                    SaeAreaSquareMillimeters = null,
                    Source = $"area: ASTM B258; {material.Source}",
                })];
    }

    private static IReadOnlyList<ConductorSize> Metric(
        SizeSystem system, string kind, string source, params (double SquareMillimeters, double OhmsPerKilometer)[] rows) =>
    [
        .. rows.Select(r => new ConductorSize(
            string.Create(CultureInfo.InvariantCulture, $"{r.SquareMillimeters} mm² {kind}"), r.SquareMillimeters)
        {
            SizeSystem = system,
            TabulatedOhmsPerMeterAt20Celsius = r.OhmsPerKilometer / 1000,
            Source = source,
        }),
    ];
}
