using ShopFloor.Engineering.Electrical;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Tests.Phases.Design;

public sealed class OwnTablesTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();

    private OwnTables Tables => _shop.Get<OwnTables>();

    // Invented numbers, rounded from nothing: what is tested is how they are read and used.
    private static OwnTableForm Form => new()
    {
        Name = "Cable maker's sheet",
        Source = "Data sheet, edition 3",
        Cells = "size; 90; 105\n6 AWG; 60; 70\n4 AWG; 80,5; 95\n2 AWG; 110; 130\n1/0 AWG; 150; 175\n4/0 AWG; 230; 260",
        BundlingFactors = "3; 0,8",
    };

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Theory]
    [InlineData("size\t90\t105\n4 AWG\t80,5\t95")]
    [InlineData("size; 90 °C; 105 °C\n4 AWG; 80,5 A; 95 A")]
    [InlineData("size,90,105\n4 awg,80.5,95")]
    public void A_table_is_read_as_sheets_paste_it(string cells)
    {
        var (table, problems) = OwnTableText.Read(Form with { Cells = cells });

        Assert.Empty(problems);
        Assert.Equal([90.0, 105], table!.InsulationCelsius);
        Assert.Equal("4 AWG", Assert.Single(table.Rows).Conductor.Label);
        Assert.Equal([80.5, 95], table.Rows[0].Amperes);
        Assert.Equal(0.8, table.BundlingFactor(3));
    }

    [Theory]
    [InlineData("size; 90\n4; 80", nameof(OwnTableForm.Cells), "'4' is no size; write it with its unit")]
    [InlineData("size; 90; 105\n4 AWG; 80", nameof(OwnTableForm.Cells), "Row 1 (4 AWG): it has 1 currents; enter 2")]
    [InlineData("size; 90; 105\n4 AWG; 80; 70", nameof(OwnTableForm.Cells), "Row 1 (4 AWG), 105\u00a0°C column")]
    [InlineData("size; 90\n4 AWG; many", nameof(OwnTableForm.Cells), "Line 2 ('4 AWG'), column 2: 'many' is no number")]
    [InlineData("size; 90\n2 AWG; 110\n4 AWG; 80", nameof(OwnTableForm.Cells), "Row 2 (4 AWG): conductors must be in order")]
    [InlineData("", nameof(OwnTableForm.Cells), "The table needs a first line with the insulation classes")]
    public void What_is_wrong_is_named_by_row_and_column(string cells, string field, string message)
    {
        var problem = OwnTableText.Read(Form with { Cells = cells }).Problems[0];

        Assert.Equal(field, problem.Field);
        Assert.Contains(message, problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_source_is_demanded() =>
        Assert.Equal(nameof(OwnTableForm.Source), Assert.Single(OwnTableText.Read(Form with { Source = "" }).Problems).Field);

    [Fact]
    public void A_shipped_table_survives_being_written_out_and_read_back()
    {
        var shipped = PublishedTables.Cfr33Part183425;

        var table = OwnTableText.Read(OwnTableText.Write(shipped)).Table!;

        Assert.Equal(shipped.Rows.SelectMany(row => row.Amperes), table.Rows.SelectMany(row => row.Amperes));
        Assert.Equal(shipped.Rows.Select(row => row.Conductor), table.Rows.Select(row => row.Conductor));
        Assert.Equal(shipped.EngineSpaceFactors, table.EngineSpaceFactors);
        Assert.Equal(shipped.BundlingFactors, table.BundlingFactors);
    }

    [Fact]
    public async Task Only_the_owner_enters_tables_and_a_technician_reads_their_names()
    {
        await Assert.ThrowsAsync<NotAllowedException>(() => Tables.AddAsync(_shop.Desk, Form, None));
        (await Tables.AddAsync(_shop.Owner, Form, None)).Must();

        Assert.Equal("Cable maker's sheet", Assert.Single(await Tables.ListAsync(_shop.Technician, None)).Name);
    }

    [Fact]
    public async Task The_second_editor_gets_both_versions_and_two_tables_never_share_a_name()
    {
        var id = (await Tables.AddAsync(_shop.Owner, Form, None)).Must();
        var loaded = (await Tables.FindAsync(_shop.Owner, id, None))!;
        (await Tables.EditAsync(_shop.Owner, id, loaded.Version, Form with { Source = "Edition 4" }, None)).Must();

        var late = await Tables.EditAsync(_shop.Owner, id, loaded.Version, Form with { Source = "Edition 5" }, None);
        var twin = await Tables.AddAsync(_shop.Owner, Form, None);

        Assert.Equal("Edition 4", Assert.Single(late.Conflict!.Differences).Theirs);
        Assert.Equal(nameof(OwnTableForm.Name), Assert.Single(twin.Problems).Field);
    }

    [Fact]
    public async Task A_removed_table_stays_with_its_job_is_told_and_can_be_brought_back()
    {
        var (job, table) = await JobWithTableAsync();
        (await Tables.RemoveAsync(_shop.Owner, table, None)).Must();

        var view = await ViewAsync(job);
        Assert.Equal("Cable maker's sheet", view.Rules.Table.Name);
        Assert.Contains(view.Findings, finding => finding.Code == "table-removed");
        Assert.Empty(await Tables.ListAsync(_shop.Owner, None));

        (await Tables.BringBackAsync(_shop.Owner, table, None)).Must();
        Assert.DoesNotContain((await ViewAsync(job)).Findings, finding => finding.Code == "table-removed");
    }

    [Fact]
    public async Task A_released_plan_keeps_the_table_it_used()
    {
        var (job, table) = await JobWithTableAsync();
        (await _shop.Get<PlanReleases>().ReleaseAsync(_shop.Owner, job, "for this test", None)).Must();
        var loaded = (await Tables.FindAsync(_shop.Owner, table, None))!;
        (await Tables.EditAsync(_shop.Owner, table, loaded.Version, Form with { Cells = Form.Cells.Replace("80,5", "81", StringComparison.Ordinal) }, None)).Must();

        var released = (await _shop.Get<PlanReleases>().ReleasedAsync(_shop.Owner, job, 1, None))!;

        Assert.Equal(80.5, released.Input.Rules.Table.Amperes("4 AWG", 90));
        Assert.Equal(81, (await ViewAsync(job)).Rules.Table.Amperes("4 AWG", 90));
    }

    private async Task<(Guid Job, Guid Table)> JobWithTableAsync()
    {
        var job = await _shop.OpenJobAsync();
        await _shop.AddPartAsync(job, PartBuilder.Amplifier());
        var table = (await Tables.AddAsync(_shop.Owner, Form, None)).Must();
        (await _shop.Get<ElectricalPlans>().EditSettingsAsync(
            _shop.Desk, job, Guid.Empty, new ElectricalSettingsForm { Table = table.ToString(), InsulationCelsius = 105 }, None)).Must();
        return (job, table);
    }

    private Task<ElectricalPlanView> ViewAsync(Guid job) =>
        _shop.Get<ElectricalPlans>().GetAsync(_shop.Owner, job, ShopFloor.Engineering.Units.UnitText.Invariant, None);
}
