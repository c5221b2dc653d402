using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>Currents of one load at its three levels, or what is missing to know them.</summary>
internal sealed record LoadCurrents(
    ElectricalLoad Load, PlanLevel? Rated, PlanLevel? Music, PlanLevel? Idle, AmplifierCurrentResult? Amplifier, IReadOnlyList<string> Missing)
{
    public static AmplifierCurrentInput AmplifierInput(string name, AmplifierLoad amplifier, double supplyVolts) => new()
    {
        Name = name,
        RatedOutputWatts = amplifier.RatedOutputWatts ?? 0,
        Class = amplifier.Class ?? AmplifierClass.AB,
        FullPowerEfficiency = amplifier.FullPowerEfficiency,
        IdleAmperes = amplifier.IdleAmperes,
        SupplyVolts = supplyVolts,
        CrestFactorDecibels = amplifier.CrestFactorDecibels,
    };

    public static LoadCurrents Of(ElectricalLoad load, double supplyVolts, UnitText text)
    {
        var missing = MissingData(load);
        if (missing.Count > 0)
            return new LoadCurrents(load, null, null, null, null, missing);

        if (load.Kind == LoadKind.Amplifier)
        {
            var result = AmplifierCurrent.Compute(AmplifierInput(load.Name, load.Amplifier!, supplyVolts), text);
            return new LoadCurrents(load, Level(result.Rated), Level(result.Music), Level(result.Idle), result, missing);
        }

        var currents = load.Fixed!;
        var rated = currents.RatedAmperes!.Value;
        PlanLevel At(double amperes) => new(amperes, amperes * supplyVolts, 0, amperes * supplyVolts);
        return new LoadCurrents(load, At(rated), At(currents.MusicAmperes ?? rated), At(currents.IdleAmperes ?? rated), null, missing);
    }

    private static PlanLevel Level(AmplifierLevel level) => new(level.CurrentAmperes, level.SupplyWatts, level.OutputWatts, level.HeatWatts);

    private static List<string> MissingData(ElectricalLoad load)
    {
        var missing = new List<string>();
        if (load.Kind == LoadKind.Amplifier)
        {
            if (load.Amplifier?.RatedOutputWatts is null)
                missing.Add("rated output power");
            if (load.Amplifier?.Class is null)
                missing.Add("amplifier class");
        }
        else if (load.Fixed?.RatedAmperes is null)
        {
            missing.Add("rated current");
        }

        return missing;
    }
}
