using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>Splits the drop allowed from battery to load between the main run and the branches.</summary>
/// <remarks>
/// The limit holds for main run and branch together. What body returns take is set aside first; the rest is shared in proportion to
/// conductor length, using the longest branch, which takes the least copper when branches are alike. The main run gets less when a branch could not keep the limit otherwise. Branches that
/// could not keep it behind the thickest main run either are left out of this. Each branch may then use all that the chosen main run leaves.
/// </remarks>
internal static class DropShare
{
    /// <summary>Budget of the main run.</summary>
    /// <param name="main">The main run.</param>
    /// <param name="branches">Branches behind it, each with the whole limit as its budget.</param>
    /// <param name="limitVolts">Drop allowed from battery to load and back, V.</param>
    /// <param name="text">How numbers are written.</param>
    public static RunBudget ForMain(RunSizingInput main, IReadOnlyList<RunSizingInput> branches, double limitVolts, UnitText text)
    {
        var whole = Whole(limitVolts);
        var mainRun = new RunCase(main, whole);
        var leastMain = LeastDrop(mainRun);
        // A branch that would miss the limit behind the thickest main run too is reported, not paid for with copper elsewhere.
        var runs = branches.Select(b => new RunCase(b, whole)).Where(r => LeastDrop(r) + leastMain <= limitVolts).ToList();
        var longest = runs.Select(r => r.ConductorMeters).DefaultIfEmpty(0).Max();
        var mainBody = mainRun.BodyOhms * mainRun.DropAmperes;
        var branchBody = runs.Select(r => r.BodyOhms * r.DropAmperes).DefaultIfEmpty(0).Max();
        var ratio = mainRun.ConductorMeters / (mainRun.ConductorMeters + longest);
        var share = mainBody + Math.Max(0, limitVolts - mainBody - branchBody) * ratio;
        var needed = runs.Select(LeastDrop).DefaultIfEmpty(0).Max();
        var choose = Math.Min(share, limitVolts - needed);
        var step = new ExplainedStep(
            "Share of the drop for the main run", "U_main = U_body + (U_limit − U_body,all) · L_main / (L_main + L_longest branch), less when a branch needs more",
            $"{text.Number(limitVolts)} V, {text.Number(mainRun.ConductorMeters)} m and {text.Number(longest)} m of conductor, body returns {text.Number(mainBody + branchBody)} V",
            text.Volts(choose), "rule of this program: shared by length, total kept within the limit");
        return whole with { ChooseVolts = choose, LimitName = "Voltage drop of the main run within the whole limit", Step = step };
    }

    /// <summary>Budget of a branch behind a chosen main run.</summary>
    public static RunBudget ForBranch(double limitVolts, double mainVolts, UnitText text)
    {
        var left = limitVolts - mainVolts;
        var step = new ExplainedStep(
            "Drop left for the branch", "U_branch = U_limit − U_main", $"{text.Number(limitVolts)} − {text.Number(mainVolts)}",
            text.Volts(left), "total from battery to load kept within the limit");
        return new RunBudget(left, left, "Voltage drop of the branch within what the main run leaves", false, step);
    }

    /// <summary>Budget of a run that has the whole limit to itself.</summary>
    public static RunBudget Whole(double limitVolts) =>
        new(limitVolts, limitVolts, "Voltage drop there and back", false, null);

    /// <summary>Drop of the thickest size that may be used, or of the size chosen by hand.</summary>
    private static double LeastDrop(RunCase run)
    {
        var row = run.Input.Run.ForcedSize is { } forced ? run.Input.Rules.Table.Row(forced)! : run.Sizes[^1];
        return run.Drop(row, run.DropAmperes).Volts;
    }
}
