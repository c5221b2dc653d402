using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Sizing;

/// <summary>What is wrong with, or worth knowing about, a sized tree.</summary>
internal static class TreeFindings
{
    public static List<Finding> Blocked(IReadOnlyList<TreeBlocker> blockers, UnitText text)
    {
        var findings = new List<Finding>();
        foreach (var b in blockers)
        {
            var (code, what) = b.Limit switch
            {
                SizeDecision.VoltageDrop => ("drop-over-limit",
                    $"The drop at load \u201c{b.LoadId}\u201d is {text.Volts(b.Best)} with the best cables allowed; the limit is {text.Volts(b.Needed)}."),
                SizeDecision.MinimumSize => ("conductor-below-minimum",
                    $"The thickest cable allowed has {text.Number(b.Best)} mm²; at least {text.Number(b.Needed)} mm² is needed."),
                SizeDecision.FuseRating => ("fuse-above-ampacity",
                    $"The best to be had is {text.Amperes(b.Best)}; the fuse asks for {text.Amperes(b.Needed)}."),
                _ => ("no-size-carries", $"The best cable allowed carries {text.Amperes(b.Best)} here; {text.Amperes(b.Needed)} is needed."),
            };
            findings.Add(new Finding(code, Severity.Stop, b.LoadId is null ? b.RunId : $"{b.RunId}/{b.LoadId}", b.RunName, what, b.Help, "rules of the table and limits entered"));
        }

        return findings;
    }

    public static Finding NotProvenLeast(TreeModel model, double aboveLeast, UnitText text) => new(
        "not-proven-least", Severity.Note, model.Nodes[0].Run.Id, "Whole tree",
        $"So many runs follow each other that this set is not proven the least; it is at most {(model.Input.Objective == SizingObjective.Cost ? text.Number(aboveLeast) + " in price" : text.Kilograms(aboveLeast))} above it.",
        "Nothing has to be done; join runs that need no junction to have it proven.", "method of this program");

    public static List<Finding> Find(TreeModel model, IReadOnlyList<SizedTreeRun> runs, UnitText text)
    {
        var findings = new List<Finding>();
        for (var i = 0; i < runs.Count; i++)
            Find(findings, model.Nodes[i], runs[i], text);
        return findings;
    }

    private static void Find(List<Finding> findings, TreeNode node, SizedTreeRun sized, UnitText text)
    {
        var run = node.Run;
        void Add(string code, Severity severity, string what, string remedy, string source) =>
            findings.Add(new Finding(code, severity, run.Id, run.Name, what, remedy, source));

        if (sized.ProtectedByAmperes is null)
        {
            Add("unfused-run", Severity.Stop,
                $"No fuse protects {text.Meters(run.Route.LengthMeters!.Value)} of {sized.Conductor.Label}: a short circuit can set it on fire.",
                "Give it a fuse as close to its source as it can be.", FusePosition.SourceRule);
        }

        if (run.HasFuse && FusePosition.Find(Placement(node), text) is { } position)
            findings.Add(position);
        findings.AddRange(new[]
        {
            node.Fuse is { } fuse ? ConductorFindings.FuseBelowLoad(run.Id, run.Name, fuse.RatingAmperes, node.Continuous, node.MinimumFuse, text) : null,
            ConductorFindings.Clad(run.Id, run.Name, sized.Conductor, text),
            ConductorFindings.ReturnNotMeasured(run.Id, run.Name, run.Route, node.BodyOhms, text),
        }.OfType<Finding>());
        if (sized.SlackVolts is null)
            Add("run-feeds-nothing", Severity.Note, "Nothing is connected behind it; it got the least cable and fuse.", "Connect its load, or leave the run out.", Unsourced.CommonPractice);
    }

    private static FusePlacement Placement(TreeNode node) =>
        new(node.Run.Id, node.Run.Name, node.Parent < 0, node.Run.Route.SheathedWholeWay, node.Run.Route.SourceToFuseMeters);
}
