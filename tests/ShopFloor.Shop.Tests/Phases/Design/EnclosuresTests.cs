using System.Globalization;
using System.Text.Json;
using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Geometry;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Tests.Phases.Design;

public sealed class EnclosuresTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;
    private Guid _amplifier;
    private Guid _woofer;

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync(command => command.NewVehicle!.Measures = new VehicleMeasures { CabinLengthMeters = 3.1 });
        _amplifier = await _shop.AddPartAsync(_job, PartBuilder.Amplifier(part => part.Data = new AmplifierData { Channels = 4, WattsAtFourOhms = 150, WattsAtTwoOhms = 250 }));
        _woofer = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Loudspeaker, "Woofer", Woofer(), part => part.Zone = VehicleZones.BootFloorRight));
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task Power_comes_from_the_channel_cabin_from_the_vehicle_and_driver_data_from_the_part()
    {
        await LinkAsync();
        await AddAsync(new EnclosureForm { LoudspeakerPartId = _woofer });

        var view = await ViewAsync();

        Assert.InRange(view.Power.Watts!.Value, 140, 150); // 150 W less what the cable keeps
        Assert.Equal(343.2 / 6.2, view.CabinCornerHertz!.Value, 1e-9); // c/(2·3.1 m)
        Assert.Equal(29, view.Completed!.Parameters!.ResonanceHertz, 1e-9);
        Assert.NotNull(view.Built.Result);
    }

    [Theory]
    [InlineData(1, false, false)]
    [InlineData(2, false, true)] // 2 Ω where the link says 4 Ω
    [InlineData(2, true, true)] // 8 Ω
    public async Task A_box_joined_otherwise_than_it_is_linked_is_told(int count, bool series, bool told)
    {
        await LinkAsync();
        await AddAsync(new EnclosureForm { LoudspeakerPartId = _woofer, Count = count, InSeries = series });

        Assert.Equal(told, (await ViewAsync()).Findings.Any(finding => finding.Code == "enclosure-load-differs"));
    }

    [Fact]
    public async Task Without_a_link_the_box_is_shown_at_one_watt_s_voltage_and_says_that_the_power_is_missing()
    {
        await AddAsync(new EnclosureForm { LoudspeakerPartId = _woofer });

        var view = await ViewAsync();

        Assert.Equal((null, 2.83), (view.Power.Watts, view.Power.Volts));
        Assert.Contains(view.Findings, finding => finding.Code == "enclosure-power-unknown");
    }

    [Fact]
    public async Task Driver_data_that_are_missing_are_named_and_nothing_is_made_up()
    {
        await _shop.EditPartAsync(_woofer, part => part.Data = new LoudspeakerData { NominalOhms = 4, Coils = 1, ResonanceHertz = 29, ReOhms = 3.4 });
        await AddAsync(new EnclosureForm { LoudspeakerPartId = _woofer });

        var view = await ViewAsync();

        Assert.Null(view.Built.Result);
        var missing = Assert.Single(view.Findings, finding => finding.Code == "driver-data-missing");
        Assert.Contains("piston area", missing.Text, StringComparison.Ordinal);
    }

    // All coils driven are one motor whatever way they are joined, so the Q stays; one of two alone has half the motor and twice the Q.
    [Theory]
    [InlineData(CoilUse.AllInParallel, 1, 1.7)]
    [InlineData(CoilUse.AllInSeries, 1, 6.8)]
    [InlineData(CoilUse.OneCoil, 2, 3.4)]
    public async Task Coils_change_resistance_and_motor_together(CoilUse coils, double factor, double ohms)
    {
        await _shop.EditPartAsync(_woofer, part => part.Data = Woofer(two: true));
        await AddAsync(new EnclosureForm { LoudspeakerPartId = _woofer, Coils = coils });

        var view = await ViewAsync();
        var joined = DriverCompletion.Complete(EnclosureStudies.SheetOf(view)!, Air.Standard).Parameters!;

        Assert.Equal(factor * 0.51, joined.Qes, 1e-6);
        Assert.Equal(ohms, joined.ReOhms, 1e-9);
    }

    [Fact]
    public async Task A_cone_that_would_strike_holds_delivery_a_warning_does_not()
    {
        await AddAsync(new EnclosureForm { LoudspeakerPartId = _woofer, Watts = 900, Alternatives = [new BoxAlternative { NetCubicMeters = 0.1 }] });
        Assert.Contains((await ViewAsync()).Findings, finding => finding is { Code: "enclosure-excursion", Severity: Severity.Warn });
        Assert.DoesNotContain(await HeldAsync(), code => code.StartsWith("enclosure-", StringComparison.Ordinal));

        await _shop.EditPartAsync(_woofer, part => ((LoudspeakerData)part.Data).MechanicalMillimeters = 18);

        Assert.Contains("enclosure-cone-strikes", await HeldAsync());
    }

    [Fact]
    public async Task The_box_is_found_for_a_total_q_and_for_this_car()
    {
        await AddAsync(new EnclosureForm { LoudspeakerPartId = _woofer, CabinLeakHertz = 22, Watts = 200 });
        var view = await ViewAsync();

        var butterworth = EnclosureGoals.Find(view, 0, EnclosureAim.Qtc, Math.Sqrt(0.5), 0.1, UnitText.Invariant);

        // Small (1972): Vb = Vas/((Qtc/Qts)² − 1) with Vas 36 l and Qts 0.51·5.8/(0.51 + 5.8) = 0.468780.
        Assert.True(butterworth.Reached);
        Assert.Equal(0.036 / (0.5 / (0.468780 * 0.468780) - 1), butterworth.Box!.NetCubicMeters, 1e-6);
        Assert.True(EnclosureGoals.Find(view, 0, EnclosureAim.FlatInCar, 0, 0.1, UnitText.Invariant).Reached);
    }

    [Fact]
    public async Task A_box_begins_with_what_the_driver_asks_for()
    {
        var list = await _shop.Get<Enclosures>().GetAsync(_shop.Desk, _job, UnitText.Invariant, None);

        var form = EnclosureGoals.Begin(Assert.Single(list.Facts.Loudspeakers), list.Facts, UnitText.Invariant);

        Assert.Equal([EnclosureKind.Closed, EnclosureKind.Vented], form.Alternatives.Select(box => box.Kind));
        Assert.Empty(form.Problems());
    }

    [Theory]
    [InlineData(25)]
    [InlineData(33)]
    public void A_radiator_is_tuned_by_the_mass_that_is_added(double hertz)
    {
        var box = new BoxAlternative { Kind = EnclosureKind.PassiveRadiator, NetCubicMeters = 0.03, RadiatorKilograms = 0.08, RadiatorHertz = 18 };

        EnclosureStudies.Tune(box, hertz);

        Assert.InRange(box.RadiatorAddedKilograms, 0.001, 1);
        Assert.Equal(hertz, EnclosureStudies.TuningHertz(box)!.Value, 1e-9);
    }

    [Fact]
    public async Task Net_volume_is_the_inside_less_driver_and_bracing()
    {
        await AddAsync(new EnclosureForm { LoudspeakerPartId = _woofer, Volume = new BoxVolumeForm { WidthMeters = 0.4, HeightMeters = 0.3, DepthMeters = 0.25, BracingCubicMeters = 0.001 } });
        var view = await ViewAsync();

        var volume = BoxVolumes.Of(view, view.Built, BoxChamber.Behind, UnitText.Invariant)!;

        // 400 · 300 · 250 mm = 30 l, less 2.4 l and 1 l.
        Assert.Equal(0.0266, volume.NetCubicMeters, 1e-9);
    }

    [Fact]
    public async Task A_surface_from_a_file_is_measured_and_sent_to_the_screen_as_bare_triangles()
    {
        var file = await AddFileAsync(Tetrahedron);
        var meshes = _shop.Get<MeshFiles>();

        var (mesh, problem) = await meshes.MeasureAsync(_shop.Technician, file, MeshUnit.Centimeters, UnitText.Invariant, None);

        Assert.Null(problem);
        // A sixth of the cube of its 30 cm legs.
        Assert.Equal(0.027 / 6, mesh!.VolumeCubicMeters!.Value, 1e-9);
        var sent = await meshes.TrianglesAsync(_shop.Technician, file, MeshUnit.Centimeters, None);
        Assert.Equal(4 * 9 * 4, sent!.Length);
        Assert.Equal(0.3f, Enumerable.Range(0, sent.Length / 4).Max(n => BitConverter.ToSingle(sent, 4 * n)), 6);
    }

    [Fact]
    public async Task A_file_that_is_no_mesh_is_refused_in_words()
    {
        var file = await AddFileAsync("this is a letter, not a surface");

        var (mesh, problem) = await _shop.Get<MeshFiles>().MeasureAsync(_shop.Desk, file, MeshUnit.Millimeters, UnitText.Invariant, None);

        Assert.Null(mesh);
        Assert.Contains("'box.stl' cannot be read", problem, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_handover_keeps_volume_tuning_and_the_high_pass_of_the_box_that_was_built()
    {
        await AddAsync(new EnclosureForm
        {
            LoudspeakerPartId = _woofer, Chosen = 1, Alternatives = [new BoxAlternative(), new BoxAlternative { Kind = EnclosureKind.Vented, NetCubicMeters = 0.042, TuningHertz = 31, HighPassHertz = 25 }],
        });

        var box = Assert.Single((await _shop.Get<Handovers>().FactsAsync(_shop.Technician, _job, None)).Boxes);

        Assert.Equal(new BoxFact("Boot box", "Woofer", "Vented", 0.042, 31, 25), box);
    }

    [Fact]
    public async Task A_form_comes_back_from_storage_as_it_was()
    {
        var form = new EnclosureForm
        {
            LoudspeakerPartId = _woofer, Coils = CoilUse.AllInSeries, Alternatives = [new BoxAlternative { Kind = EnclosureKind.Vented, PortShape = PortShape.Slot, Filling = BoxFilling.FilledWhole, Filters = [new BoxFilterRow { Kind = BoxFilterKind.LowShelf, Hertz = 45 }] }],
            Volume = new BoxVolumeForm { Shapes = [new VolumeShapeForm { Kind = ShapeKind.Prism, Meters = [0.4, null, null, null, null], Outline = [new(0, 0), new(0.3, 0), new(0, 0.2)] }], Fill = new BoxFillForm { Kind = FillKind.BeadsPoured, PouredCubicMeters = 0.02 } },
        };
        await AddAsync(form);

        var stored = Assert.Single(await _shop.Get<JobDesigns>().ListAsync<EnclosureForm>(_shop.Technician, _job, None)).Form;

        Assert.Equal(JsonSerializer.Serialize(form), JsonSerializer.Serialize(stored));
    }

    [Fact]
    public void A_refused_box_names_the_alternative_the_value_and_the_range()
    {
        var problem = Assert.Single(new EnclosureForm { LoudspeakerPartId = Guid.CreateVersion7(), Alternatives = [new(), new BoxAlternative { NetCubicMeters = 9 }] }.Problems());

        Assert.Equal("Alternatives[1].NetCubicMeters", problem.Field);
        foreach (var expected in new[] { "Alternative B", 9000.ToString(CultureInfo.CurrentCulture), "2000 l" })
        {
            Assert.Contains(expected, problem.Message, StringComparison.Ordinal);
        }
    }

    private const string Tetrahedron = """
        solid t
        facet normal 0 0 0
        outer loop
        vertex 0 0 0
        vertex 0 30 0
        vertex 30 0 0
        endloop
        endfacet
        facet normal 0 0 0
        outer loop
        vertex 0 0 0
        vertex 30 0 0
        vertex 0 0 30
        endloop
        endfacet
        facet normal 0 0 0
        outer loop
        vertex 0 0 0
        vertex 0 0 30
        vertex 0 30 0
        endloop
        endfacet
        facet normal 0 0 0
        outer loop
        vertex 30 0 0
        vertex 0 30 0
        vertex 0 0 30
        endloop
        endfacet
        endsolid t
        """;

    // An invented driver; of two coils the resistance is that of both side by side.
    private static LoudspeakerData Woofer(bool two = false) => new()
    {
        NominalOhms = 4, Coils = two ? 2 : 1, RatedWatts = 500, ResonanceHertz = 29, Qes = 0.51, Qms = 5.8, VasLitres = 36, PistonSquareCentimeters = 346, ReOhms = two ? 1.7 : 3.4, XmaxMillimeters = 15, DisplacementLitres = 2.4,
    };

    private async Task<Guid> AddFileAsync(string text) =>
        (await _shop.Get<JobFiles>().AddAsync(_shop.Desk, _job, JobFileKind.Mesh, "box.stl", new MemoryStream(System.Text.Encoding.ASCII.GetBytes(text)), None)).Must();

    private async Task LinkAsync() => (await _shop.Get<SignalLinks>().LinkAsync(_shop.Desk, _job, SignalKind.Sound, _woofer, 0, Guid.Empty, new SignalLinkForm { FromPartId = _amplifier }, None)).Must();

    private async Task<Guid> AddAsync(EnclosureForm form) => (await _shop.Get<JobDesigns>().AddAsync(_shop.Desk, _job, "Boot box", form, None)).Must();

    private async Task<List<string>> HeldAsync() => [.. (await _shop.Get<DeliveryGate>().ReportAsync(_shop.Desk, _job, None)).Standing.Select(gated => gated.Finding.Code)];

    private async Task<EnclosureView> ViewAsync()
    {
        var list = await _shop.Get<Enclosures>().GetAsync(_shop.Technician, _job, UnitText.Invariant, None);
        var design = Assert.Single(list.Designs);
        return EnclosureStudies.Of(design.Form, list.Facts, design.Id, design.Name, UnitText.Invariant);
    }
}
