using System.Text;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Tests.Phases.Design;

/// <summary>The inside of a box by shapes and filling, room for its port, its filters and what was measured in the car.</summary>
public sealed class BoxMeasuringTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;
    private Guid _woofer;

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync(command => command.NewVehicle!.Measures = new VehicleMeasures { CabinLengthMeters = 3.1 });
        _woofer = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Loudspeaker, "Woofer", new LoudspeakerData
        {
            NominalOhms = 4, Coils = 1, RatedWatts = 500, ResonanceHertz = 29, Qes = 0.51, Qms = 5.8, VasLitres = 36, PistonSquareCentimeters = 346, ReOhms = 3.4, XmaxMillimeters = 15, DisplacementLitres = 2.4, LowPassHertz = 80,
        }));
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    // Box 400·300·250 mm 30 l; wedge 400·300·(50 + 150)/2 mm 12 l; wheel arch π·300²/4·100 mm 7.069 l; prism ½·200·300·400 mm 12 l;
    // pyramid 100/6·(200·200 + 300·300 + 100·100) mm 2.333 l; driver 2.4 l.
    [Fact]
    public void Shapes_are_added_and_taken_away_and_the_driver_comes_off_by_its_part()
    {
        var view = View(new BoxVolumeForm
        {
            WidthMeters = 0.4, HeightMeters = 0.3, DepthMeters = 0.25,
            Shapes =
            [
                new() { Kind = ShapeKind.Wedge, Meters = [0.4, 0.3, 0.05, 0.15, null] },
                new() { Kind = ShapeKind.Cylinder, Takes = true, Meters = [0.3, 0.1] },
                new() { Kind = ShapeKind.Prism, Meters = [0.4], Outline = [new(0, 0), new(0.2, 0), new(0, 0.3)] },
                new() { Kind = ShapeKind.Pyramid, Meters = [0.2, 0.2, 0.1, 0.1, 0.1] },
            ],
        });

        var result = BoxVolumes.Of(view, view.Built, BoxChamber.Behind, UnitText.Invariant)!;

        Assert.Equal(0.030 + 0.012 - Math.PI * 0.09 / 4 * 0.1 + 0.012 + 0.1 / 6 * 0.14 - 0.0024, result.NetCubicMeters, 1e-9);
    }

    [Fact]
    public void A_shape_that_is_not_whole_is_named_with_what_it_lacks()
    {
        var view = View(new BoxVolumeForm { WidthMeters = 0.4, HeightMeters = 0.3, DepthMeters = 0.25, Shapes = [new() { Kind = ShapeKind.Cylinder, Name = "Wheel arch", Takes = true, Meters = [0.3] }] });

        Assert.Null(BoxVolumes.Of(view, view.Built, BoxChamber.Behind, UnitText.Invariant));
        Assert.Equal("Wheel arch: still needed: length.", Assert.Single(BoxVolumes.Refusals(view, view.Built, BoxChamber.Behind, UnitText.Invariant)));
    }

    // 29.946 kg of water are 30 l at 998.2 kg/m³; the driver of 2.4 l comes off unless it stood in the box.
    [Theory]
    [InlineData(false, 0.0276)]
    [InlineData(true, 0.030)]
    public void A_box_filled_with_water_needs_no_sides(bool inside, double cubicMeters)
    {
        var view = View(new BoxVolumeForm { Fill = new BoxFillForm { Kind = FillKind.WaterWeighed, Kilograms = 29.946, PartsInside = inside } });

        Assert.Equal(cubicMeters, BoxVolumes.Of(view, view.Built, BoxChamber.Behind, UnitText.Invariant)!.NetCubicMeters, 1e-9);
    }

    [Fact]
    public void A_port_longer_than_the_box_is_told_and_one_that_fits_says_which_way()
    {
        var box = new BoxAlternative { Kind = EnclosureKind.Vented, PortDiameterMeters = 0.1 };
        var inside = new EnclosureForm { Volume = new BoxVolumeForm { WidthMeters = 0.5, HeightMeters = 0.3, DepthMeters = 0.3 } };

        // Straight: 500 mm less one bore of 100 mm.
        Assert.Equal("fits straight along the width", PortRoom.Of(inside, box, 0.399, UnitText.Invariant)!.Words);
        Assert.Contains("one bend", PortRoom.Of(inside, box, 0.45, UnitText.Invariant)!.Words, StringComparison.Ordinal);
        Assert.False(PortRoom.Of(inside, box, 0.9, UnitText.Invariant)!.Fits);
        Assert.Null(PortRoom.Of(new EnclosureForm(), box, 0.3, UnitText.Invariant));
    }

    // A surface 536 by 336 by 336 mm outside with walls of 18 mm leaves 500 by 300 by 300 mm.
    [Fact]
    public void Around_a_surface_less_its_walls_a_port_is_asked_like_between_sides_and_it_is_said_that_this_is_all_that_is_known()
    {
        var box = new BoxAlternative { Kind = EnclosureKind.Vented, PortDiameterMeters = 0.1 };
        var form = new EnclosureForm { Volume = new BoxVolumeForm { MeshFileId = Guid.CreateVersion7(), MeshWallMeters = 0.018, Surface = new MeshSurface(0.536, 0.336, 0.336, 0.06, 0.9, 3) } };

        Assert.Equal("fits straight along x of the box around the surface", PortRoom.Of(form, box, 0.399, UnitText.Invariant)!.Words);
        var none = PortRoom.Of(form, box, 0.9, UnitText.Invariant)!;
        Assert.Equal((false, true), (none.Fits, none.Around));
        // Without its walls 36 mm more.
        form.Volume.MeshWallMeters = null;
        Assert.Equal("fits straight along x of the box around the surface", PortRoom.Of(form, box, 0.435, UnitText.Invariant)!.Words);
    }

    [Fact]
    public void A_port_that_fits_around_a_surface_is_a_note_and_one_that_does_not_warns()
    {
        BoxVolumeForm Surface(double size) => new() { MeshFileId = Guid.CreateVersion7(), Surface = new MeshSurface(size, size, size, 0.05, 1, 2) };
        var box = new BoxAlternative { Kind = EnclosureKind.Vented, NetCubicMeters = 0.042, TuningHertz = 31, PortDiameterMeters = 0.1 };

        Assert.Contains(View(Surface(0.6), box).Findings, finding => finding is { Code: "enclosure-port-room-around", Severity: Severity.Note });
        Assert.Contains(View(Surface(0.2), box).Findings, finding => finding is { Code: "enclosure-port-no-room", Severity: Severity.Warn });
    }

    // A cube of 300 mm by its outside: 264 mm inside walls of 18 mm, 18.40 l; 8·18³ mm³ of the corners are left out.
    [Fact]
    public void Walls_come_off_a_surface_that_is_the_outside()
    {
        var view = View(new BoxVolumeForm { MeshFileId = Guid.CreateVersion7(), MeshWallMeters = 0.018, Surface = new MeshSurface(0.3, 0.3, 0.3, 0.027, 0.54, 3.6) });

        Assert.Equal(Math.Pow(0.264, 3) + 8 * Math.Pow(0.018, 3) - 0.0024, BoxVolumes.Of(view, view.Built, BoxChamber.Behind, UnitText.Invariant)!.NetCubicMeters, 1e-9);
    }

    // 400·300·250 mm behind, 30 l less the driver; 300·300·250 mm before, 22.5 l less the port: π/4·110² mm² with walls of 5 mm by its length.
    [Fact]
    public void The_port_of_a_band_pass_comes_off_the_chamber_before_the_cone_and_the_driver_off_the_one_behind()
    {
        var view = BandPass();

        var behind = BoxVolumes.Of(view, view.Built, BoxChamber.Behind, UnitText.Invariant)!;
        var before = BoxVolumes.Of(view, view.Built, BoxChamber.Before, UnitText.Invariant)!;

        Assert.Equal(0.030 - 0.0024, behind.NetCubicMeters, 1e-9);
        Assert.Equal(0.0225 - Math.PI / 4 * 0.11 * 0.11 * view.Built.Result!.PortMeters!.Value, before.NetCubicMeters, 1e-9);
    }

    [Fact]
    public void A_magnet_in_front_comes_off_the_chamber_before_the_cone()
    {
        var view = BandPass(form => form.MagnetInFront = true);

        Assert.Equal(0.030, BoxVolumes.Of(view, view.Built, BoxChamber.Behind, UnitText.Invariant)!.NetCubicMeters, 1e-9);
        Assert.Contains(BoxVolumes.Of(view, view.Built, BoxChamber.Before, UnitText.Invariant)!.Rows, row => row.Name == "Loudspeaker");
    }

    [Fact]
    public void With_the_port_cut_for_what_is_left_the_chamber_rests()
    {
        var view = BandPass();
        var rested = BoxVolumes.WithPort(view, view.Built, BoxChamber.Before, BoxVolumes.Of(view, view.Built, BoxChamber.Before, UnitText.Invariant)!, UnitText.Invariant)!;

        var again = BandPass(form => form.Alternatives[0].FrontCubicMeters = rested.NetCubicMeters!.Value);

        Assert.Equal(rested.LengthMeters!.Value, again.Built.Result!.PortMeters!.Value, 1e-9);
        Assert.Equal(rested.NetCubicMeters!.Value, BoxVolumes.Of(again, again.Built, BoxChamber.Before, UnitText.Invariant)!.NetCubicMeters, 1e-9);
    }

    [Theory]
    [InlineData(0.3, true)]
    [InlineData(0.16, false)]
    public void The_port_of_a_band_pass_is_asked_for_room_in_front(double side, bool fits)
    {
        var view = BandPass(form => (form.FrontVolume.WidthMeters, form.FrontVolume.HeightMeters, form.FrontVolume.DepthMeters) = (side, side, side));

        Assert.Equal(fits, view.Built.Room!.Fits);
        Assert.Equal(!fits, view.Findings.Any(finding => finding.Code == "enclosure-port-no-room" && finding.Remedy.Contains("front chamber", StringComparison.Ordinal)));
    }

    // At 300 W its pipe of 100 mm moves air faster than 17 m/s, and one of 35 cm and more sounds by itself below 500 Hz (c/(2·L)).
    [Fact]
    public void The_port_of_a_band_pass_is_judged_by_its_air_and_its_length()
    {
        var view = BandPass(form => form.Alternatives[0].TuningHertz = 30);

        Assert.Contains(view.Findings, finding => finding.Code == "enclosure-port-speed");
        Assert.Contains(view.Findings, finding => finding.Code == "enclosure-port-pipe");
        Assert.Contains(BandPass(form => (form.Alternatives[0].TuningHertz, form.Alternatives[0].FrontCubicMeters) = (200, 0.2)).Findings, finding => finding.Code == "enclosure-port-too-short");
    }

    [Fact]
    public void The_low_pass_of_the_part_and_the_shelves_of_the_alternative_are_in_the_chain()
    {
        var plain = View(new BoxVolumeForm(), new BoxAlternative { LowPassHertz = 20_000 }).Built.Result!;
        var filtered = View(new BoxVolumeForm(), new BoxAlternative { Filters = [new BoxFilterRow { Kind = BoxFilterKind.LowShelf, Hertz = 400, GainDecibels = -6, Q = 0.7 }] });

        Assert.Equal(80, filtered.Built.LowPassHertz);
        // Far below its corner a shelf gives its whole gain; the low-pass leaves 20 Hz alone.
        Assert.Equal(-6, At(filtered.Built.Result!, 20) - At(plain, 20), 0.1);
        // Butterworth of fourth order at 160 Hz: 24.1 dB, and the shelf.
        Assert.InRange(At(filtered.Built.Result!, 160) - At(plain, 160), -31, -27);
    }

    [Fact]
    public async Task A_table_measured_in_the_car_takes_the_place_of_the_estimate()
    {
        var file = await TableAsync("Hz\tdB\n10\t20\n40\t12\n100\t3\n500\t3\n");
        await AddAsync(new EnclosureForm { LoudspeakerPartId = _woofer, TransferFileId = file, TransferZeroHertz = 100 });

        var view = await StoredAsync();

        Assert.Equal("car.txt", view.Transfer!.FileName);
        var at = view.Built.Result!.Response.Select((point, index) => (point, index)).MinBy(each => Math.Abs(each.point.Hertz - 40)).index;
        // 12 dB at 40 Hz with 100 Hz taken as nothing.
        Assert.Equal(9, view.Built.Result.InCarDecibels![at] - view.Built.Result.Response[at].LevelDecibels, 0.3);
    }

    [Fact]
    public async Task A_table_that_cannot_be_read_is_a_finding_and_the_estimate_stays()
    {
        await AddAsync(new EnclosureForm { LoudspeakerPartId = _woofer, TransferFileId = await TableAsync("a letter\nand no table") });

        var view = await StoredAsync();

        Assert.Contains(view.Findings, finding => finding.Code == "enclosure-transfer-unread" && finding.Text.Contains("car.txt", StringComparison.Ordinal));
        Assert.Null(view.Cabin!.Measured);
    }

    [Fact]
    public void Three_loudspeakers_do_not_make_isobaric_pairs() =>
        Assert.Contains(new EnclosureForm { LoudspeakerPartId = _woofer, Count = 3, Isobaric = true }.Problems(), problem => problem.Field == nameof(EnclosureForm.Count) && problem.Message.Contains("2, 4", StringComparison.Ordinal));

    [Theory]
    [InlineData("0 0\n400 0\n0 250", 3, null)]
    [InlineData("0 0\n400", null, "Line 2")]
    [InlineData("0 0\n400 x", null, "Line 2")]
    [InlineData("0 0\n99999 1", null, "10 m")]
    public void An_outline_is_read_line_by_line_and_a_slip_is_named(string typed, int? corners, string? problem)
    {
        var read = OutlineText.Read(typed, 0.001, System.Globalization.CultureInfo.InvariantCulture);

        Assert.Equal(corners, read.Corners?.Count);
        Assert.Contains(problem ?? "", read.Problem ?? "", StringComparison.Ordinal);
        Assert.Equal(problem is null, read.Problem is null);
    }

    private static double At(Engineering.Acoustics.Enclosures.EnclosureStudyResult result, double hertz) => result.Response.MinBy(point => Math.Abs(point.Hertz - hertz))!.LevelDecibels;

    private EnclosureView View(BoxVolumeForm volume, BoxAlternative? box = null)
    {
        var data = new LoudspeakerData { NominalOhms = 4, Coils = 1, RatedWatts = 500, ResonanceHertz = 29, Qes = 0.51, Qms = 5.8, VasLitres = 36, PistonSquareCentimeters = 346, ReOhms = 3.4, XmaxMillimeters = 15, DisplacementLitres = 2.4, LowPassHertz = 80 };
        return EnclosureStudies.Of(
            new EnclosureForm { LoudspeakerPartId = _woofer, Watts = 300, Volume = volume, Alternatives = [box ?? new BoxAlternative()] },
            new EnclosureFacts([new EnclosureDriver(_woofer, "Woofer", 1, data, null, null)], 3.1), Guid.CreateVersion7(), "Box", UnitText.Invariant);
    }

    private EnclosureView BandPass(Action<EnclosureForm>? change = null)
    {
        var data = new LoudspeakerData { NominalOhms = 4, Coils = 1, RatedWatts = 500, ResonanceHertz = 29, Qes = 0.51, Qms = 5.8, VasLitres = 36, PistonSquareCentimeters = 346, ReOhms = 3.4, XmaxMillimeters = 15, DisplacementLitres = 2.4 };
        var form = new EnclosureForm
        {
            LoudspeakerPartId = _woofer, Watts = 300,
            Alternatives = [new BoxAlternative { Kind = EnclosureKind.BandPass, NetCubicMeters = 0.028, FrontCubicMeters = 0.02, TuningHertz = 55, PortDiameterMeters = 0.1 }],
            Volume = new BoxVolumeForm { WidthMeters = 0.4, HeightMeters = 0.3, DepthMeters = 0.25 },
            FrontVolume = new BoxVolumeForm { WidthMeters = 0.3, HeightMeters = 0.3, DepthMeters = 0.25 },
        };
        change?.Invoke(form);
        return EnclosureStudies.Of(form, new EnclosureFacts([new EnclosureDriver(_woofer, "Woofer", 1, data, null, null)], 3.1), Guid.CreateVersion7(), "Box", UnitText.Invariant);
    }

    private async Task<Guid> TableAsync(string text) =>
        (await _shop.Get<JobFiles>().AddAsync(_shop.Desk, _job, JobFileKind.MeasurementTable, "car.txt", new MemoryStream(Encoding.ASCII.GetBytes(text)), None)).Must();

    private async Task AddAsync(EnclosureForm form) => (await _shop.Get<JobDesigns>().AddAsync(_shop.Desk, _job, "Boot box", form, None)).Must();

    private async Task<EnclosureView> StoredAsync()
    {
        var list = await _shop.Get<Enclosures>().GetAsync(_shop.Technician, _job, UnitText.Invariant, None);
        var design = Assert.Single(list.Designs);
        return EnclosureStudies.Of(design.Form, list.Facts, design.Id, design.Name, UnitText.Invariant);
    }
}
