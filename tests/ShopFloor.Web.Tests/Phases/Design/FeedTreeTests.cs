using System.Globalization;
using ShopFloor.Documents.Diagrams;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Web.Phases.Design;

namespace ShopFloor.Web.Tests.Phases.Design;

public sealed class FeedTreeTests
{
    private static readonly UnitText Text = new(ShopFloor.Engineering.Units.UnitSystem.Metric, CultureInfo.InvariantCulture);

    [Fact]
    public void Loads_hang_on_the_distribution_or_on_the_battery_as_the_plan_says()
    {
        var tree = FeedTree.Of(Plan(), Text)!;

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

        var tree = FeedTree.Of(plan with { Findings = [Found(Severity.Stop, "main-run"), Found(Severity.Warn, "main-run"), Found(Severity.Note, "fan")] }, Text)!;

        Assert.Equal(new FeedMark(FeedMarkKind.Stop, "2 findings"), tree.Runs[0].Mark);
        Assert.Null(tree.Runs[1].Mark);
    }

    [Fact]
    public void A_plan_without_runs_has_no_drawing() => Assert.Null(FeedTree.Of(Plan() with { Runs = [] }, Text));

    private static ElectricalPlanView Plan()
    {
        var input = new ElectricalPlanInput
        {
            Main = new RunData { LengthMeters = 4.1 },
            Loads =
            [
                new() { Id = "amp", Name = "Amplifier", Kind = LoadKind.Fixed, Fixed = new FixedLoad { RatedAmperes = 50 }, Branch = new RunData { LengthMeters = 1 } },
                new() { Id = "fan", Name = "Fan", Kind = LoadKind.Fixed, Fixed = new FixedLoad { RatedAmperes = 1 }, ConnectedTo = LoadConnection.Battery, Branch = new RunData { LengthMeters = 2 } },
            ],
        };
        var result = ElectricalPlan.Compute(input);
        PlanRun Run(string id, string name, string from, string to, double meters, RunFeed feed)
        {
            var load = result.Loads.FirstOrDefault(found => found.LoadId == id);
            return new PlanRun(new RunPlace(id, name, null, from, to, meters, false, new RunChoiceForm { Feed = feed }), Guid.Empty, id == "main-run" ? result.Main : load?.Branch, load);
        }

        return new ElectricalPlanView
        {
            JobId = Guid.Empty,
            Settings = new ElectricalSettingsForm(),
            SettingsVersion = Guid.Empty,
            DistributionPartId = null,
            Input = input,
            Result = result,
            Runs =
            [
                Run("main-run", "Main run", "engine-bay-left", "boot-floor-left", 4.1, RunFeed.Distribution),
                Run("amp", "Amplifier", "boot-floor-left", "boot-floor-right", 1, RunFeed.Distribution),
                Run("fan", "Fan", "engine-bay-left", "dash", 2, RunFeed.Battery),
            ],
            Findings = [],
        };
    }
}
