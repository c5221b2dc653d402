using ShopFloor.Engineering.Electrical;

namespace ShopFloor.Engineering.Tests.Electrical;

/// <summary>Builds plans for tests.</summary>
internal static class Plans
{
    public const string MainId = "main";

    public static ElectricalLoad Fixed(string id, double? amperes, double meters = 1, string? from = MainId) => new()
    {
        Id = id,
        Name = $"Load {id}",
        Kind = LoadKind.Fixed,
        Fixed = new FixedLoad { RatedAmperes = amperes, MusicAmperes = amperes * 0.4, IdleAmperes = amperes * 0.1 },
        FedFrom = from,
        Branch = Runs.Data(meters),
    };

    public static ElectricalLoad Amplifier(string id, double? watts, AmplifierClass? amplifierClass = AmplifierClass.D, double meters = 1) => new()
    {
        Id = id,
        Name = $"Amplifier {id}",
        Kind = LoadKind.Amplifier,
        Amplifier = new AmplifierLoad { RatedOutputWatts = watts, Class = amplifierClass },
        FedFrom = MainId,
        Branch = Runs.Data(meters),
    };

    public static FeedPoint MainPoint(double? meters = 4.5) => new() { Id = MainId, Name = "Main run", Run = Runs.Data(meters) };

    /// <summary>One distribution point behind a main run of 4.5 m.</summary>
    public static ElectricalPlanInput Of(params ElectricalLoad[] loads) => new()
    {
        Points = [MainPoint()],
        Loads = loads,
        Rules = Runs.EverySize,
    };

    public static ElectricalPlanInput WithMain(this ElectricalPlanInput input, Func<FeedPoint, FeedPoint> change) =>
        input with { Points = [change(input.Points[0]), .. input.Points.Skip(1)] };

    public static ElectricalPlanInput WithMainRun(this ElectricalPlanInput input, Func<RunData, RunData> change) =>
        input.WithMain(point => point with { Run = change(point.Run) });

    /// <summary>The run to the first point.</summary>
    public static RunSizingResult? MainRun(this ElectricalPlanResult plan) => plan.Points.Count > 0 ? plan.Points[0].Run : null;

    public static double MainAmperes(this ElectricalPlanResult plan) => plan.Points[0].Amperes;
}
