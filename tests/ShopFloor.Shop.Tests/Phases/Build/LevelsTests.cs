using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Handover;

namespace ShopFloor.Shop.Tests.Phases.Build;

/// <summary>Levels of the gain sheet measured in the stage of tuning: 100 W into 4 Ω ask for √(100 · 4) = 20 V, a driver that bears 40 W for √(40 · 4) = 12.65 V.</summary>
public sealed class LevelsTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;
    private Guid _amplifier;

    private MeasuredValues Measured => _shop.Get<MeasuredValues>();

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
        _amplifier = await _shop.AddPartAsync(_job, PartBuilder.Amplifier(part => part.Data = new AmplifierData { Channels = 2, WattsAtFourOhms = 100 }));
        var bears = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Loudspeaker, "Midrange", new LoudspeakerData { NominalOhms = 4, Coils = 1, RatedWatts = 40 }));
        var strong = await _shop.AddPartAsync(_job, PartBuilder.Of(PartKind.Loudspeaker, "Woofer", new LoudspeakerData { NominalOhms = 4, Coils = 1, RatedWatts = 300, LowPassHertz = 80 }));
        foreach (var (to, output) in new[] { (bears, 0), (strong, 1) })
        {
            (await _shop.Get<SignalLinks>().LinkAsync(
                _shop.Desk, _job, SignalKind.Sound, to, 0, Guid.Empty, new SignalLinkForm { FromPartId = _amplifier, FromOutput = output, LengthMeters = 0.05, Awg = "8" }, None)).Must();
        }
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task Each_channel_of_the_gain_sheet_is_a_value_to_measure_with_the_tone_to_play()
    {
        var rows = (await SheetAsync()).Rows;

        Assert.Equal([12.65, 20.0], rows.Select(row => Math.Round(row.Point.Predicted!.Value, 2)), (one, other) => Math.Abs(one - other) < 0.02);
        Assert.All(rows, row => Assert.StartsWith("gain:", row.Point.Id, StringComparison.Ordinal));
        Assert.Contains("1000\u00a0Hz", rows[0].Point.How, StringComparison.Ordinal);
        Assert.Contains("Woofer", rows[1].Point.Name, StringComparison.Ordinal);
    }

    // Half a decibel: a factor of 1.0593 to both sides. 12.65 V: 11.94 V to 13.40 V.
    [Theory]
    [InlineData(0, 12.6, null, null)]
    [InlineData(0, 11.5, "level-outside", Severity.Warn)]
    [InlineData(0, 14, "level-overpowers", Severity.Stop)]
    [InlineData(1, 22, "level-clips", Severity.Stop)]
    public async Task A_level_that_is_off_warns_and_one_that_harms_stops(int channel, double volts, string? code, Severity? severity)
    {
        await EnterAsync(channel, volts);

        var sheet = await SheetAsync();

        Assert.Equal(code, sheet.Values.SingleOrDefault()?.Finding.Code);
        Assert.Equal(severity, sheet.Values.SingleOrDefault()?.Finding.Severity);
        Assert.Equal(severity != Severity.Stop, sheet.MayFinish);
    }

    [Fact]
    public async Task Repeats_are_kept_and_the_last_that_stands_counts()
    {
        await EnterAsync(0, 14);
        await EnterAsync(0, 12.6);
        var row = (await SheetAsync()).Rows[0];
        Assert.Equal((2, MeasuredVerdict.Within), (row.Entries.Count, row.Verdict));

        (await Measured.UndoAsync(_shop.Technician, Guid.CreateVersion7(), row.Current!.Id, None)).Must();

        row = (await SheetAsync()).Rows[0];
        Assert.Equal((2, 14.0), (row.Entries.Count, row.Current!.Value));
    }

    [Fact]
    public async Task What_no_meter_shows_is_refused_by_name_and_range()
    {
        var refused = await EnterAsync(0, 1_300);

        Assert.Contains("a meter shows 0 to 200 V", refused.Message, StringComparison.Ordinal);
        Assert.Empty((await SheetAsync()).Rows[0].Entries);
    }

    [Fact]
    public async Task The_tolerance_is_set_with_the_budgets()
    {
        await EnterAsync(0, 11.5);
        (await _shop.Get<BudgetPlans>().EditSettingsAsync(_shop.Desk, _job, Guid.Empty, new BudgetSettingsForm { GainToleranceDecibels = 1 }, None)).Must();

        // 1 dB is a factor of 1.122: 11.27 V are accepted.
        Assert.Empty((await SheetAsync()).Values);
        Assert.False((await _shop.Get<BudgetPlans>().EditSettingsAsync(_shop.Desk, _job, Guid.Empty, new BudgetSettingsForm { GainToleranceDecibels = 5 }, None)).Succeeded);
    }

    [Fact]
    public async Task Tuning_is_held_at_its_last_tick_by_a_level_that_harms_until_it_is_set_again()
    {
        await _shop.PlanAsync(_job, StageBuilder.Stage("Tuning", StageBuilder.Step("Levels set")) with { Phase = JobPhase.Tuning });
        var step = (await _shop.SheetAsync(_job)).Stages[0].Steps[0].Id;
        await EnterAsync(1, 24);

        var refused = await TickAsync(step);

        Assert.Contains("Tuning cannot be finished", refused.Message, StringComparison.Ordinal);
        Assert.Contains("clips", refused.Message, StringComparison.Ordinal);
        await EnterAsync(1, 20);
        (await TickAsync(step)).Must();
    }

    [Fact]
    public async Task The_owner_lets_a_level_stand_in_writing_and_the_car_may_go_back_with_it()
    {
        await EnterAsync(1, 24);
        var finding = Assert.Single((await SheetAsync()).Values).Finding;
        Assert.Contains((await GateAsync()).Standing, gated => gated.Finding.Code == "level-clips");

        (await Measured.SignOffAsync(_shop.Owner, _job, finding.Code, [new ReadFinding(finding.SubjectId, finding.Text)], "The client asked for it and knows.", None)).Must();

        Assert.True((await SheetAsync()).MayFinish);
        Assert.DoesNotContain((await GateAsync()).Standing, gated => gated.Finding.Code == "level-clips");
    }

    [Fact]
    public async Task Levels_nobody_measured_are_told_once_before_delivery_where_there_is_a_stage_of_tuning()
    {
        Assert.DoesNotContain((await GateAsync()).Findings, gated => gated.Finding.Code == "levels-missing");
        await _shop.PlanAsync(_job, StageBuilder.Stage("Tuning", StageBuilder.Step()) with { Phase = JobPhase.Tuning });
        await EnterAsync(0, 12.6);

        var missing = Assert.Single((await GateAsync()).Findings, gated => gated.Finding.Code == "levels-missing").Finding;

        Assert.Equal(Severity.Warn, missing.Severity);
        Assert.StartsWith("1 of 2", missing.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Table_and_handover_carry_target_and_measured_side_by_side()
    {
        await EnterAsync(0, 12.8);

        var table = await _shop.Get<SignalTables>().GetAsync(_shop.Technician, _job, None);
        var handover = (await _shop.Get<Handovers>().FactsAsync(_shop.Desk, _job, None)).Signal!;

        Assert.Equal(12.8, table!.Channels[0].MeasuredVolts);
        // 20·log10(12.8/12.65) = 0.10 dB, less a little for the cable.
        Assert.Equal(0.1, table.Channels[0].MeasuredDecibels!.Value, 1);
        Assert.Null(table.Channels[1].MeasuredVolts);
        Assert.Equal(["L1", "L2"], table.Connections.Select(row => row.Mark).Where(mark => mark.StartsWith('L')));
        Assert.Equal([(MeasuredVerdict.Within, (double?)12.8), (MeasuredVerdict.Missing, null)], handover.Levels.Select(fact => (fact.Verdict, fact.Value)));
        Assert.Equal(table.Connections, handover.Connections);
        var gains = System.Text.Encoding.UTF8.GetString(SignalTables.GainsCsv(table)).Split('\n');
        Assert.Contains("target_v,lowest_v,highest_v", gains[0], StringComparison.Ordinal);
        Assert.Contains(",12.80,", gains[1], StringComparison.Ordinal);
        Assert.Equal(1 + table.Connections.Count, System.Text.Encoding.UTF8.GetString(SignalTables.ConnectionsCsv(table)).Split('\n', StringSplitOptions.RemoveEmptyEntries).Length);
    }

    private Task<MeasuredSheet> SheetAsync() => Measured.LevelsAsync(_shop.Technician, _job, UnitText.Invariant, None);

    private Task<GateReport> GateAsync() => _shop.Get<DeliveryGate>().ReportAsync(_shop.Desk, _job, None);

    private async Task<Outcome<Done>> EnterAsync(int channel, double volts) =>
        await Measured.EnterAsync(_shop.Technician, Guid.CreateVersion7(), new EnterMeasured(_job, (await SheetAsync()).Rows[channel].Point.Id, volts), null, None);

    private Task<Outcome<Done>> TickAsync(Guid step) => _shop.Get<StageWork>().TickAsync(_shop.Technician, Guid.CreateVersion7(), new TickStep(step), null, None);
}
