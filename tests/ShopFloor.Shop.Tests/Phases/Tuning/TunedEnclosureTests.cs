using System.Numerics;
using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Tuning.Measurements;
using ShopFloor.Shop.Phases.Tuning.Presets;
using ShopFloor.Shop.Vehicles;
using FilterKind = ShopFloor.Engineering.Tuning.Filters.FilterKind;

namespace ShopFloor.Shop.Tests.Phases.Tuning;

/// <summary>A box worked out with the filters that are in the car.</summary>
public sealed class TunedEnclosureTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;
    private Guid _woofer;
    private string _channel = "";

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
        var amplifier = await _shop.AddPartAsync(_job, PartBuilder.Amplifier(part => part.Data = new AmplifierData { Channels = 4, WattsAtFourOhms = 150, WattsAtTwoOhms = 250 }));
        _woofer = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Loudspeaker, "Woofer", new LoudspeakerData
        {
            NominalOhms = 4, Coils = 1, RatedWatts = 500, ResonanceHertz = 29, Qes = 0.51, Qms = 5.8, VasLitres = 36, PistonSquareCentimeters = 346, ReOhms = 3.4, XmaxMillimeters = 15,
        }, part => part.Zone = VehicleZones.BootFloorRight));
        (await _shop.Get<SignalLinks>().LinkAsync(_shop.Desk, _job, SignalKind.Sound, _woofer, 0, Guid.Empty, new SignalLinkForm { FromPartId = amplifier }, None)).Must();
        _channel = Assert.Single(await _shop.Get<TuningChannels>().ListAsync(_shop.Technician, _job, None)).Id;
        await AddBoxAsync(new BoxAlternative { NetCubicMeters = 0.03 });
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task Nothing_is_offered_while_no_preset_is_in_the_car()
    {
        await KeepAsync(Sub, inCar: false);

        Assert.Empty((await FactsAsync()).TunedFor(_woofer));
    }

    // The same filters by the digital chain the processor runs, as it was rounded to its steps; so far below the sample rate both agree.
    [Fact]
    public async Task The_box_is_filtered_as_the_processor_in_the_car_filters()
    {
        await KeepAsync(Sub);
        var offered = Assert.Single((await FactsAsync()).TunedFor(_woofer));

        var set = (await _shop.Get<TuningPresets>().GetAsync(_shop.Owner, _job, None)).InCar!.Form.Channels[0];
        Assert.Equal("Bass, version 1", offered.Label);
        FilterSection[] sections = [.. offered.HighPass, .. offered.LowPass, .. offered.Others];
        foreach (var hertz in new[] { 15.0, 25, 40, 63, 100, 160 })
        {
            Complex digital = 1;
            foreach (var biquad in CrossoverSections.Of(set.HighPass!, true, 48_000).Concat(CrossoverSections.Of(set.LowPass!, false, 48_000)).Concat(set.Filters.Select(filter => CookbookFilters.Design(filter, 48_000))))
                digital *= biquad.At(hertz, 48_000);
            var ours = FilteredResponse.Gain(sections, hertz);
            Assert.Equal(20 * Math.Log10(digital.Magnitude), 20 * Math.Log10(ours.Magnitude), 0.01);
            Assert.Equal(0, Math.IEEERemainder(digital.Phase - ours.Phase, 2 * Math.PI), 0.01);
        }
    }

    [Fact]
    public async Task Filters_taken_over_take_the_place_of_what_was_typed_and_of_the_part_s()
    {
        await KeepAsync(Sub);
        var facts = await FactsAsync();
        var typed = View(facts, new BoxAlternative { NetCubicMeters = 0.03, HighPassHertz = 100 });
        var tuned = View(facts, new BoxAlternative { NetCubicMeters = 0.03, HighPassHertz = 100, Tuned = facts.TunedFor(_woofer)[0] });

        Assert.Equal((25, 80), (tuned.Built.HighPassHertz, tuned.Built.LowPassHertz));
        // At 40 Hz the typed high-pass of fourth order at 100 Hz takes 32 dB (24 dB an octave, 1.32 octaves); the tuned chain takes some 3.
        Assert.InRange(At(tuned, 40) - At(typed, 40), 24, 34);
        Assert.DoesNotContain(tuned.Findings, finding => finding.Code.StartsWith("enclosure-tuning", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Another_version_in_the_car_makes_it_stale_and_one_that_acts_alike_does_not()
    {
        var first = await KeepAsync(Sub);
        var taken = (await FactsAsync()).TunedFor(_woofer)[0];

        await KeepAsync(Sub with { GainDecibels = -6, DelaySeconds = 0.002 }, first);
        Assert.DoesNotContain(View(await FactsAsync(), new BoxAlternative { Tuned = taken }).Findings, finding => finding.Code == "enclosure-tuning-changed");

        await KeepAsync(Sub with { HighPass = Sub.HighPass! with { Hertz = 32 } }, first, 2);
        var stale = Assert.Single(View(await FactsAsync(), new BoxAlternative { Tuned = taken }).Findings, finding => finding.Code == "enclosure-tuning-changed");
        Assert.Equal(Severity.Warn, stale.Severity);
        Assert.Contains("Bass, version 1", stale.Text, StringComparison.Ordinal);
        Assert.Contains("Bass, version 3: high-pass Linkwitz-Riley 24 dB an octave at 32 Hz", stale.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_was_taken_over_comes_back_from_storage()
    {
        await KeepAsync(Sub);
        var taken = (await FactsAsync()).TunedFor(_woofer)[0];
        await AddBoxAsync(new BoxAlternative { Tuned = taken }, "Second box");

        var stored = (await _shop.Get<JobDesigns>().ListAsync<EnclosureForm>(_shop.Technician, _job, None)).Single(design => design.Name == "Second box").Form.Built.Tuned!;

        Assert.True(stored.ActsLike(taken));
        Assert.Equal(taken.ToString(), stored.ToString());
    }

    private ChannelSetting Sub => new()
    {
        Id = _channel, Name = "Subwoofer",
        HighPass = new Crossover(CrossoverShape.LinkwitzRiley, 25, 24), LowPass = new Crossover(CrossoverShape.Bessel, 80, 18),
        Filters =
        [
            new FilterSetting { Kind = FilterKind.Peaking, Hertz = 48, GainDecibels = -4, Q = 2.4 }, new FilterSetting { Kind = FilterKind.LowShelf, Hertz = 60, GainDecibels = 3 },
            new FilterSetting { Kind = FilterKind.AllPass, Hertz = 70, Q = 0.7 }, new FilterSetting { Kind = FilterKind.FirstOrderAllPass, Hertz = 45 },
        ],
    };

    private static double At(EnclosureView view, double hertz) => view.Built.Result!.Response.MinBy(point => Math.Abs(point.Hertz - hertz))!.LevelDecibels;

    private EnclosureView View(EnclosureFacts facts, BoxAlternative box) =>
        EnclosureStudies.Of(new EnclosureForm { LoudspeakerPartId = _woofer, Alternatives = [box] }, facts, Guid.CreateVersion7(), "Box", UnitText.Invariant);

    private async Task<Guid> KeepAsync(ChannelSetting channel, Guid? preset = null, int? basedOn = null, bool inCar = true)
    {
        var presets = _shop.Get<TuningPresets>();
        var kept = (await presets.SaveAsync(_shop.Owner, _job, new PresetDraft
        {
            PresetId = preset, BasedOn = preset is null ? null : basedOn ?? 1, Name = "Bass", Profile = (await presets.GetAsync(_shop.Owner, _job, None)).Profiles[0], Target = TargetCurve.BuiltIn[0], Channels = [channel],
        }, UnitText.Invariant, None)).Must();
        if (inCar)
            (await presets.PutInCarAsync(_shop.Owner, kept.VersionId, None)).Must();
        return (await presets.GetAsync(_shop.Owner, _job, None)).Presets[0].PresetId;
    }

    private async Task AddBoxAsync(BoxAlternative box, string name = "Boot box") =>
        (await _shop.Get<JobDesigns>().AddAsync(_shop.Desk, _job, name, new EnclosureForm { LoudspeakerPartId = _woofer, Alternatives = [box] }, None)).Must();

    private async Task<EnclosureFacts> FactsAsync() => (await _shop.Get<Enclosures>().GetAsync(_shop.Technician, _job, UnitText.Invariant, None)).Facts;
}
