using ShopFloor.Engineering.Electrical;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Tests;

/// <summary>Parts for tests; each test changes only what it is about.</summary>
internal static class PartBuilder
{
    /// <summary>600 W of class D at 80 %: at 13.8 V the rated current is 600 / 0.8 / 13.8 A and the idle current.</summary>
    public static JobPartDetails Amplifier(Action<JobPartDetails>? change = null) => With(
        new JobPartDetails
        {
            Kind = PartKind.Amplifier,
            Name = "Four-channel amplifier",
            Supplier = "Nordhandel",
            PartNumber = "A-4150",
            UnitCost = 310,
            UnitPrice = 480,
            UnitMassKilograms = 3.2,
            Zone = VehicleZones.BootFloorRight,
            Data = new AmplifierData
            {
                Channels = 4,
                WattsAtFourOhms = 150,
                Class = AmplifierClass.D,
                EfficiencyPercent = 80,
                IdleAmperes = 1.2,
                FuseAmperes = 70,
            },
        },
        change);

    public static JobPartDetails Cable(string awg, Action<JobPartDetails>? change = null) => With(
        new JobPartDetails
        {
            Kind = PartKind.Cable,
            Name = $"Cable {awg}",
            Supplier = "Nordhandel",
            PartNumber = $"C-{awg}",
            Unit = PartUnit.Meter,
            UnitCost = 4,
            UnitPrice = 9,
            UnitMassKilograms = 0.3,
            Data = new CableData { Purpose = CablePurpose.Power, Awg = awg, InsulationCelsius = 105 },
        },
        change);

    public static JobPartDetails Of(PartKind kind, string name, PartData data, Action<JobPartDetails>? change = null) =>
        With(new JobPartDetails { Kind = kind, Name = name, Unit = PartKinds.Of(kind).Unit, Data = data, Zone = VehicleZones.Dash }, change);

    public static async Task<Guid> AddPartAsync(this TestShop shop, Guid jobId, JobPartDetails details)
    {
        var outcome = await shop.Get<PartsList>().AddAsync(shop.Owner, jobId, details, CancellationToken.None);
        Assert.True(outcome.Succeeded, outcome.Message);
        return outcome.Value;
    }

    public static async Task<Guid> AddToCatalogueAsync(this TestShop shop, PartFacts facts)
    {
        var outcome = await shop.Get<CatalogueDesk>().AddAsync(shop.Owner, PartFacts.CopyOf(facts), CancellationToken.None);
        Assert.True(outcome.Succeeded, outcome.Message);
        return outcome.Value;
    }

    public static T Must<T>(this Outcome<T> outcome)
    {
        Assert.True(outcome.Succeeded, outcome.Message);
        return outcome.Value;
    }

    private static JobPartDetails With(JobPartDetails details, Action<JobPartDetails>? change)
    {
        change?.Invoke(details);
        return details;
    }
}
