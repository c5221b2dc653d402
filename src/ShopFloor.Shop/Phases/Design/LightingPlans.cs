using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Electrical.Accessories;
using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Electrical.Lighting;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Light strips, accessories and the turn-on chain of a job, computed from its parts list and links.</summary>
public sealed class LightingPlans(ShopStore store)
{
    /// <param name="text">Units and culture of the reader.</param>
    public Task<LightingPlanView> GetAsync(Actor actor, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(db => ViewAsync(db, jobId, text, cancellationToken), cancellationToken);
    }

    /// <summary>What stands against lights, accessories and the chain, for gates between phases; texts are invariant.</summary>
    internal static IReadOnlyList<Finding> Findings(Guid jobId, PlanFacts facts, IReadOnlyList<SignalLink> links) => ViewOf(jobId, facts, links, UnitText.Invariant).Findings;

    private static async Task<LightingPlanView> ViewAsync(ShopDbContext db, Guid jobId, UnitText text, CancellationToken cancellationToken) =>
        ViewOf(jobId, await PlanFacts.ReadAsync(db, jobId, cancellationToken), await SignalLinks.OfJob(db, jobId).ToListAsync(cancellationToken), text);

    private static LightingPlanView ViewOf(Guid jobId, PlanFacts facts, IReadOnlyList<SignalLink> links, UnitText text)
    {
        List<JobPart> installed = [.. facts.Parts.Where(part => part.Direction == PartDirection.Installed)];
        List<Finding> findings = [];
        var strips = installed.Where(part => part.Data is LightingData { WattsPerMeter: not null } or LightingData { Watts: null })
            .Select(part => Strip(part, (LightingData)part.Data, text, findings)).ToList();
        var accessories = Accessories(installed);
        var power = Power(accessories, facts, text, findings);
        var turnOn = new TurnOnMapping(installed, links, facts.Settings.SupplyVolts, text);
        var order = turnOn.Order(findings);
        var outputs = turnOn.Outputs(findings);
        return new LightingPlanView
        {
            JobId = jobId,
            Strips = strips,
            Accessories = power,
            CarAsleepKnown = facts.Budget.VehicleSleepMilliamperes is not null,
            AccessoryRows = [.. accessories.Select(pair => new AccessoryRow(pair.Part.Id, pair.Part.Name, pair.Load.Kind, pair.Load.DrivingAmperes, 1000 * pair.Load.ParkedAmperes))],
            TurnOn = turnOn.Rows,
            Outputs = outputs,
            Triggers = turnOn.Triggers,
            Order = order,
            Findings = [.. findings.DistinctBy(finding => (finding.Code, finding.SubjectId)).OrderByDescending(finding => finding.Severity)],
        };
    }

    private static StripRow Strip(JobPart part, LightingData data, UnitText text, List<Finding> findings)
    {
        var byMeter = part.Unit == PartUnit.Meter;
        var length = byMeter ? (double)part.Quantity : data.LengthMeters;
        var colours = data.Colours ?? 1;
        var feeds = data.FeedPoints ?? 1;
        List<string> missing =
        [
            .. new (bool Known, string Name)[]
            {
                (length > 0, "length"), (data.StripVolts is not null, "strip voltage"), (data.WattsPerMeter > 0, "power per metre"),
                (data.Colours is not null, "colours"), (data.LedsPerMeter is not null, "LEDs per metre"), (data.LedsPerSegment is not null, "LEDs in the shortest piece"),
            }.Where(datum => !datum.Known).Select(datum => datum.Name),
        ];
        if (missing.Count > 0)
        {
            findings.Add(new Finding(
                "strip-data-missing", Severity.Warn, part.Id.ToString(), part.Name, $"Not known: {string.Join(", ", missing)}; so drop, feed points and channels are not computed.",
                "Enter them on the part from its data sheet.", "needed for the strip"));
            return new StripRow(part.Id, part.Name, length, colours, feeds, missing, null);
        }

        var pieces = byMeter ? 1 : SignalPorts.Units(part);
        var input = new LedStripInput
        {
            Id = part.Id.ToString(),
            Name = part.Name,
            SupplyVolts = data.StripVolts!.Value, // nothing is missing
            Drive = data.Drive,
            Colours = colours,
            LedsPerMeter = data.LedsPerMeter!.Value, // nothing is missing
            LedsPerSegment = data.LedsPerSegment!.Value, // nothing is missing
            WattsPerMeter = data.WattsPerMeter,
            VisibleFromOutside = data.View == LightView.FromOutside,
            Zones =
            [
                .. Enumerable.Range(1, pieces).Select(piece => new LedZone
                {
                    Id = PlanLoads.IdOf(part, piece), Name = pieces > 1 ? $"{part.Name} ({piece} of {pieces})" : part.Name, LengthMeters = length!.Value, FeedPoints = feeds, // nothing is missing
                }),
            ],
        };
        var result = BudgetFacts.Ask(input.Id, part.Name, input.Validate(text), findings, () => LedStrip.Compute(input, text));
        findings.AddRange(result?.Findings ?? []);
        return new StripRow(part.Id, part.Name, length, colours, feeds, [], result);
    }

    private static List<(JobPart Part, Accessory Load)> Accessories(List<JobPart> installed)
    {
        List<(JobPart, Accessory)> found = [];
        foreach (var part in installed)
        {
            // A part that takes no current, such as a trim ring, is no load.
            if (part.Data is AccessoryData data && (data.WorkingAmperes is not 0 || data.Use != AccessoryKind.Other))
            {
                var count = (double)part.Quantity;
                found.Add((part, new Accessory
                {
                    Id = part.Id.ToString(),
                    Name = part.Name,
                    Kind = data.Use,
                    DrivingAmperes = data.WorkingAmperes * count,
                    WatchesParked = data.ParkedMilliamperes > 0,
                    ParkedAmperes = data.ParkedMilliamperes / 1000 * count,
                    CutOffVolts = data.CutOffVolts,
                }));
            }
        }

        return found;
    }

    private static AccessoryPowerResult? Power(List<(JobPart Part, Accessory Load)> accessories, PlanFacts facts, UnitText text, List<Finding> findings)
    {
        if (accessories.Count == 0)
        {
            return null;
        }

        var settings = facts.Budget;
        var known = facts.Vehicle.BatteryAmpereHours is not null || settings.ReserveMinutes is not null;
        var input = new AccessoryPowerInput
        {
            Accessories = [.. accessories.Select(pair => pair.Load)],
            VehicleSleepAmperes = settings.VehicleSleepMilliamperes / 1000,
            WatchedHours = settings.WatchedHours ?? AccessoryPowerInput.DefaultWatchedHours,
            Battery = !known ? null : new BatteryTimeInput
            {
                Id = "car-battery",
                Name = "The car's battery",
                Chemistry = settings.BatteryKind,
                CapacityAmpereHours = facts.Vehicle.BatteryAmpereHours,
                ReserveCapacityMinutes = settings.ReserveMinutes,
                LoadAmperes = 1,
                StartPercent = settings.StartPercent,
                EndPercent = settings.EndPercent,
                BatteryCelsius = settings.BatteryCelsius,
            },
        };
        var result = BudgetFacts.Ask("accessories", "Accessories", input.Validate(text), findings, () => AccessoryPower.Compute(input, text));
        findings.AddRange(result?.Findings ?? []);
        return result;
    }
}
