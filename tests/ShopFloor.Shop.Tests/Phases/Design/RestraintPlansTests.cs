using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Fabrication.Restraint;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Tests.Phases.Design;

public sealed class RestraintPlansTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    private RestraintPlans Restraints => _shop.Get<RestraintPlans>();

    [Fact]
    public async Task Its_mass_is_that_of_the_parts_it_carries_and_the_shop_says_against_what()
    {
        var job = await _shop.OpenJobAsync();
        var box = await PartAsync(job, "Box", 20);
        (await Restraints.SaveAsync(_shop.Desk, job, null, "Boot box", Form(box), None)).Must();

        var item = Assert.Single((await ViewAsync(job)).Items);

        // 20 kg × 20 g × 9.80665 m/s² = 3922.66 N to the front, on four bolts low over their base.
        Assert.Equal(20, item.Kilograms);
        Assert.Equal(3922.66, item.Result!.Directions[0].ForceNewtons, 2);
        // M8 of class 8.8: 36.6 mm² × 580 MPa = 21 228 N, across 0.6 of it = 12 736.8 N (ISO 898-1). With the middle of the mass on the base
        // nothing tips, so each bolt bears 3922.66 / 4 = 980.665 N across: margin 12 736.8 / 980.665 = 12.988.
        Assert.Equal(12.988, item.Result.Directions[0].Margin!.Value, 3);
    }

    [Fact]
    public async Task Too_little_hold_stops_the_delivery_and_little_warns()
    {
        var job = await _shop.OpenJobAsync();
        var box = await PartAsync(job, "Box", 20);
        // 3922.66 N on four brackets of 900 N across: 900 / 980.665 = 0.918.
        (await Restraints.SaveAsync(_shop.Desk, job, null, "Boot box", Form(box) with { HeldBy = HoldKind.Brackets, PullNewtons = 5_000, AcrossNewtons = 900 }, None)).Must();

        var gate = await _shop.Get<DeliveryGate>().ReportAsync(_shop.Owner, job, None);
        Assert.Contains(gate.Standing, gated => gated.Finding is { Code: "restraint-fails", Subject: "Boot box" });

        // Of 1200 N: 1200 / 980.665 = 1.224, below the 1.5 that is wanted.
        var loaded = (await ViewAsync(job)).Items[0].Design;
        (await Restraints.SaveAsync(_shop.Desk, job, loaded, "Boot box", loaded.Form with { AcrossNewtons = 1_200 }, None)).Must();
        gate = await _shop.Get<DeliveryGate>().ReportAsync(_shop.Owner, job, None);
        Assert.Contains(gate.Findings, gated => gated.Finding is { Code: "restraint-close", Severity: Severity.Warn });
        Assert.DoesNotContain(gate.Findings, gated => gated.Finding.Code == "restraint-fails");
    }

    [Fact]
    public async Task A_part_without_a_mass_is_named_and_not_taken_as_nothing()
    {
        var job = await _shop.OpenJobAsync();
        var (box, woofer) = (await PartAsync(job, "Box", 20), await PartAsync(job, "Woofer", null));
        (await Restraints.SaveAsync(_shop.Desk, job, null, "Boot box", Form(box, woofer), None)).Must();

        Assert.Contains((await ViewAsync(job)).Items[0].Findings, finding => finding.Code == "restraint-mass-incomplete" && finding.Text.Contains("Woofer", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_tick_carries_name_and_time_and_goes_when_it_is_held_elsewhere()
    {
        var job = await _shop.OpenJobAsync();
        var id = (await Restraints.SaveAsync(_shop.Desk, job, null, "Boot box", Form(await PartAsync(job, "Box", 20)), None)).Must();
        (await Restraints.TickAsync(_shop.Technician, id, RestraintHazard.FuelLines, clear: true, None)).Must();

        var item = (await ViewAsync(job)).Items[0];
        var tick = item.Checks.Single(check => check.Hazard == RestraintHazard.FuelLines).Tick!; // ticked above
        Assert.Equal((_shop.Technician.Name, _shop.Time.GetUtcNow()), (tick.By, tick.At));
        Assert.DoesNotContain(item.Checks, check => check.Hazard == RestraintHazard.HighVoltage);

        // Another width of the base says nothing of the holes; another hole does.
        (await Restraints.SaveAsync(_shop.Desk, job, item.Design, "Boot box", item.Design.Form.Copy() with { BaseWidthMeters = 0.7 }, None)).Must();
        item = (await ViewAsync(job)).Items[0];
        Assert.Single(item.Design.Form.Ticks);
        var moved = item.Design.Form.Copy();
        moved.Fasteners[0].ForwardMeters = 0.1;
        (await Restraints.SaveAsync(_shop.Desk, job, item.Design, "Boot box", moved, None)).Must();
        Assert.Empty((await ViewAsync(job)).Items[0].Design.Form.Ticks);
    }

    [Fact]
    public async Task High_voltage_is_looked_for_where_there_is_some()
    {
        var job = await _shop.OpenJobAsync(open => open.NewVehicle!.DriveType = Drivetrain.Electric);
        (await Restraints.SaveAsync(_shop.Desk, job, null, "Boot box", Form(await PartAsync(job, "Box", 20)), None)).Must();

        Assert.Contains((await ViewAsync(job)).Items[0].Checks, check => check.Hazard == RestraintHazard.HighVoltage);
    }

    [Fact]
    public async Task A_heavy_part_no_restraint_carries_is_named_and_glued_sheets_are_not()
    {
        var job = await _shop.OpenJobAsync();
        var box = await PartAsync(job, "Box", 20);
        await PartAsync(job, "Spare amplifier", RestraintPlans.HeavyKilograms);
        await PartAsync(job, "Bracket", RestraintPlans.HeavyKilograms - 0.1);
        await _shop.AddPartAsync(job, PartBuilder.Of(PartKind.Treatment, "Damping", new TreatmentData(), part => part.UnitMassKilograms = 15));
        (await Restraints.SaveAsync(_shop.Desk, job, null, "Boot box", Form(box), None)).Must();

        Assert.Equal(["Spare amplifier"], (await ViewAsync(job)).Loose.Select(part => part.Name));
    }

    [Fact]
    public async Task What_is_missing_is_refused_by_field_and_technicians_change_nothing_but_ticks()
    {
        var job = await _shop.OpenJobAsync();

        var outcome = await Restraints.SaveAsync(_shop.Desk, job, null, "Boot box", new RestraintForm(), None);

        Assert.Equal(
            [nameof(RestraintForm.PartIds), nameof(RestraintForm.BaseLengthMeters), nameof(RestraintForm.BaseWidthMeters), nameof(RestraintForm.CenterHeightMeters), nameof(RestraintForm.Fasteners)],
            outcome.Problems.Select(problem => problem.Field));
        await Assert.ThrowsAsync<NotAllowedException>(() => Restraints.SaveAsync(_shop.Technician, job, null, "Boot box", new RestraintForm(), None));
    }

    private static RestraintForm Form(params Guid[] parts) => new()
    {
        PartIds = [.. parts],
        BaseLengthMeters = 0.4,
        BaseWidthMeters = 0.6,
        CenterHeightMeters = 0,
        Thread = CoarseThread.M8,
        Fasteners =
        [
            new HeldAt { Mark = "1", ForwardMeters = 0.17, LeftMeters = 0.27 }, new HeldAt { Mark = "2", ForwardMeters = 0.17, LeftMeters = -0.27 },
            new HeldAt { Mark = "3", ForwardMeters = -0.17, LeftMeters = 0.27 }, new HeldAt { Mark = "4", ForwardMeters = -0.17, LeftMeters = -0.27 },
        ],
    };

    private Task<Guid> PartAsync(Guid job, string name, double? kilograms) =>
        _shop.AddPartAsync(job, PartBuilder.Of(PartKind.Accessory, name, new AccessoryData { WorkingAmperes = 0 }, part => part.UnitMassKilograms = kilograms));

    private Task<RestraintsView> ViewAsync(Guid job) => Restraints.GetAsync(_shop.Technician, job, UnitText.Invariant, None);
}
