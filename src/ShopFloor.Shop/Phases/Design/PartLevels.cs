using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What a part on the list takes at each level, whatever feeds it; null levels are not known.</summary>
internal sealed record PartLevels(JobPart Part, string Id, string Name, PlanLevel? Rated, PlanLevel? Music, PlanLevel? Idle, AmplifierCurrentResult? Amplifier)
{
    /// <summary>Every consumer, also those on a circuit of the car: the alternator carries them all the same.</summary>
    public static IReadOnlyList<PartLevels> Of(IReadOnlyList<JobPart> installed, ElectricalSettingsForm settings, UnitText text) =>
    [
        .. PlanLoads.Of(installed, settings, []).Select(consumer => Of(consumer, settings, text)),
        .. installed.Where(part => part.Data is AccessoryData { WorkingAmperes: null }).Select(part => new PartLevels(part, part.Id.ToString(), part.Name, null, null, null, null)),
    ];

    private static PartLevels Of(PlanLoads.Consumer consumer, ElectricalSettingsForm settings, UnitText text)
    {
        var load = consumer.Load;
        PartLevels With(PlanLevel? rated, PlanLevel? music, PlanLevel? idle, AmplifierCurrentResult? amplifier = null) =>
            new(consumer.Part, load.Id, load.Name, rated, music, idle, amplifier);
        if (load.Fixed is { RatedAmperes: { } amperes })
        {
            var watts = amperes * settings.SupplyVolts;
            var level = new PlanLevel(amperes, watts, 0, watts);
            return With(level, level, level);
        }

        if (load.Amplifier is not { RatedOutputWatts: { } output, Class: { } stage } data)
        {
            return With(null, null, null);
        }

        var input = new AmplifierCurrentInput
        {
            Name = load.Name,
            RatedOutputWatts = output,
            Class = stage,
            FullPowerEfficiency = data.FullPowerEfficiency,
            IdleAmperes = data.IdleAmperes,
            SupplyVolts = settings.SupplyVolts,
            CrestFactorDecibels = data.CrestFactorDecibels,
        };
        if (input.Validate(text).Count > 0)
        {
            return With(null, null, null);
        }

        var result = AmplifierCurrent.Compute(input, text);
        return With(LevelOf(result.Rated), LevelOf(result.Music), LevelOf(result.Idle), result);
    }

    private static PlanLevel LevelOf(AmplifierLevel level) => new(level.CurrentAmperes, level.SupplyWatts, level.OutputWatts, level.HeatWatts);
}
