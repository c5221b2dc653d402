using System.Globalization;
using System.Text;
using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Tests.Phases.Design;

public sealed class DriverMeasurementsTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;

    // The driver of the engine's box fixtures, wired with two coils side by side: fs 28 Hz, Qes 0.52, Qms 6, Vas 62 l, Sd 330 cm², Re 3.4 Ω, Le 1.2 mH. Small (1972): Mms 80.4855 g.
    private static readonly DriverParameters Real = DriverCompletion.Complete(
        new DriverSheet { ResonanceHertz = 28, Qes = 0.52, Qms = 6, VasCubicMeters = 0.062, PistonSquareMeters = 0.033, ReOhms = 3.4, LeHenries = 1.2e-3 }, Air.Standard).Parameters!;

    private readonly TestShop _shop = new();
    private Guid _job;
    private Guid _amplifier;
    private Guid _woofer;

    private DriverMeasurements Measurements => _shop.Get<DriverMeasurements>();

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
        _amplifier = await _shop.AddPartAsync(_job, PartBuilder.Amplifier(part => part.Data = new AmplifierData { Channels = 1, WattsAtFourOhms = 250, WattsAtTwoOhms = 400 }));
        _woofer = await _shop.AddPartAsync(_job, PartBuilder.Of(
            PartKind.Loudspeaker, "Woofer", new LoudspeakerData { NominalOhms = 8, Coils = 2, ResonanceHertz = 33, Qts = 0.6, PistonSquareCentimeters = 330 }, part => part.Zone = VehicleZones.BootFloorRight));
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task A_kept_measurement_writes_its_figures_to_the_part_with_who_and_when_beside_them()
    {
        await KeepAsync(_shop.Desk, await WithMassAsync());

        var data = await DataAsync();
        Assert.Equal(28, data.ResonanceHertz!.Value, 0.01);
        Assert.Equal(0.52, data.Qes!.Value, 1e-3);
        Assert.Equal(80.49, data.MmsGrams!.Value, 0.05);
        Assert.Equal(62, data.VasLitres!.Value, 0.1);
        Assert.Equal("measured by Dora Desk, 3 Mar 2031", data.SourceOf(nameof(data.ResonanceHertz)));
        Assert.Null(data.SourceOf(nameof(data.PistonSquareCentimeters)));
        var rows = DriverData.Rows(data, DriverData.Complete(data, UnitText.Invariant)!);
        Assert.Equal("measured by Dora Desk, 3 Mar 2031", rows.Single(row => row.Symbol == "fs").Source);
    }

    [Fact]
    public async Task The_record_tells_each_figure_before_and_after_and_who_measured()
    {
        await KeepAsync(_shop.Desk, await FreeAirAsync());

        var page = await _shop.Get<JobRecord>().OfJobAsync(_shop.Desk, _job, null, None);
        var told = page.Lines.Single(line => line.Headline == "changed the part 'Woofer'").Changes;
        Assert.Contains("Resonance in free air (fs): 33 → 28", told);
        Assert.Contains("Measured: measured by Dora Desk, 3 Mar 2031", told);
        Assert.DoesNotContain(page.Lines.SelectMany(line => line.Changes), change => change.Contains('{', StringComparison.Ordinal));
    }

    [Fact]
    public async Task Taking_it_back_restores_what_stood_there_and_leaves_what_was_typed_since()
    {
        var id = await KeepAsync(_shop.Desk, await WithMassAsync());
        // Typed over, with a source that nobody may type.
        var form = (await _shop.Get<PartsList>().ForEditAsync(_shop.Desk, _woofer, None))!;
        var typed = (LoudspeakerData)form.Details.Data;
        (typed.Qms, typed.Measured!["Qms"]) = (5.5, new MeasuredFigure(5.5, "measured by nobody"));
        (await _shop.Get<PartsList>().EditAsync(_shop.Desk, _woofer, form.Version, form.Details, None)).Must();
        Assert.Null((await DataAsync()).SourceOf(nameof(LoudspeakerData.Qms)));

        (await Measurements.TakeBackAsync(_shop.Desk, id, None)).Must();

        var data = await DataAsync();
        Assert.Equal((33, 0.6, null, null, 5.5), (data.ResonanceHertz, data.Qts, data.MmsGrams, data.MinimumOhms, data.Qms));
        Assert.Empty((await DriverAsync()).Kept);
        Assert.Null(data.Measured);
    }

    [Fact]
    public async Task A_second_measurement_taken_back_leaves_the_first_with_its_source()
    {
        await KeepAsync(_shop.Desk, await FreeAirAsync());
        var first = await DataAsync();
        _shop.Time.Advance(TimeSpan.FromDays(1));
        var again = await KeepAsync(_shop.Owner, await WithMassAsync());
        Assert.Equal("measured by Odile Owner, 4 Mar 2031", (await DataAsync()).SourceOf(nameof(LoudspeakerData.Qes)));

        (await Measurements.TakeBackAsync(_shop.Desk, again, None)).Must();

        var data = await DataAsync();
        Assert.Equal(first.Qes, data.Qes);
        Assert.Equal("measured by Dora Desk, 3 Mar 2031", data.SourceOf(nameof(data.Qes)));
    }

    [Fact]
    public async Task A_technician_measures_and_whoever_designs_writes_it_to_the_part()
    {
        var id = await KeepAsync(_shop.Technician, await FreeAirAsync());
        Assert.Equal(33, (await DataAsync()).ResonanceHertz);
        await Assert.ThrowsAsync<NotAllowedException>(() => Measurements.PutOnPartAsync(_shop.Technician, id, None));

        (await Measurements.PutOnPartAsync(_shop.Desk, id, None)).Must();

        Assert.Equal("measured by Tom Tech, 3 Mar 2031", (await DataAsync()).SourceOf(nameof(LoudspeakerData.ResonanceHertz)));
        await Assert.ThrowsAsync<NotAllowedException>(() => Measurements.TakeBackAsync(_shop.Technician, id, None));
    }

    [Fact]
    public async Task The_channel_s_least_load_is_the_minimum_of_the_curve_and_says_so()
    {
        (await _shop.Get<SignalLinks>().LinkAsync(_shop.Desk, _job, SignalKind.Sound, _woofer, 0, Guid.Empty, new SignalLinkForm { FromPartId = _amplifier }, None)).Must();
        Assert.Equal(0.8 * 4, (await ChannelAsync()).MinimumOhms, 1e-9); // 80 % of two coils of 8 Ω side by side

        var form = await FreeAirAsync();
        await KeepAsync(_shop.Desk, form);

        var study = (await DriverAsync()).Latest!;
        var channel = await ChannelAsync();
        Assert.Equal(study.FreeAir!.Points.Min(point => point.Ohms), channel.MinimumOhms, 2e-3);
        Assert.Contains(channel.Explanation.Inputs, input => input.Origin == "minimum of the impedance curve, measured by Dora Desk, 3 Mar 2031");
        // Typed over, it is part data again.
        await _shop.EditPartAsync(_woofer, part => ((LoudspeakerData)part.Data).MinimumOhms = 6.1);
        Assert.Contains((await ChannelAsync()).Explanation.Inputs, input => input is { Value: 6.1, Origin: "part data" });
    }

    [Fact]
    public async Task Resonances_typed_alone_are_enough()
    {
        await _shop.EditPartAsync(_woofer, part =>
        {
            var data = (LoudspeakerData)part.Data;
            (data.ReOhms, data.Qes, data.Qms, data.Qts) = (3.4, 0.52, 6, null);
        });

        // By hand: 40/((28/22.885)² − 1) = 80.48 g; Bl = √(2π·28·0.08048·3.4/0.52) = 9.62 T·m.
        await KeepAsync(_shop.Desk, new DriverMeasurementForm { PartId = _woofer, ResonanceHertz = 28, Second = SecondSweep.AddedMass, AddedGrams = 40, AgainHertz = 22.885 });

        var data = await DataAsync();
        Assert.Equal(80.48, data.MmsGrams!.Value, 0.02);
        Assert.Equal(9.62, data.BlTeslaMeters!.Value, 0.01);
        Assert.Equal((0.52, null), (data.Qes, data.SourceOf(nameof(data.Qes))));
    }

    [Fact]
    public async Task Coils_measured_in_series_are_written_as_the_part_states_them()
    {
        await KeepAsync(_shop.Desk, (await WithMassAsync()) with { Coils = CoilsStated.CoilsInSeries });

        // Two in series have four times the ohms and twice the force factor of two side by side.
        var data = await DataAsync();
        Assert.Equal(CoilsStated.CoilsInParallel, data.CoilsStated);
        Assert.Equal(3.4 / 4, data.ReOhms!.Value, 1e-3);
        Assert.Equal(Real.BlTeslaMeters / 2, data.BlTeslaMeters!.Value, 5e-3);
        Assert.Equal((await DriverAsync()).Latest!.FreeAir!.Fit.LeastOhms / 2, data.MinimumOhms!.Value, 1e-3);
        Assert.Empty(DriverData.Complete(data, UnitText.Invariant)!.Findings);
    }

    [Fact]
    public async Task A_part_that_was_changed_meanwhile_is_looked_at_again()
    {
        var (form, version) = (await FreeAirAsync(), (await DriverAsync()).PartVersion);
        await _shop.EditPartAsync(_woofer, part => part.Notes = "Other");

        var outcome = await Measurements.KeepAsync(_shop.Desk, version, form, None);

        Assert.Contains("was changed meanwhile", outcome.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("20;3.5\n25;-4\n", "Line 2: -4 Ω is not accepted")]
    [InlineData("20;3.5\n25;NaN\n30;4", "Line 2: the ohms in column 2, “NaN”, is no number.")]
    [InlineData("20;3.5", "1 point is too few")]
    public async Task A_bad_file_is_told_by_its_line_and_nothing_is_kept(string text, string told)
    {
        var file = await FileAsync("bad.txt", Encoding.UTF8.GetBytes(text));
        var form = new DriverMeasurementForm { PartId = _woofer, FreeAir = new SweepFile(file, new ImpedanceLayout { Separator = ShopFloor.Engineering.Responses.ColumnSeparator.Semicolon }) };

        var study = await Measurements.StudyAsync(_shop.Technician, form, UnitText.Invariant, None);

        Assert.Contains(told, Assert.Single(study!.Problems).Message, StringComparison.Ordinal);
        Assert.False((await Measurements.KeepAsync(_shop.Desk, (await DriverAsync()).PartVersion, form, None)).Succeeded);
        Assert.Equal(33, (await DataAsync()).ResonanceHertz);
    }

    [Fact]
    public async Task Empty_and_large_files_are_refused_before_they_are_kept()
    {
        async Task<string> AddAsync(Stream stream) => (await _shop.Get<JobFiles>().AddAsync(_shop.Technician, _job, JobFileKind.ImpedanceTable, "sweep.txt", stream, None)).Message;

        Assert.Equal("'sweep.txt' is empty.", await AddAsync(new MemoryStream()));
        using var large = new Zeros(50L * 1024 * 1024);
        Assert.Equal("'sweep.txt' is larger than 4 MB, the most a table of impedance may have.", await AddAsync(large));
        // Reading stops where the limit is passed.
        Assert.InRange(large.Position, 0, ImpedanceFile.MostBytes + 200_000);
        Assert.Empty(await _shop.Get<JobFiles>().ListAsync(_shop.Technician, _job, null, None));
    }

    [Fact]
    public async Task A_file_of_another_job_or_kind_is_no_sweep()
    {
        var other = await _shop.OpenJobAsync();
        var elsewhere = await FileAsync("sweep.txt", Sweep(Real), other);
        var form = new DriverMeasurementForm { PartId = _woofer, FreeAir = new SweepFile(elsewhere, new ImpedanceLayout()) };

        Assert.NotNull((await Measurements.LookAsync(_shop.Desk, _job, elsewhere, None)).Problem);
        Assert.Contains("not on this job", Assert.Single((await Measurements.StudyAsync(_shop.Desk, form, UnitText.Invariant, None))!.Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_contradicts_is_told_by_how_much_and_of_two_coils_the_joining_that_fits_counts()
    {
        await KeepAsync(_shop.Desk, await WithMassAsync());
        await _shop.EditPartAsync(_woofer, part => ((LoudspeakerData)part.Data).Qts = 0.6);

        var data = await DataAsync();
        var rows = DriverData.Rows(data, DriverData.Complete(data, UnitText.Invariant)!);
        var told = rows.Single(row => row.Symbol == "Qts");
        Assert.Equal(DriverDatumState.Contradicts, told.State);
        Assert.Equal(0.4785 / 0.6 - 1, told.Off!.Value, 2e-3); // 0.52·6/6.52 against 0.6
        // 2.83 V at the two in series, 13.6 Ω, are 6.02 dB less than side by side.
        var parallel = DriverData.Complete(data, UnitText.Invariant)!.Filled.SensitivityDecibels!.Value;
        data.SensitivityDecibels = Math.Round(parallel - 6, 1);
        Assert.DoesNotContain(DriverData.Complete(data, UnitText.Invariant)!.Findings, finding => finding.Code == "driver-sensitivity-contradicts");
        data.SensitivityDecibels = Math.Round(parallel + 5, 1);
        Assert.Contains(DriverData.Complete(data, UnitText.Invariant)!.Findings, finding => finding is { Code: "driver-sensitivity-contradicts", Severity: Severity.Note });
    }

    private async Task<Guid> KeepAsync(Actor actor, DriverMeasurementForm form)
    {
        var outcome = await Measurements.KeepAsync(actor, (await DriverAsync()).PartVersion, form, None);
        return outcome.Must();
    }

    private async Task<MeasuredDriver> DriverAsync() => (await Measurements.GetAsync(_shop.Technician, _woofer, UnitText.Invariant, None))!;

    private async Task<LoudspeakerData> DataAsync() => (await DriverAsync()).Data;

    private async Task<ShopFloor.Engineering.Signal.Loads.LoadedChannel> ChannelAsync() =>
        Assert.Single((await _shop.Get<SignalPaths>().GetAsync(_shop.Desk, _job, UnitText.Invariant, None)).Channels).Levels.Channel;

    private async Task<DriverMeasurementForm> FreeAirAsync() => new() { PartId = _woofer, FreeAir = await SweepAsync("free.txt", Real) };

    private async Task<DriverMeasurementForm> WithMassAsync() => (await FreeAirAsync()) with
    {
        Second = SecondSweep.AddedMass, AddedGrams = 40, Again = await SweepAsync("mass.txt", Real with { MmsKilograms = Real.MmsKilograms + 0.04 }),
    };

    private async Task<SweepFile> SweepAsync(string name, DriverParameters driver)
    {
        var id = await FileAsync(name, Sweep(driver));
        return new SweepFile(id, (await Measurements.LookAsync(_shop.Technician, _job, id, None)).Proposal!.Layout!);
    }

    // A very large box is free air.
    private static byte[] Sweep(DriverParameters driver) => Encoding.UTF8.GetBytes("Hz\tOhm\tdeg\n" + string.Join('\n', EnclosureResponse.Over(driver, new ClosedBox { NetCubicMeters = 1e9 }, Air.Standard, 1, EnclosureResponse.LogSpaced(8, 500, 90))
        .Select(point => string.Create(CultureInfo.InvariantCulture, $"{point.Hertz:R}\t{point.ImpedanceOhms:R}\t{point.ImpedanceDegrees:R}"))));

    private async Task<Guid> FileAsync(string name, byte[] bytes, Guid? job = null)
    {
        using var stream = new MemoryStream(bytes);
        var outcome = await _shop.Get<JobFiles>().AddAsync(_shop.Technician, job ?? _job, JobFileKind.ImpedanceTable, name, stream, None);
        return outcome.Must();
    }

    private sealed class Zeros(long length) : Stream
    {
        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => length;

        public override long Position { get; set; }

        public override int Read(byte[] buffer, int offset, int count)
        {
            var read = (int)Math.Min(count, length - Position);
            Array.Clear(buffer, offset, read);
            Position += read;
            return read;
        }

        public override void Flush() => throw new NotSupportedException();

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}
