using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Explained;
using ShopFloor.Shop.Catalogue;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Maps parts, vehicle and settings of a job to its alternator, battery and key-off budgets.</summary>
internal static class BudgetMapping
{
    public static AlternatorBudgetResult? Alternator(BudgetFacts facts, List<Finding> findings)
    {
        if (AlternatorSource.InputOf(facts.Vehicle, facts.Settings, facts.Plan.Settings) is not { } known)
        {
            findings.Add(Missing("alternator-not-known", "alternator", "Alternator", "Neither its rated current nor its stamped rating is known, so there is no balance.", "Read the label on the alternator and enter it on the job card, or here as stamped.", "needed for the balance"));
            return null;
        }

        if (AlternatorSource.Disagreement(facts.Vehicle, facts.Settings, facts.Text) is { } differs)
        {
            findings.Add(differs);
        }

        var input = known with
        {
            Loads = [.. facts.Loads.Select(load => new MusicLoad(load.Id, load.Name, load.Music?.Amperes))],
            BatteryAmpereHours = AllAmpereHours(facts),
        };
        return BudgetFacts.Ask("alternator-budget", "Alternator budget", input.Validate(facts.Text), findings, () => AlternatorBudget.Compute(input, facts.Text));
    }

    public static List<BatteryTimeRow> Batteries(BudgetFacts facts, List<Finding> findings)
    {
        var settings = facts.Settings;
        var on = facts.Loads.ToLookup(facts.BatteryOf);
        List<BatteryTimeRow> rows = [];
        // Only when listening with the engine off does the car itself hang on its battery too.
        var own = facts.Loads.Count > 0 ? FeedNetworkBuilder.EngineOffBaseAmperes : 0;
        if (facts.Vehicle.BatteryAmpereHours is null && settings.ReserveMinutes is null)
        {
            findings.Add(Missing("battery-not-known", "car-battery", "The car's battery", "Neither capacity nor reserve capacity is known, so there is no time with the engine off and no days parked.", "Read its label; enter the capacity on the job card or the reserve capacity here.", "needed for the battery time"));
        }

        rows.Add(Row(
            null, "The car's battery", [.. on[null]], own, findings, facts,
            load => new BatteryTimeInput { Id = "car-battery", Name = "The car's battery", Chemistry = settings.BatteryKind, CapacityAmpereHours = facts.Vehicle.BatteryAmpereHours, ReserveCapacityMinutes = settings.ReserveMinutes, LoadAmperes = load },
            facts.Vehicle.BatteryAmpereHours is not null || settings.ReserveMinutes is not null));
        foreach (var part in facts.Installed)
        {
            if (part.Data is not BatteryData data)
            {
                continue;
            }

            var kind = BatteryWords.ChemistryOf(data.Chemistry);
            if (kind is null)
            {
                findings.Add(Missing("battery-kind-missing", part.Id.ToString(), part.Name, "Its kind is not known; it is taken as flooded lead-acid, which lasts the shortest.", "Enter the chemistry of the part: flooded, AGM, gel or lithium iron phosphate.", "needed for the battery time"));
            }

            if (data.CapacityAmpereHours is null)
            {
                findings.Add(Missing("battery-capacity-missing", part.Id.ToString(), part.Name, "Its capacity is not known, so there is no time for it.", "Enter the capacity of the part.", "needed for the battery time"));
            }

            rows.Add(Row(
                part.Id, part.Name, [.. on[part.Id]], 0, findings, facts,
                load => new BatteryTimeInput { Id = part.Id.ToString(), Name = part.Name, Chemistry = kind ?? BatteryChemistry.Flooded, CapacityAmpereHours = SecondBatteries.AmpereHoursOf(part, data), LoadAmperes = load },
                data.CapacityAmpereHours is not null));
        }

        return rows;
    }

    public static (KeyOffDrainResult? Result, List<DrainRow> Rows) Drain(BudgetFacts facts, List<Finding> findings)
    {
        var settings = facts.Settings;
        List<DrainRow> parts = [.. facts.Installed.Where(Standby.Draws).Select(part => new DrainRow(part.Id, part.Name, Standby.Milliamperes(part)))];
        var input = new KeyOffDrainInput
        {
            Draws = [.. parts.Select(row => new StandbyDraw(row.PartId.ToString()!, row.Name, row.Milliamperes / 1000))], // rows of parts have their id
            VehicleSleepAmperes = settings.VehicleSleepMilliamperes / 1000,
            VehicleSleepOrigin = settings.SleepOrigin,
            MakersLimitAmperes = settings.MakersLimitMilliamperes / 1000,
            ReserveCapacityMinutes = settings.ReserveMinutes,
            BatteryAmpereHours = facts.Vehicle.BatteryAmpereHours,
            ParkedDays = settings.ParkedDays,
        };
        var result = BudgetFacts.Ask("key-off-drain", "Key-off drain", input.Validate(facts.Text), findings, () => KeyOffDrain.Compute(input, facts.Text));
        return (result, [.. parts.Append(new DrainRow(null, "The car itself, asleep", settings.VehicleSleepMilliamperes)).OrderByDescending(row => row.Milliamperes ?? -1)]);
    }

    private static double? AllAmpereHours(BudgetFacts facts) => facts.Vehicle.BatteryAmpereHours is { } car
        ? car + facts.Installed.Sum(part => part.Data is BatteryData data ? SecondBatteries.AmpereHoursOf(part, data) ?? 0 : 0)
        : null;

    private static BatteryTimeRow Row(
        Guid? partId, string name, IReadOnlyList<PartLevels> loads, double own, List<Finding> findings, BudgetFacts facts, Func<double, BatteryTimeInput> input, bool known)
    {
        var music = own + loads.Sum(load => load.Music?.Amperes ?? 0);
        var idle = own + loads.Sum(load => load.Idle?.Amperes ?? 0);
        BatteryTimeResult? Time(double amperes)
        {
            if (!known || amperes < 0.001)
            {
                return null;
            }

            var asked = input(amperes) with { StartPercent = facts.Settings.StartPercent, EndPercent = facts.Settings.EndPercent, BatteryCelsius = facts.Settings.BatteryCelsius };
            var result = BudgetFacts.Ask($"battery-time:{asked.Id}", asked.Name, asked.Validate(facts.Text), findings, () => BatteryTime.Compute(asked, facts.Text));
            findings.AddRange(result?.Findings ?? []);
            return result;
        }

        return new BatteryTimeRow(
            partId, name, music, idle, [.. loads.Select(load => load.Name)], [.. loads.Where(load => load.Music is null).Select(load => load.Name)], Time(music), Time(idle));
    }

    private static Finding Missing(string code, string subjectId, string subject, string text, string remedy, string source) =>
        new(code, Severity.Warn, subjectId, subject, text, remedy, source);
}
