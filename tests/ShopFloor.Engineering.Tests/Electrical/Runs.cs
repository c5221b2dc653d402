using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Tests.Electrical;

/// <summary>Builds runs for tests: 30 °C, 105 °C insulation, fuse at the source, every size of the table.</summary>
internal static class Runs
{
    public static SizingRules EverySize { get; } = new() { AvailableSizes = [.. ConductorSize.Gauges.Select(c => c.Label)] };

    public static RunData Data(double? meters = 1) => new()
    {
        LengthMeters = meters,
        InsulationCelsius = 105,
        AmbientCelsius = 30,
        SourceToFuseMeters = 0,
    };

    public static RunSizingInput Run(double amperes, double meters = 1) => new()
    {
        Id = "run",
        Name = "Run",
        ContinuousAmperes = amperes,
        SupplyVolts = 13.8,
        Run = Data(meters),
        Rules = EverySize,
    };

    public static RunSizingInput WithRun(this RunSizingInput input, Func<RunData, RunData> change) => input with { Run = change(input.Run) };

    public static Finding? Of(this IEnumerable<Finding> findings, string code) => findings.SingleOrDefault(f => f.Code == code);
}
