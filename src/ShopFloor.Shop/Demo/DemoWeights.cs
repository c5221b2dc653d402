using Microsoft.Extensions.DependencyInjection;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Demo;

/// <summary>The estate on its scales: places measured, a budget of mass, what holds the floor, and how the fuses are reached.</summary>
internal static class DemoWeights
{
    // Behind the front axle, left of the middle, above the floor; of a pair the middle.
    private static readonly Dictionary<string, PartPosition> _places = new()
    {
        [DemoCatalogue.SixChannel] = At(3.05, 0.38, 0.08),
        [DemoCatalogue.SingleChannel] = At(3.08, -0.36, 0.08),
        [DemoCatalogue.Processor] = At(3.1, 0, 0.07),
        [DemoCatalogue.Woofer] = At(3.2, -0.58, 0.3),
        [DemoCatalogue.Tweeter] = At(0.92, 0, 0.95),
        [DemoCatalogue.Midrange] = At(0.95, 0, 0.9),
        [DemoCatalogue.Midbass] = At(1.18, 0, 0.25),
        [DemoCatalogue.RearFill] = At(2.1, 0, 0.3),
        [DemoCatalogue.Damping] = At(1.25, 0, 0.35),
        [DemoCatalogue.Absorber] = At(1.25, 0, 0.35),
        [DemoCatalogue.Birch] = At(3.12, 0, 0.06),
        [DemoCatalogue.Carpet] = At(3.12, 0, 0.09),
        ["Factory loudspeakers, all"] = At(1.5, 0, 0.3),
        ["Factory boot tray"] = At(3.15, 0, 0.05),
    };

    public static async Task BeforeAsync(IServiceProvider services, DemoScript script, Guid job)
    {
        var (parts, weights) = (services.GetRequiredService<PartsList>(), services.GetRequiredService<WeightPlans>());
        var rows = await parts.RowsAsync(script.Owner, job, default);
        foreach (var row in rows.Where(row => _places.ContainsKey(row.Name)))
        {
            var form = await parts.ForEditAsync(script.Owner, row.Id, default) ?? throw new InvalidOperationException($"{row.Name} was just listed.");
            form.Details.Position = _places[row.Name];
            DemoScript.Must(await parts.EditAsync(script.Owner, row.Id, form.Version, form.Details, default));
        }

        DemoScript.Must(await weights.SaveBudgetAsync(script.Owner, job, null, new MassBudgetForm { TargetKilograms = 65 }, default));
        DemoScript.Must(await weights.SaveScalesAsync(
            script.Tarik, job, null,
            new CornerScalesForm { BeforeFrontLeft = 456.5, BeforeFrontRight = 448.5, BeforeRearLeft = 386, BeforeRearRight = 379, Note = "Tank at five eighths, nobody inside, tyres at 2.4 bar." }, default));
        await HoldAsync(services, script, job, rows);
        await ReachAsync(services, script, job);
    }

    /// <summary>Weighed again: what was reckoned, with what scales and a car are off by.</summary>
    public static async Task AfterAsync(IServiceProvider services, DemoScript script, Guid job)
    {
        var weights = services.GetRequiredService<WeightPlans>();
        var view = await weights.GetAsync(script.Tarik, job, UnitText.Invariant, default);
        if (view is not { Scales: { } scales, Balance.Corners.Predicted.Corners: { } corners })
        {
            throw new InvalidOperationException("The estate was weighed before.");
        }

        static double Read(double kilograms, double off) => Math.Round((kilograms + off) * 2) / 2;
        DemoScript.Must(await weights.SaveScalesAsync(
            script.Tarik, job, scales,
            scales.Form with
            {
                AfterFrontLeft = Read(corners.FrontLeft, 0.6),
                AfterFrontRight = Read(corners.FrontRight, -0.4),
                AfterRearLeft = Read(corners.RearLeft, -0.5),
                AfterRearRight = Read(corners.RearRight, 0.9),
            },
            default));
    }

    private static async Task HoldAsync(IServiceProvider services, DemoScript script, Guid job, List<PartRow> rows)
    {
        string[] carried = [DemoCatalogue.SixChannel, DemoCatalogue.SingleChannel, DemoCatalogue.Processor, DemoCatalogue.Distribution, DemoCatalogue.Birch, DemoCatalogue.Carpet];
        var restraints = services.GetRequiredService<RestraintPlans>();
        var id = DemoScript.Must(await restraints.SaveAsync(
            script.Owner, job, null, "False floor with the amplifiers",
            new RestraintForm
            {
                Item = RestrainedItem.FalseFloor,
                PartIds = [.. rows.Where(row => carried.Contains(row.Name)).Select(row => row.Id)],
                BaseLengthMeters = 0.9,
                BaseWidthMeters = 0.96,
                CenterHeightMeters = 0.06,
                Fasteners = [Hold("1", 0.4, 0.44), Hold("2", 0.4, -0.44), Hold("3", -0.4, 0.44), Hold("4", -0.4, -0.44)],
            },
            default));
        foreach (var hazard in RestraintPlans.HazardsOf(Drivetrain.Petrol))
        {
            DemoScript.Must(await restraints.TickAsync(script.Mila, id, hazard, clear: true, default));
        }
    }

    private static async Task ReachAsync(IServiceProvider services, DemoScript script, Guid job)
    {
        var service = services.GetRequiredService<ServicePlans>();
        foreach (var row in (await service.GetAsync(script.Owner, job, default)).Rows)
        {
            var way = row.Way.Length > 0 ? row.Way
                : row.Zone.StartsWith("Engine bay", StringComparison.Ordinal) ? "Open the bonnet; lift the clear cap beside the battery."
                : "Lift the false floor by its straps; lift the clear lid.";
            DemoScript.Must(await service.SaveAsync(script.Owner, row.PartId, row.Version, way, new ReachForm { Tools = row.Name == DemoCatalogue.Woofer ? "cross-head screwdriver" : "" }, default));
        }
    }

    private static PartPosition At(double rearward, double left, double up) => new() { RearwardMeters = rearward, LeftMeters = left, UpMeters = up };

    private static HeldAt Hold(string mark, double forward, double left) => new() { Mark = mark, ForwardMeters = forward, LeftMeters = left };
}
