using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What an edit does to the plan, told from the plan before and after it.</summary>
/// <param name="Lines">Most telling first; empty when no size, fuse, drop or mass changes.</param>
/// <param name="Worse">Whether it brings a stop finding that was not there before.</param>
public sealed record PlanEffect(IReadOnlyList<string> Lines, bool Worse)
{
    // Less than a screen shows.
    private const double LeastKilograms = 0.005;
    private const double LeastVolts = 0.005;

    /// <summary>In one line.</summary>
    public string Text => Lines.Count == 0 ? "No size, fuse or drop changes." : string.Join(" · ", Lines);

    /// <param name="runId">The run the edit was about; its drop is told too.</param>
    public static PlanEffect Between(ElectricalPlanView before, ElectricalPlanView after, string runId, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        var old = before.Runs.ToDictionary(run => run.Place.RunId);
        var lines = new List<string>();
        foreach (var run in after.Runs.OrderBy(run => run.Place.RunId != runId))
        {
            lines.AddRange(Changes(old.GetValueOrDefault(run.Place.RunId), run, run.Place.RunId == runId, text));
        }

        var left = after.Runs.Select(run => run.Place.RunId).ToHashSet();
        lines.AddRange(before.Runs.Where(run => !left.Contains(run.Place.RunId)).Select(run => $"{run.Place.Name} not needed"));
        if (before.Result is { } was && after.Result is { } now && Math.Abs(now.CableKilograms - was.CableKilograms) >= LeastKilograms)
        {
            var more = now.CableKilograms - was.CableKilograms;
            lines.Add($"cable {(more > 0 ? "+" : "−")}{text.Kilograms(Math.Abs(more))}");
        }

        var known = before.Findings.Where(finding => finding.Severity == Severity.Stop).Select(finding => (finding.Code, finding.SubjectId)).ToHashSet();
        var stops = after.Findings.Where(finding => finding.Severity == Severity.Stop && !known.Contains((finding.Code, finding.SubjectId))).ToList();
        lines.AddRange(stops.Select(stop => $"stop: {stop.Subject}: {stop.Text}"));
        return new PlanEffect(lines, stops.Count > 0);
    }

    private static IEnumerable<string> Changes(PlanRun? was, PlanRun now, bool subject, UnitText text)
    {
        var name = now.Place.Name;
        if (was?.Sizing is not { } old || now.Sizing is not { } sizing)
        {
            if (was is null && now.Sizing is { } added)
            {
                yield return $"{name} {added.Conductor.Label}, {Fuse(added.Fuse?.RatingAmperes, text)}";
            }
            else if (now.Place.IsFedByTheCar && was?.Place.IsFedByTheCar == false)
            {
                yield return $"{name} hangs on a circuit of the car and leaves the plan's sums";
            }
            else if (was?.Place.IsFedByTheCar == true && now.Sizing is { } own)
            {
                yield return $"{name} gets {own.Conductor.Label}, {Fuse(own.Fuse?.RatingAmperes, text)}";
            }

            yield break;
        }

        if (subject && was.Place.LengthMeters is { } wasLong && now.Place.LengthMeters is { } isLong && Math.Abs(wasLong - isLong) >= 0.005)
        {
            yield return $"{name} {text.Meters(wasLong)} → {text.Meters(isLong)}{(now.Place.LengthMeasured ? "" : " suggested")}";
        }

        if (old.Conductor.Label != sizing.Conductor.Label)
        {
            yield return $"{name} {old.Conductor.Label} → {sizing.Conductor.Label}";
        }

        if (old.Fuse?.RatingAmperes != sizing.Fuse?.RatingAmperes)
        {
            yield return $"{name} {Fuse(old.Fuse?.RatingAmperes, text)} → {(sizing.Fuse is { } fuse ? text.Amperes(fuse.RatingAmperes) : "none fits")}";
        }

        if (subject && was.Load?.MusicDrop is { } before && now.Load?.MusicDrop is { } after && Math.Abs(before.TotalVolts - after.TotalVolts) >= LeastVolts)
        {
            yield return $"drop on music {text.Volts(before.TotalVolts)} → {text.Volts(after.TotalVolts)}";
        }
    }

    private static string Fuse(double? amperes, UnitText text) => amperes is { } rating ? $"fuse {text.Amperes(rating)}" : "no fuse fits";
}
