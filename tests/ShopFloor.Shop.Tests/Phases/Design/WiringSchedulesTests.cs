using System.Text;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Shop.Tests.Phases.Design;

public sealed class WiringSchedulesTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();
    private Guid _job;
    private Guid _amplifier;

    public async Task InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = await _shop.OpenJobAsync();
        _amplifier = await _shop.AddPartAsync(_job, PartBuilder.Amplifier());
    }

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task Every_conductor_has_a_mark_a_colour_a_length_to_cut_and_its_ends()
    {
        var schedule = await ReadAsync();

        // The main run comes back through the body; the branch has a return of its own.
        Assert.Equal(["W1", "W2", "W2R"], schedule.Wires.Select(wire => wire.Mark));
        Assert.Equal(["red", "red", "black"], schedule.Wires.Select(wire => wire.Colour));
        // 4.1 m suggested and 0.3 m for ends and loop.
        Assert.Equal(4.4, schedule.Wires[0].CutMeters, 9);
        Assert.Equal(("Battery (Engine bay, left)", "Distribution (Boot floor, left)"), (schedule.Wires[0].From, schedule.Wires[0].To));
        Assert.Equal((schedule.Wires[1].To, schedule.Wires[1].From), (schedule.Wires[2].From, schedule.Wires[2].To));
        Assert.Contains("measure before cutting", schedule.Wires[0].Notes, StringComparison.Ordinal);
        Assert.Equal(schedule.Wires.Sum(wire => wire.CutMeters), schedule.ToCut.Sum(wire => wire.Meters), 9);
    }

    [Fact]
    public async Task Marks_of_fuses_are_those_of_the_wires_they_protect()
    {
        var schedule = await ReadAsync();

        Assert.Equal(["F1", "F2"], schedule.Fuses.Select(fuse => fuse.Mark));
        Assert.Equal(["F1", "F2", ""], schedule.Wires.Select(wire => wire.FuseMark));
        Assert.Equal([null, 0.0], schedule.Fuses.Select(fuse => fuse.FromSourceMeters));
        // The main fuse is bolted in; the branch's is a plug-in one.
        Assert.Equal((schedule.Fuses[1].RatingAmperes, schedule.Fuses[1].Form), Assert.Single(schedule.Spares) is var spare ? (spare.RatingAmperes, spare.Form) : default);
    }

    [Fact]
    public async Task The_table_for_other_programs_reads_back_and_runs_nothing_in_a_spreadsheet()
    {
        var plans = _shop.Get<ElectricalPlans>();
        (await plans.EditChoiceAsync(_shop.Desk, _job, _amplifier.ToString(), Guid.Empty, new RunChoiceForm { LengthMeters = 1.2, Route = "=HYPERLINK(\"x\"), left sill" }, None)).Must();

        var text = Encoding.UTF8.GetString(WiringSchedules.Csv(await ReadAsync()));

        var lines = text.TrimEnd().Split('\n');
        Assert.Equal(4, lines.Length);
        Assert.StartsWith("\uFEFFwire,name,from,to,size,area_mm2", lines[0], StringComparison.Ordinal);
        Assert.Contains(",1.50,yes,", lines[2], StringComparison.Ordinal);
        Assert.Contains("'=HYPERLINK", lines[2], StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_part_on_a_circuit_of_the_car_has_no_wire_of_ours()
    {
        (await _shop.Get<ElectricalPlans>().EditChoiceAsync(_shop.Desk, _job, _amplifier.ToString(), Guid.Empty, new RunChoiceForm { From = FeedSources.VehicleCircuit }, None)).Must();

        var schedule = await ReadAsync();

        Assert.Empty(schedule.Wires);
        Assert.Empty(schedule.Fuses);
    }

    [Fact]
    public async Task A_job_that_is_not_there_has_no_schedule()
    {
        Assert.Null(await _shop.Get<WiringSchedules>().GetAsync(_shop.Technician, Guid.CreateVersion7(), UnitText.Invariant, None));
    }

    private async Task<WiringSchedule> ReadAsync() =>
        await _shop.Get<WiringSchedules>().GetAsync(_shop.Technician, _job, UnitText.Invariant, None) ?? throw new InvalidOperationException("The job is there.");
}
