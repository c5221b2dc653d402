using System.Collections.Concurrent;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Phases.Tuning.Presets;

/// <summary>What lies on benches and is not kept as a version yet, per person and job, so that a reload or a lost link takes nothing. In memory, as undo of the plan is: a restart of the program takes it.</summary>
public sealed class BenchDrafts(TimeProvider time)
{
    private const int MostKept = 200;
    private readonly ConcurrentDictionary<(Guid Person, Guid Job), UnsavedBench> _kept = new();

    /// <summary>Changes of a person on a job that were not kept; null when there are none.</summary>
    public UnsavedBench? Find(Actor actor, Guid jobId) => actor.Id is { } person ? _kept.GetValueOrDefault((person, jobId)) : null;

    /// <param name="draft">Null when nothing is unsaved any more.</param>
    public void Set(Actor actor, Guid jobId, PresetDraft? draft)
    {
        if (actor.Id is not { } person)
        {
            return;
        }

        if (draft is null)
        {
            _kept.TryRemove((person, jobId), out _);
            return;
        }

        _kept[(person, jobId)] = new UnsavedBench(draft, time.GetUtcNow());
        if (_kept.Count > MostKept)
        {
            _kept.TryRemove(_kept.MinBy(one => one.Value.At));
        }
    }
}

/// <param name="At">When it was changed last.</param>
public sealed record UnsavedBench(PresetDraft Draft, DateTimeOffset At);
