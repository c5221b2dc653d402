using System.Globalization;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>The short names of wires and fuses on drawing, schedule, labels and papers: one count for all of them.</summary>
public static class RunMarks
{
    private const string FuseLetter = "F";

    /// <summary>W1, W2 … in the plan's order, by run; a run fed by a circuit of the car has none.</summary>
    public static IReadOnlyDictionary<string, string> Wires(IEnumerable<PlanRun> runs) =>
        Numbered(runs.Where(run => !run.Place.IsFedByTheCar), "W");

    /// <summary>F1, F2 … in the plan's order, by run; a run without a fuse has none.</summary>
    public static IReadOnlyDictionary<string, string> Fuses(IEnumerable<PlanRun> runs) =>
        Numbered(runs.Where(run => run.Sizing?.Fuse is not null), FuseLetter);

    /// <summary>The mark of a fuse by its number, from 1.</summary>
    public static string Fuse(int number) => Mark(FuseLetter, number);

    private static string Mark(string letter, int number) => letter + number.ToString(CultureInfo.InvariantCulture);

    private static Dictionary<string, string> Numbered(IEnumerable<PlanRun> runs, string letter) => runs
        .Select((run, index) => (run.Place.RunId, Mark: Mark(letter, index + 1)))
        .ToDictionary(pair => pair.RunId, pair => pair.Mark);
}
