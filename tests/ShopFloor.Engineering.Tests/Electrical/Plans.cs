using ShopFloor.Engineering.Electrical;

namespace ShopFloor.Engineering.Tests.Electrical;

/// <summary>Builds plans for tests.</summary>
internal static class Plans
{
    public static ElectricalLoad Fixed(string id, double? amperes, double meters = 1, LoadConnection at = LoadConnection.Distribution) => new()
    {
        Id = id,
        Name = $"Load {id}",
        Kind = LoadKind.Fixed,
        Fixed = new FixedLoad { RatedAmperes = amperes, MusicAmperes = amperes * 0.4, IdleAmperes = amperes * 0.1 },
        ConnectedTo = at,
        Branch = Runs.Data(meters),
    };

    public static ElectricalLoad Amplifier(string id, double? watts, AmplifierClass? amplifierClass = AmplifierClass.D, double meters = 1) => new()
    {
        Id = id,
        Name = $"Amplifier {id}",
        Kind = LoadKind.Amplifier,
        Amplifier = new AmplifierLoad { RatedOutputWatts = watts, Class = amplifierClass },
        Branch = Runs.Data(meters),
    };

    public static ElectricalPlanInput Of(params ElectricalLoad[] loads) => new()
    {
        Main = Runs.Data(4.5),
        Loads = loads,
        Rules = Runs.EverySize,
    };
}
