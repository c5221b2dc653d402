using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Tests.Phases.Design;

/// <summary>A part is entered once and counts everywhere.</summary>
public sealed class OnePartManyRolesTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task Adding_an_amplifier_once_changes_cost_current_fuses_and_mass_together()
    {
        var job = await _shop.OpenJobAsync();
        var known = await _shop.AddToCatalogueAsync(PartBuilder.Amplifier());
        Assert.Equal((0m, 0.0, 0, 0.0), await SumsAsync(job));

        (await _shop.Get<PartsList>().AddFromCatalogueAsync(_shop.Desk, job, known, 1, VehicleZones.BootFloorRight, None)).Must();

        // Price and mass are the catalogue's; 600 W / 0.80 / 13.8 V + 1.2 A idle = 55.55 A; one fuse at the battery, one at the distribution.
        var (price, amperes, fuses, kilograms) = await SumsAsync(job);
        Assert.Equal(480, price);
        Assert.Equal(55.55, amperes, 2);
        Assert.Equal(2, fuses);
        Assert.Equal(3.2, kilograms, 9);

        var id = (await _shop.Get<PartsList>().RowsAsync(_shop.Desk, job, None))[0].Id;
        (await _shop.Get<PartsList>().RemoveAsync(_shop.Desk, id, None)).Must();
        Assert.Equal((0m, 0.0, 0, 0.0), await SumsAsync(job));
    }

    [Fact]
    public async Task A_removed_factory_part_takes_mass_away_and_draws_nothing()
    {
        var job = await _shop.OpenJobAsync();
        await _shop.AddPartAsync(job, PartBuilder.Amplifier(part =>
        {
            part.Direction = PartDirection.Removed;
            part.UnitPrice = null;
        }));

        Assert.Equal((0m, 0.0, 0, -3.2), await SumsAsync(job));
    }

    [Fact]
    public async Task A_part_without_mass_is_named_and_not_taken_as_zero()
    {
        var job = await _shop.OpenJobAsync();
        await _shop.AddPartAsync(job, PartBuilder.Amplifier(part => part.UnitMassKilograms = null));

        var weight = await _shop.Get<WeightPlans>().GetAsync(_shop.Technician, job, UnitText.Invariant, None);

        Assert.Equal("Four-channel amplifier", Assert.Single(weight.Missing).Name);
        Assert.False(weight.Result.IsComplete);
        Assert.Contains(weight.Findings, finding => finding.Code == "mass-missing");
    }

    [Fact]
    public async Task Mass_stands_against_the_payload_on_the_label()
    {
        var job = await _shop.OpenJobAsync(open =>
        {
            open.NewVehicle.PayloadKilograms = 400;
            open.NewVehicle.Seats = 5;
        });
        await _shop.AddPartAsync(job, PartBuilder.Amplifier(part => part.UnitMassKilograms = 70));

        var weight = await _shop.Get<WeightPlans>().GetAsync(_shop.Technician, job, UnitText.Invariant, None);

        // 400 - 70 = 330 kg left, below five people at 68 kg each (49 CFR 571.110 S3) = 340 kg.
        Assert.Equal(330, weight.Result.RemainingPayloadKilograms!.Value, 9);
        Assert.Contains(weight.Findings, finding => finding.Code == "payload-below-occupants");
        Assert.Equal(("boot-floor-right", 70.0), (weight.Zones[0].Zone, weight.Zones[0].NetKilograms));
    }

    private async Task<(decimal Price, double Amperes, int Fuses, double Kilograms)> SumsAsync(Guid job)
    {
        var plan = await _shop.Get<ElectricalPlans>().GetAsync(_shop.Desk, job, UnitText.Invariant, None);
        var weight = await _shop.Get<WeightPlans>().GetAsync(_shop.Desk, job, UnitText.Invariant, None);
        return (
            (await _shop.Get<PartsList>().PriceAsync(_shop.Desk, job, None)).Net,
            plan.Result?.Totals.Rated.Amperes ?? 0,
            plan.Result?.FusesToBuy.Sum(fuse => fuse.Count) ?? 0,
            weight.Result.NetKilograms);
    }
}
