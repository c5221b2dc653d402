using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Tests.Phases.Design;

public sealed class WeightBalanceTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    private WeightPlans Weights => _shop.Get<WeightPlans>();

    [Fact]
    public async Task A_part_at_a_measured_place_loads_the_axles_by_moments()
    {
        var job = await CarAsync();
        await PartAsync(job, "Battery", 30, new PartPosition { RearwardMeters = 3, LeftMeters = 0.4, UpMeters = 0.2 });

        var view = await ViewAsync(job);

        // By hand about the front axle: 30 kg × 3.0 m / 2.5 m = 36 kg more on the rear axle, 30 − 36 = −6 kg on the front.
        Assert.Equal(36, view.Balance.Axles!.RearChangeKilograms, 9);
        Assert.Equal(-6, view.Balance.Axles.FrontChangeKilograms, 9);
        // About the middle: the left wheels take 1/2 + 0.4/1.6 = 3/4 of it, so rear left 36 × 3/4 = 27 kg, front right −6 × 1/4 = −1.5 kg.
        Assert.Equal(27, view.Balance.CornerChange!.RearLeft, 9);
        Assert.Equal(-1.5, view.Balance.CornerChange.FrontRight, 9);
        Assert.Equal((3.0, 0.4, 0.2), (view.Balance.Center!.RearwardMeters, view.Balance.Center.LeftMeters, view.Balance.Center.UpMeters));
        Assert.Equal(PlaceOrigin.Measured, Assert.Single(view.Placed).Origin);
    }

    [Fact]
    public async Task What_is_taken_out_counts_against_what_is_put_in()
    {
        var job = await CarAsync();
        await PartAsync(job, "Battery", 30, new PartPosition { RearwardMeters = 2.5, LeftMeters = 0 });
        await PartAsync(job, "Spare wheel", 20, new PartPosition { RearwardMeters = 3, LeftMeters = 0 }, PartDirection.Removed);

        var view = await ViewAsync(job);

        // 30 × 2.5 / 2.5 − 20 × 3 / 2.5 = 30 − 24 = 6 kg on the rear, 10 − 6 = 4 kg on the front.
        Assert.Equal((6.0, 4.0), (Math.Round(view.Balance.Axles!.RearChangeKilograms, 9), Math.Round(view.Balance.Axles.FrontChangeKilograms, 9)));
    }

    [Fact]
    public async Task A_place_nobody_measured_is_that_of_its_zone_and_said()
    {
        var job = await CarAsync();
        await PartAsync(job, "Amplifier rack", 10, new PartPosition(), zone: "spare-well");

        var part = Assert.Single((await ViewAsync(job)).Placed);

        Assert.Equal((3.2, PlaceOrigin.Zone, "Spare wheel well, usual place"), (part.RearwardMeters!.Value, part.Origin, part.PlaceText));
    }

    [Fact]
    public async Task Missing_facts_are_named_with_where_they_are_entered()
    {
        var job = await _shop.OpenJobAsync();
        var part = await PartAsync(job, "Rack", null, new PartPosition(), zone: "");

        var balance = (await ViewAsync(job)).Balance;

        Assert.Null(balance.Axles);
        Assert.Contains(balance.Missing, fact => fact.Where == FactPlace.Vehicle && fact.Name.StartsWith("Wheelbase", StringComparison.Ordinal));
        Assert.Equal(["Rack: mass", "Rack: place"], balance.Missing.Where(fact => fact.PartId == part).Select(fact => fact.Name));
    }

    [Fact]
    public async Task A_pair_on_one_side_by_its_zone_is_asked_about()
    {
        var job = await CarAsync();
        await _shop.AddPartAsync(job, PartBuilder.Of(PartKind.Loudspeaker, "Midbass", new LoudspeakerData(), part => (part.Quantity, part.UnitMassKilograms, part.Zone) = (2, 1.5, "front-door-left")));

        Assert.Contains((await ViewAsync(job)).Balance.Missing, fact => fact.Name.StartsWith("Midbass: all on one side?", StringComparison.Ordinal));
    }

    [Fact]
    public async Task An_axle_above_its_rating_holds_the_delivery()
    {
        // Rear 700 kg as it came, rating 720 kg: 36 kg more by the first example make 736 kg.
        var job = await CarAsync(measures => (measures.FrontAxleKilograms, measures.RearAxleKilograms, measures.RearAxleRatingKilograms) = (800, 700, 720));
        await PartAsync(job, "Battery", 30, new PartPosition { RearwardMeters = 3, LeftMeters = 0 });

        var gate = await _shop.Get<DeliveryGate>().ReportAsync(_shop.Owner, job, None);

        Assert.Contains(gate.Standing, gated => gated.Finding.Code == "axle-over-rating" && gated.Finding.Text.Contains("736", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_vehicle_above_its_rating_holds_the_delivery()
    {
        var job = await CarAsync(measures => (measures.FrontAxleKilograms, measures.RearAxleKilograms) = (800, 700), gross: 1_520);
        await PartAsync(job, "Battery", 30, new PartPosition { RearwardMeters = 1, LeftMeters = 0 });

        // 800 + 700 + 30 = 1530 kg above 1520 kg.
        Assert.Contains((await ViewAsync(job)).Findings, finding => finding.Code == "vehicle-over-rating");
    }

    [Fact]
    public async Task Scales_before_and_after_are_set_against_the_parts()
    {
        var job = await CarAsync();
        await PartAsync(job, "Battery", 30, new PartPosition { RearwardMeters = 2.5, LeftMeters = 0 });
        var before = new CornerScalesForm { BeforeFrontLeft = 400, BeforeFrontRight = 400, BeforeRearLeft = 350, BeforeRearRight = 350 };
        (await Weights.SaveScalesAsync(_shop.Technician, job, null, before, None)).Must();
        Assert.Empty((await ViewAsync(job)).Balance.Corners!.Reconciled);

        // 30 kg over the rear axle: 365 kg on each rear wheel. Half a kilogram off agrees; 20 kg too little does not.
        var kept = (await ViewAsync(job)).Scales;
        (await Weights.SaveScalesAsync(_shop.Technician, job, kept, before with { AfterFrontLeft = 400, AfterFrontRight = 400, AfterRearLeft = 365, AfterRearRight = 365.5 }, None)).Must();
        Assert.All((await ViewAsync(job)).Balance.Corners!.Reconciled, row => Assert.True(row.Agrees, row.Name));

        kept = (await ViewAsync(job)).Scales;
        (await Weights.SaveScalesAsync(_shop.Technician, job, kept, kept!.Form with { AfterRearRight = 345.5 }, None)).Must();
        var rows = (await ViewAsync(job)).Balance.Corners!.Reconciled;
        Assert.Equal(["Sum", "Rear axle"], rows.Where(row => !row.Agrees).Select(row => row.Name));
    }

    [Fact]
    public async Task Three_of_four_readings_are_refused_by_name()
    {
        var job = await CarAsync();

        var outcome = await Weights.SaveScalesAsync(_shop.Technician, job, null, new CornerScalesForm { BeforeFrontLeft = 400, BeforeFrontRight = 400, BeforeRearLeft = 350 }, None);

        Assert.Equal(nameof(CornerScalesForm.BeforeRearRight), Assert.Single(outcome.Problems).Field);
    }

    [Fact]
    public async Task A_mass_budget_runs_with_the_list_and_warns_when_it_is_passed()
    {
        var job = await CarAsync();
        await PartAsync(job, "Battery", 30, new PartPosition { RearwardMeters = 1, LeftMeters = 0 });
        (await Weights.SaveBudgetAsync(_shop.Desk, job, null, new MassBudgetForm { TargetKilograms = 40 }, None)).Must();
        Assert.Equal((0.75, 10.0), ((await ViewAsync(job)).Target!.UsedShare, (await ViewAsync(job)).Target!.LeftKilograms));

        await PartAsync(job, "Box", 15, new PartPosition { RearwardMeters = 1, LeftMeters = 0 });

        Assert.Contains((await ViewAsync(job)).Findings, finding => finding.Code == "mass-target-passed");
        await Assert.ThrowsAsync<NotAllowedException>(() => Weights.SaveBudgetAsync(_shop.Technician, job, null, new MassBudgetForm { TargetKilograms = 50 }, None));
    }

    private Task<Guid> CarAsync(Action<VehicleMeasures>? change = null, double? gross = null) => _shop.OpenJobAsync(open =>
    {
        open.NewVehicle!.Measures = new VehicleMeasures { WheelbaseMeters = 2.5, TrackMeters = 1.6 };
        open.NewVehicle.GrossRatingKilograms = gross;
        change?.Invoke(open.NewVehicle.Measures);
    });

    private Task<Guid> PartAsync(Guid job, string name, double? kilograms, PartPosition position, PartDirection direction = PartDirection.Installed, string zone = "boot-floor-left") =>
        _shop.AddPartAsync(job, PartBuilder.Of(PartKind.Accessory, name, new AccessoryData { WorkingAmperes = 0 }, part =>
            (part.UnitMassKilograms, part.Position, part.Direction, part.Zone) = (kilograms, position, direction, zone)));

    private Task<WeightPlanView> ViewAsync(Guid job) => Weights.GetAsync(_shop.Technician, job, UnitText.Invariant, None);
}
