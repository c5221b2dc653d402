using System.Globalization;
using ShopFloor.Documents.Diagrams;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Vehicles;
using ShopFloor.Web.Phases.Design;

namespace ShopFloor.Web.Tests.Phases.Design;

public sealed class PlanDiagramTests
{
    private static readonly UnitText Text = new(ShopFloor.Engineering.Units.UnitSystem.Metric, CultureInfo.InvariantCulture);

    [Fact]
    public void Loads_hang_on_the_distribution_or_on_the_battery_as_the_plan_says()
    {
        var tree = PlanDiagram.Of(Plan(), Text)!;

        Assert.Equal(["Distribution", "Fan"], tree.Runs.Select(run => run.To.Label));
        Assert.Equal("Amplifier", Assert.Single(tree.Runs[0].To.Runs).To.Label);
        Assert.StartsWith("F1 ", tree.Runs[0].Fuse, StringComparison.Ordinal);
        Assert.Contains("4.1\u00A0m (suggested)", string.Join(' ', tree.Runs[0].Lines), StringComparison.Ordinal);
    }

    [Fact]
    public void A_run_with_a_stop_is_marked_and_notes_are_not()
    {
        var plan = Plan();
        Finding Found(Severity severity, string subject) => new("code", severity, subject, "", "", "", "");

        var tree = PlanDiagram.Of(plan with { Findings = [Found(Severity.Stop, "main-run"), Found(Severity.Warn, "main-run"), Found(Severity.Note, plan.Runs[2].Place.RunId)] }, Text)!;

        Assert.Equal(new FeedMark(FeedMarkKind.Stop, "2 findings"), tree.Runs[0].Mark);
        Assert.Null(tree.Runs[1].Mark);
    }

    [Fact]
    public void What_was_sized_without_a_finding_is_fine_and_what_was_not_sized_is_not()
    {
        var plan = new SomePlan();
        plan.Load("Amplifier", 50);
        plan.Hang(plan.Load("Lamp", 1), FeedSources.VehicleCircuit);

        var loads = PlanDiagram.ForEditing(plan.View(), Text).SelectMany(Below).ToDictionary(node => node.Label);

        Assert.NotNull(loads["Amplifier"].Mark);
        Assert.Null(loads["Lamp"].Mark);

        static IEnumerable<FeedNode> Below(FeedNode node) => node.Runs.SelectMany(run => Below(run.To).Prepend(run.To));
    }

    [Fact]
    public void What_is_not_placed_stands_apart_in_the_edited_drawing_as_in_the_outline()
    {
        var plan = new SomePlan();
        plan.Load("Amplifier", 50);
        plan.Load("Lamp", 1, zone: "");
        plan.Load("Unknown box", null);
        plan.Hang(plan.Load("Fan", 1, zone: ""), FeedSources.Battery);
        var view = plan.View();

        var roots = PlanDiagram.ForEditing(view, Text);
        var rows = FeedOutline.Of(view, Text);

        Assert.Equal(("Not placed yet", PlanDiagram.KeyOf(PlanDiagram.WaitingId)), (roots[^1].Label, roots[^1].Key));
        Assert.Equal(["Lamp", "Unknown box"], roots[^1].Runs.Select(run => run.To.Label));
        Assert.Equal(["Lamp", "Unknown box"], rows.Where(row => row.Parent == FeedOutline.WaitingId).Select(row => row.Name));
        // A source was said for the fan, so it hangs there in both.
        Assert.Contains(roots[0].Runs, run => run.To.Label == "Fan");
        Assert.Equal(FeedSources.Battery, rows.Single(row => row.Name == "Fan").Parent);
    }

    [Fact]
    public void A_plan_without_runs_has_no_drawing() => Assert.Null(PlanDiagram.Of(Plan() with { Runs = [] }, Text));

    [Fact]
    public void A_release_is_compared_with_the_plan_of_today_run_by_run()
    {
        var then = Plan();
        var released = new ReleasedPlan(1, "Dana", default, then.Input!, then.Result!);
        var input = then.Input! with { Loads = [then.Input!.Loads[0] with { Branch = then.Input.Loads[0].Branch with { LengthMeters = 3 } }] };
        var result = ElectricalPlan.Compute(input);
        var now = then with { Runs = [then.Runs[0] with { Sizing = result.Points[0].Run }, then.Runs[1] with { Sizing = result.Loads[0].Branch }] };

        Assert.All(ReleasedRuns.Compare(released, then, Text), run => Assert.Equal("", run.Now));
        var rows = ReleasedRuns.Compare(released, now, Text);

        Assert.Contains("3\u00A0m", rows[1].Now, StringComparison.Ordinal);
        Assert.Equal("no longer in the plan", rows[2].Now);
    }

    private static ElectricalPlanView Plan()
    {
        var vehicle = new Vehicle(Guid.CreateVersion7(), new VehicleDetails { Make = "Verano", Model = "Lince" }, DateTimeOffset.UnixEpoch);
        List<JobPart> parts = [.. new[] { Part("Amplifier", 50), Part("Fan", 1) }.Select((details, order) => new JobPart(Guid.Empty, details, null, order))];
        var settings = new ElectricalSettingsForm();
        var basis = ElectricalPlanBuilder.Build(parts, vehicle, settings, new Dictionary<string, RunChoiceForm> { [parts[1].Id.ToString()] = new() { From = FeedSources.Battery } });
        var result = ElectricalPlan.Compute(basis.Input!);
        return new ElectricalPlanView
        {
            JobId = Guid.Empty,
            Settings = settings,
            SettingsVersion = Guid.Empty,
            Sources = basis.Sources,
            Input = basis.Input,
            Result = result,
            Runs = [.. basis.Runs.Select(place =>
            {
                var load = result.Loads.FirstOrDefault(found => found.LoadId == place.RunId);
                return new PlanRun(place, Guid.Empty, load?.Branch ?? result.Points.FirstOrDefault(found => found.PointId == place.RunId)?.Run, load);
            })],
            Findings = [],
        };
    }

    private static JobPartDetails Part(string name, double amperes) => new()
    {
        Kind = PartKind.Accessory,
        Name = name,
        Quantity = 1,
        Zone = VehicleZones.BootFloorRight,
        Data = new AccessoryData { WorkingAmperes = amperes },
    };
}
