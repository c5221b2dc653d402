using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Electrical.Commissioning;
using ShopFloor.Engineering.Electrical.Network;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Safety;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>What is to be measured on a job, made from its plan, and what the measured values say against it.</summary>
internal static class MeasuredFindings
{
    /// <summary>Everything that stands against the supply: plan, network and measured values, in invariant text.</summary>
    public static async Task<IReadOnlyList<Finding>> SupplyAsync(ShopDbContext db, Guid jobId, SupplyPlan supply, CancellationToken cancellationToken) =>
        [.. supply.Findings, .. Find(await RowsAsync(db, jobId, supply, UnitText.Invariant, cancellationToken))];

    public static async Task<IReadOnlyList<MeasuredRow>> RowsAsync(ShopDbContext db, Guid jobId, SupplyPlan supply, UnitText text, CancellationToken cancellationToken)
    {
        if (supply.Plan.Runs.Count == 0)
        {
            return [];
        }

        var entries = (await db.MeasuredValues.AsNoTracking().Where(value => value.JobId == jobId).OrderByDescending(value => value.At).ThenByDescending(value => value.Id).ToListAsync(cancellationToken))
            .ToLookup(value => value.PointId, MeasuredEntry.Of);
        var charging = entries[CommissioningPoints.ChargingId].FirstOrDefault(entry => entry.WithdrawnAt is null)?.Value;
        var watching = string.Join(", ", supply.Facts.Parts.Where(part => part.Direction == PartDirection.Installed && Standby.Watches(part)).Select(part => part.Name));
        return
        [
            .. CommissioningPoints.Of(InputOf(supply, supply.Facts.Budget, charging), text)
                .Select(point => point.Kind == CommissioningKind.KeyOffDrain && watching.Length > 0
                    ? point with { How = $"{point.How}; unplug or switch off first what watches the parked car: {watching}" }
                    : point)
                .Select(point => new MeasuredRow(point, [.. entries[point.Id]])),
        ];
    }

    public static IEnumerable<Finding> Find(IReadOnlyList<MeasuredRow> rows)
    {
        foreach (var row in rows)
        {
            var point = row.Point;
            if (row.Current is not { } current)
            {
                yield return new Finding(
                    "measured-missing", Severity.Stop, point.Id, point.Name, "Not measured.", $"Measure it: {point.How}. Accepted is {Accepted(point)}.", Unsourced.CommonPractice);
            }
            else if (row.Outside is { } outside and not 0)
            {
                yield return new Finding(
                    "measured-outside",
                    Severity.Stop,
                    point.Id,
                    point.Name,
                    $"Measured {Number(current.Value)} {point.Unit}, {Number(Math.Abs(outside))} {point.Unit} {(outside < 0 ? "below" : "above")} what is accepted: {Accepted(point)}.",
                    outside < 0 ? "Look for a loose terminal, a poor ground, a thin run or a weak battery; mend it and measure again." : "Look for what takes or gives too much; mend it and measure again.",
                    "as measured, against the plan");
            }
        }
    }

    public static string Accepted(CommissioningPoint point) => (point.Lowest, point.Highest) switch
    {
        ({ } low, { } high) when low > 0 => $"{Number(low)} to {Number(high)} {point.Unit}",
        (_, { } high) => $"at most {Number(high)} {point.Unit}",
        ({ } low, null) => $"at least {Number(low)} {point.Unit}",
        _ => $"any value in {point.Unit}",
    };

    private static string Number(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    private static CommissioningInput InputOf(SupplyPlan supply, BudgetSettingsForm budgets, double? charging)
    {
        var plan = supply.Plan;
        var installed = supply.Facts.Parts.Where(part => part.Direction == PartDirection.Installed).ToList();
        return new CommissioningInput
        {
            Running = supply.Feed?.States.FirstOrDefault(state => state.Scenario is { Engine: EngineState.Idle, Level: LoadLevel.Music }),
            SupplyVolts = plan.Settings.SupplyVolts,
            BatteryNodeId = FeedSources.Battery,
            HasCharger = supply.Feed?.Network.Elements.Any(element => element is Alternator) == true,
            Loads = [.. plan.Runs.Where(run => run is { Sizing: not null, Load: not null }).Select(run => new CommissioningLoad($"load:{run.Place.RunId}", run.Load!.Name, run.Load.LimitVolts))], // filtered
            Batteries =
            [
                new CommissioningBattery("car", "The car's battery", budgets.BatteryKind is { } kind ? WorkSafety.KindOf(kind) : null, plan.Settings.BatteryRestVolts),
                .. installed.Where(part => part.Data is BatteryData)
                    .Select(part => new CommissioningBattery(part.Id.ToString(), part.Name, SecondBatteries.KindOf((BatteryData)part.Data), null)),
            ],
            Draws = [.. installed.Where(Standby.Draws).Select(part => new StandbyDraw(part.Id.ToString(), part.Name, Standby.OffMilliamperes(part) / 1000))],
            VehicleSleepAmperes = budgets.VehicleSleepMilliamperes / 1000,
            DrainLimitAmperes = budgets.MakersLimitMilliamperes / 1000,
            MeasuredChargingVolts = charging,
            RunningWords = supply.Facts.Vehicle.DriveType.IsHighVoltage() ? "car switched on and ready, converter running" : "engine idling",
        };
    }
}
