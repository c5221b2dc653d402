using System.Globalization;
using System.Text;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Measurements;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Phases.Tuning.Measurements;
using ShopFloor.Shop.Phases.Tuning.Presets;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Web.Tests.Phases.Tuning;

/// <summary>A shop with jobs that have a pair of midbasses behind a processor, measured by tables.</summary>
public sealed class TunedShop : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly ShopApplication _shop = new();
    private int _cars;

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => ((IAsyncLifetime)_shop).DisposeAsync();

    public TService Get<TService>()
        where TService : notnull => _shop.Get<TService>();

    public Actor Actor(ShopRole role) => _shop.Actor(role);

    public Task<List<TuningChannel>> ChannelsAsync(Guid job) => Get<TuningChannels>().ListAsync(Actor(ShopRole.Owner), job, None);

    public async Task<Guid> OpenAsync(bool loudspeakers = false)
    {
        var owner = Actor(ShopRole.Owner);
        var job = Value(await Get<JobDesk>().OpenAsync(
            owner,
            new OpenJob { NewClient = new ClientDetails { Name = "Clea Client" }, NewVehicle = new VehicleDetails { Make = "Verano", Model = "Lince", ModelYear = 2024, Plate = $"AB {++_cars}" }, Card = new JobCardDetails { Title = "Better sound" } },
            None));
        if (!loudspeakers)
        {
            return job;
        }

        var processor = await AddAsync(job, PartKind.Processor, "Processor", new ProcessorData { Inputs = 2, Outputs = 2, OutputVolts = 4, SampleRateKilohertz = 48, Bits = 24 });
        var amplifier = await AddAsync(job, PartKind.Amplifier, "Amplifier", new AmplifierData { Channels = 2, WattsAtFourOhms = 100 });
        var midbasses = await AddAsync(job, PartKind.Loudspeaker, "Midbass", new LoudspeakerData { SizeMillimeters = 165, NominalOhms = 4, Coils = 1, RatedWatts = 100, LowestHertz = 50 }, 2, "front-door-left");
        for (var channel = 0; channel < 2; channel++)
        {
            Value(await Get<SignalLinks>().LinkAsync(owner, job, SignalKind.Sound, amplifier, channel, Guid.Empty, new SignalLinkForm { FromPartId = processor, FromOutput = channel, LengthMeters = 1 }, None));
            Value(await Get<SignalLinks>().LinkAsync(owner, job, SignalKind.Sound, midbasses, channel, Guid.Empty, new SignalLinkForm { FromPartId = amplifier, FromOutput = channel, LengthMeters = 1 }, None));
        }

        return job;
    }

    /// <summary>A table of a level response with the phase of its way; close enough for 4 ms of it.</summary>
    public async Task MeasureAsync(Guid job, string channel, double arrivalSeconds, string preset = "", double level = 80)
    {
        var text = new StringBuilder();
        for (var hertz = 20; hertz <= 20_000; hertz += 20)
        {
            text.Append(CultureInfo.InvariantCulture, $"{hertz}\t{level}\t{Math.IEEERemainder(-360 * hertz * arrivalSeconds, 360):0.###}\n");
        }

        var file = Value(await Get<JobFiles>().AddAsync(Actor(ShopRole.Owner), job, JobFileKind.MeasurementTable, $"{channel}.txt", new MemoryStream(Encoding.UTF8.GetBytes(text.ToString())), None));
        var form = new MeasurementForm
        {
            ChannelId = (await ChannelsAsync(job)).Single(found => found.Name == channel).Id, FileId = file, Source = MeasurementSource.Table, Preset = preset,
            Layout = new ResponseTableLayout { Separator = ColumnSeparator.Tab, PhaseColumn = 2 },
        };
        Value(await Get<TuningMeasurements>().AddAsync(Actor(ShopRole.Owner), job, form, None));
    }

    public async Task<PresetDraft> DraftAsync(Guid job) => new()
    {
        Name = "Driver's seat", Profile = ProcessorProfiles.Generic, Target = TargetCurve.BuiltIn[0], Channels = [.. (await ChannelsAsync(job)).Select(channel => new ChannelSetting { Id = channel.Id, Name = channel.Name })],
    };

    public async Task PutInCarAsync(Guid job, PresetDraft draft)
    {
        Value(await Get<TuningPresets>().SaveAsync(Actor(ShopRole.Owner), job, draft, UnitText.Invariant, None));
        Value(await Get<TuningPresets>().PutInCarAsync(Actor(ShopRole.Owner), (await Get<TuningPresets>().GetAsync(Actor(ShopRole.Owner), job, None)).Presets[0].Latest.Id, None));
    }

    private static TValue Value<TValue>(Outcome<TValue> outcome)
    {
        Assert.True(outcome.Succeeded, outcome.Message);
        return outcome.Value;
    }

    private async Task<Guid> AddAsync(Guid job, PartKind kind, string name, PartData data, decimal quantity = 1, string zone = "") =>
        Value(await Get<PartsList>().AddAsync(Actor(ShopRole.Owner), job, new JobPartDetails { Kind = kind, Name = name, Data = data, Quantity = quantity, Zone = zone }, None));
}
