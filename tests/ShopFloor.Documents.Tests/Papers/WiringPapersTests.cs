using ShopFloor.Documents.Tests.Drawing;
using ShopFloor.Documents.Wiring;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Safety;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Documents.Tests.Papers;

/// <summary>The wiring sheet and its labels drawn as PDF and read back.</summary>
public sealed class WiringPapersTests
{
    [Fact]
    public void The_bench_reads_the_order_of_disconnecting_the_airbags_on_the_way_and_what_to_measure()
    {
        var schedule = Schedule() with { Safety = new SupplySafety(true, [WorkSafety.Battery("AGM")]) };
        MeasuredFact[] measured =
        [
            new("Voltage at the amplifier under load", "V", "Engine idling", 13.52, 13.61, false, 13.1, 15, MeasuredVerdict.Within, "Tom Tech"),
            new("Current with the car asleep", "mA", "Locked", null, 4.4, true, 0, 50, MeasuredVerdict.Missing, ""),
        ];

        using var pdf = DrawnPdf.Of(WiringDocument.Compose(schedule, measured));

        foreach (var expected in new[] { "service disconnect", "Memory saver", "negative terminal", "Learned again", "belt tensioner", "vents hydrogen", "13.52", "13.1 to 15.0", "at least", "________", "not measured" })
            Assert.Contains(expected, pdf.Text, StringComparison.Ordinal);
        Assert.True(pdf.Text.IndexOf("Memory saver", StringComparison.Ordinal) < pdf.Text.IndexOf("Learned again", StringComparison.Ordinal));
    }

    [Fact]
    public void The_sheet_names_every_wire_with_both_ends_and_every_fuse()
    {
        using var pdf = DrawnPdf.Of(WiringDocument.Compose(Schedule()));

        foreach (var text in (string[])["Wires", "W1", "Battery (Engine bay, left)", "ring terminal", "4.40 m (14.4 ft)", "F1", "125", "Cut from", "Spares to leave in the car", "Single-line diagram"])
            Assert.Contains(text, pdf.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Not to be built from yet", pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_plan_with_a_stop_is_not_to_be_built_from()
    {
        var stop = new Finding("fuse-above-ampacity", Severity.Stop, "main-run", "Main run", "The fuse is too large.", "", "");
        using var pdf = DrawnPdf.Of(WiringDocument.Compose(Schedule() with { Stops = [stop] }));

        Assert.Contains("Not to be built from yet", pdf.Text, StringComparison.Ordinal);
        Assert.Contains("The fuse is too large.", pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_wire_has_a_label_for_each_end_and_every_fuse_has_one()
    {
        var schedule = Schedule();
        var many = schedule with { Wires = [.. Enumerable.Range(1, 40).Select(number => schedule.Wires[0] with { Mark = $"W{number}" })] };
        using var pdf = DrawnPdf.Of(LabelDocument.Compose(many));

        Assert.True(pdf.Pages.Count > 1);
        foreach (var wire in many.Wires)
            Assert.Equal(2, pdf.Pages.SelectMany(page => page.GetWords()).Count(word => word.Text == wire.Mark));
        Assert.Contains("Distribution", pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_schedule_without_wires_still_prints()
    {
        var empty = Schedule() with { Wires = [], Fuses = [], Spares = [], ToCut = [] };
        using var sheet = DrawnPdf.Of(WiringDocument.Compose(empty));
        using var labels = DrawnPdf.Of(LabelDocument.Compose(empty));

        Assert.Contains("No run is sized yet.", sheet.Text, StringComparison.Ordinal);
        Assert.NotEmpty(labels.Pages);
    }

    private static WiringSchedule Schedule()
    {
        var vehicle = new Vehicle(Guid.CreateVersion7(), new VehicleDetails { Make = "Verano", Model = "Lince" }, DateTimeOffset.UnixEpoch);
        var part = new JobPart(Guid.Empty, new JobPartDetails { Kind = PartKind.Accessory, Name = "Amplifier", Quantity = 1, Zone = VehicleZones.BootFloorRight, Data = new AccessoryData { WorkingAmperes = 90 } }, null, 0);
        var settings = new ElectricalSettingsForm();
        var basis = ElectricalPlanBuilder.Build([part], vehicle, settings, new Dictionary<string, RunChoiceForm>());
        var result = ElectricalPlan.Compute(basis.Input!);
        var plan = new ElectricalPlanView
        {
            JobId = Guid.Empty,
            Settings = settings,
            SettingsVersion = Guid.Empty,
            Sources = basis.Sources,
            Input = basis.Input,
            Result = result,
            Runs = [.. basis.Runs.Select(place => new PlanRun(place, Guid.Empty, place.PartId is null ? result.Points[0].Run : result.Loads[0].Branch, place.PartId is null ? null : result.Loads[0]))],
            Findings = [],
        };
        var wire = new WireRow(
            "W1", "main-run", "Main run", "Battery (Engine bay, left)", "Distribution (Boot floor, left)", "2 AWG", 33.6, 80, "red", 4.4, false, false, "ring terminal", "ferrule", "F1", "left sill", "");
        return new WiringSchedule(
            SampleJob.Letterhead, "J-0042", "Clear voices, deep bass", "2028 Verano Lince", plan, 0.3, [wire], [new FuseRow("F1", 125, "small bolt-in", "Battery", "Main run", 0.3)], [new SpareFuse(10, "blade")],
            [new WireToCut("2 AWG", 33.6, 80, "red", 4.4, 1)], [], result.Cautions);
    }
}
