using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>
/// What each person did to the plan of each job since the program started, so that they can take it back. Kept in memory: the trail is the
/// record, this is a convenience of the day. A step knows the versions before and after it, so that taking it back never covers somebody else's edit.
/// </summary>
public sealed class PlanHistory
{
    /// <summary>The most steps of one person on one job.</summary>
    public const int MostSteps = 50;

    private const int MostHistories = 200;
    private readonly Lock _gate = new();
    private readonly Dictionary<(Guid? Person, Guid Job), Track> _tracks = [];
    private long _now;

    /// <summary>What undo and redo would do next.</summary>
    public PlanSteps Steps(Actor actor, Guid jobId)
    {
        lock (_gate)
        {
            return _tracks.TryGetValue((actor.Id, jobId), out var track)
                ? new PlanSteps(track.Done.LastOrDefault()?.Label, track.Undone.LastOrDefault()?.Label, track.Done.Count)
                : new PlanSteps(null, null, 0);
        }
    }

    internal void Did(Actor actor, Guid jobId, PlanStep step)
    {
        if (actor.Id is null)
        {
            return; // the program itself takes nothing back
        }

        lock (_gate)
        {
            var track = TrackOf(actor, jobId);
            track.Done.Add(step);
            track.Undone.Clear();
            if (track.Done.Count > MostSteps)
            {
                track.Done.RemoveAt(0);
            }
        }
    }

    /// <summary>Takes out the step to be undone or redone, so that a second press meets the one before it.</summary>
    internal PlanStep? Take(Actor actor, Guid jobId, bool undo)
    {
        lock (_gate)
        {
            var track = TrackOf(actor, jobId);
            var from = undo ? track.Done : track.Undone;
            if (from.Count == 0)
            {
                return null;
            }

            var step = from[^1];
            from.RemoveAt(from.Count - 1);
            return step;
        }
    }

    /// <summary>Notes that a step was undone or redone, which left its subject at another version with the same content as before.</summary>
    internal void Turned(Actor actor, Guid jobId, PlanStep step, bool undo, Guid version)
    {
        lock (_gate)
        {
            var track = TrackOf(actor, jobId);
            var same = undo ? step.Before : step.After;
            track.Rename(step.Subject, same, version);
            (undo ? track.Undone : track.Done).Add(undo ? step with { Before = version } : step with { After = version });
        }
    }

    private Track TrackOf(Actor actor, Guid jobId)
    {
        if (!_tracks.TryGetValue((actor.Id, jobId), out var track))
        {
            if (_tracks.Count >= MostHistories)
            {
                _tracks.Remove(_tracks.MinBy(pair => pair.Value.Used).Key);
            }

            _tracks[(actor.Id, jobId)] = track = new Track();
        }

        track.Used = ++_now;
        return track;
    }

    private sealed class Track
    {
        public List<PlanStep> Done { get; } = [];

        public List<PlanStep> Undone { get; } = [];

        public long Used { get; set; }

        public void Rename(string subject, Guid from, Guid to)
        {
            foreach (var steps in new[] { Done, Undone })
            {
                for (var at = 0; at < steps.Count; at++)
                {
                    if (steps[at].Subject == subject)
                    {
                        steps[at] = steps[at] with
                        {
                            Before = steps[at].Before == from ? to : steps[at].Before,
                            After = steps[at].After == from ? to : steps[at].After,
                        };
                    }
                }
            }
        }
    }
}

/// <param name="Undo">What undo would take back; null when there is nothing.</param>
/// <param name="Redo">What redo would do again; null when there is nothing.</param>
/// <param name="Count">Steps that can be taken back.</param>
public sealed record PlanSteps(string? Undo, string? Redo, int Count);

/// <summary>One edit of the plan.</summary>
/// <param name="Label">What was done, for example "Main run changed".</param>
/// <param name="Subject">What was edited; versions are compared within it.</param>
/// <param name="Before">Version before the edit; empty when nothing was stored yet.</param>
/// <param name="After">Version the edit left.</param>
internal abstract record PlanStep(string Label, string Subject, Guid Before, Guid After);

internal sealed record RunStep(string Label, string RunId, RunChoiceForm Old, RunChoiceForm New, Guid Before, Guid After)
    : PlanStep(Label, $"run {RunId}", Before, After);

internal sealed record SettingsStep(string Label, ElectricalSettingsForm Old, ElectricalSettingsForm New, Guid Before, Guid After)
    : PlanStep(Label, "settings", Before, After);

/// <param name="Added">Whether the part came onto the list; else it went off it.</param>
internal sealed record PartStep(string Label, Guid PartId, bool Added, Guid Before, Guid After)
    : PlanStep(Label, $"part {PartId}", Before, After);

internal sealed record PartNameStep(string Label, Guid PartId, string Old, string New, Guid Before, Guid After)
    : PlanStep(Label, $"part {PartId}", Before, After);
