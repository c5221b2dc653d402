using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Who feeds whom: the links of sound and turn-on of a job, decided one by one or suggested together.</summary>
public sealed class SignalLinks(ShopStore store)
{
    /// <summary>The links of a job, of both kinds.</summary>
    public Task<List<SignalLink>> ListAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(db => OfJob(db, jobId).ToListAsync(cancellationToken), cancellationToken);
    }

    /// <summary>Decides what feeds an input, or changes what was decided.</summary>
    public Task<Outcome<Guid>> LinkAsync(
        Actor actor, Guid jobId, SignalKind kind, Guid toPartId, int toInput, Guid expectedVersion, SignalLinkForm form, CancellationToken cancellationToken) =>
        ChangeAsync<Guid>(actor, jobId, async (db, parts) =>
        {
            var problems = form.Problems();
            if (problems.Count > 0)
            {
                return problems;
            }

            var links = await db.SignalLinks.Where(link => link.JobId == jobId && link.Kind == kind).ToListAsync(cancellationToken);
            if (Refused(parts, links, kind, toPartId, toInput, form) is { } refused)
            {
                return refused;
            }

            if (links.Find(link => link.ToPartId == toPartId && link.ToInput == toInput) is not { } stored)
            {
                return db.SignalLinks.Add(new SignalLink(jobId, kind, toPartId, toInput, form with { })).Entity.Id;
            }

            if (await db.ConflictAsync(stored, expectedVersion, form, stored.Form, cancellationToken) is { } conflict)
            {
                return conflict;
            }

            stored.Apply(form with { });
            return stored.Id;
        }, cancellationToken);

    /// <summary>Leaves an input open.</summary>
    /// <param name="expectedVersion">Version of the link as the person saw it.</param>
    public Task<Outcome<Done>> UnlinkAsync(Actor actor, Guid jobId, SignalKind kind, Guid toPartId, int toInput, Guid expectedVersion, CancellationToken cancellationToken) =>
        ChangeAsync<Done>(actor, jobId, async (db, _) =>
        {
            var stored = await db.SignalLinks.SingleOrDefaultAsync(
                link => link.JobId == jobId && link.Kind == kind && link.ToPartId == toPartId && link.ToInput == toInput, cancellationToken);
            if (stored is null)
            {
                return Done.Value;
            }

            if (await db.ConflictAsync(stored, expectedVersion, new SignalLinkForm(), stored.Form, cancellationToken) is { } conflict)
            {
                return conflict;
            }

            db.SignalLinks.Remove(stored);
            return Done.Value;
        }, cancellationToken);

    /// <summary>Feeds every input of a device from one other, output by output, and measures the way once for all of them.</summary>
    /// <param name="seen">Versions of the device's links as the person saw them.</param>
    /// <param name="fromPartId">Null takes the links away.</param>
    /// <returns>How many inputs stay open because the source has no output left for them; nothing else feeds them any more.</returns>
    public Task<Outcome<int>> FeedAsync(
        Actor actor, Guid jobId, Guid toPartId, IReadOnlyCollection<Guid> seen, Guid? fromPartId, double? lengthMeters, CancellationToken cancellationToken) =>
        FeedAsync(actor, jobId, toPartId, seen, fromPartId, lengthMeters, null, cancellationToken);

    /// <inheritdoc cref="FeedAsync(Actor, Guid, Guid, IReadOnlyCollection{Guid}, Guid?, double?, CancellationToken)"/>
    /// <param name="lies">How their cable lies; null keeps what was said of each.</param>
    public Task<Outcome<int>> FeedAsync(
        Actor actor, Guid jobId, Guid toPartId, IReadOnlyCollection<Guid> seen, Guid? fromPartId, double? lengthMeters, LinkLay? lies, CancellationToken cancellationToken) =>
        ChangeAsync<int>(actor, jobId, async (db, parts) =>
        {
            var links = await db.SignalLinks.Where(link => link.JobId == jobId && link.Kind == SignalKind.Sound).ToListAsync(cancellationToken);
            var mine = links.Where(link => link.ToPartId == toPartId).ToDictionary(link => link.ToInput);
            if (await ChangedAsync(db, [.. mine.Values], seen, new SignalLinkForm { FromPartId = fromPartId, LengthMeters = lengthMeters }, cancellationToken) is { } conflict)
            {
                return conflict;
            }

            if (fromPartId is not { } from)
            {
                db.SignalLinks.RemoveRange(mine.Values);
                return 0;
            }

            if (new SignalLinkForm { FromPartId = from, LengthMeters = lengthMeters }.Problems() is { Count: > 0 } problems)
            {
                return problems;
            }

            if (parts.Find(part => part.Id == from) is not { } source || parts.Find(part => part.Id == toPartId) is not { } device)
            {
                return new Problem("", "That part is no longer on the parts list.");
            }

            var outputs = SignalPorts.Outputs(source, SignalKind.Sound);
            // What is fed from there already keeps its output, as far as the source has it.
            var kept = mine.Values.Where(link => link.Form.FromPartId == from && link.Form.FromOutput < outputs).Select(link => link.ToInput).ToHashSet();
            var taken = links.Where(link => link.Form.FromPartId == from).Select(link => link.Form.FromOutput).ToHashSet();
            var free = new SoundQueue(source, device, taken.Contains);
            var inputs = SignalPorts.Inputs(device, SignalKind.Sound);
            if (inputs == 0 || (free.IsEmpty && kept.Count == 0))
            {
                return new Problem(nameof(fromPartId), inputs == 0
                    ? $"How many inputs {device.Name} has is not known; enter its channels on the parts list."
                    : $"{source.Name} has no output left; enter how many it has on the parts list, or take another.");
            }

            var open = 0;
            for (var input = 0; input < inputs; input++)
            {
                var link = mine.GetValueOrDefault(input);
                if (link is not null && kept.Contains(input))
                {
                    link.Apply(link.Form with { LengthMeters = lengthMeters, Lies = lies ?? link.Form.Lies });
                    continue;
                }

                if (!free.TryTake(input, out var next))
                {
                    open += free.Serves(input) ? 1 : 0;
                    if (link is not null)
                    {
                        db.SignalLinks.Remove(link);
                    }

                    continue;
                }

                var form = new SignalLinkForm { FromPartId = from, FromOutput = next.Output, LengthMeters = lengthMeters, Lies = lies ?? link?.Form.Lies ?? LinkLay.NotSaid };
                if (Refused(parts, links, SignalKind.Sound, toPartId, input, form) is { } refused)
                {
                    return refused;
                }

                if (link is null)
                {
                    db.SignalLinks.Add(new SignalLink(jobId, SignalKind.Sound, toPartId, input, form));
                }
                else
                {
                    link.Apply(form);
                }
            }

            return open;
        }, cancellationToken);

    /// <summary>Fills in what nobody decided yet in the way it is usually done; what was decided stays.</summary>
    /// <returns>How many links were added.</returns>
    public Task<Outcome<int>> SuggestAsync(Actor actor, Guid jobId, SignalKind kind, CancellationToken cancellationToken) =>
        ChangeAsync<int>(actor, jobId, async (db, parts) =>
        {
            var links = await db.SignalLinks.Where(link => link.JobId == jobId && link.Kind == kind).ToListAsync(cancellationToken);
            var added = SignalSuggestions.For(jobId, kind, parts, links);
            db.SignalLinks.AddRange(added);
            return added.Count;
        }, cancellationToken);

    internal static IQueryable<SignalLink> OfJob(ShopDbContext db, Guid jobId) =>
        db.SignalLinks.AsNoTracking().Where(link => link.JobId == jobId).OrderBy(link => link.ToInput).ThenBy(link => link.Id);

    private Task<Outcome<TValue>> ChangeAsync<TValue>(
        Actor actor, Guid jobId, Func<ShopDbContext, List<JobPart>, Task<Outcome<TValue>>> change, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return store.WriteAsync<TValue>(
            actor,
            async db => await JobLock.ProblemAsync(db, jobId, cancellationToken) is { } locked
                ? locked
                : await change(db, await PartsList.InOrder(db, jobId).AsNoTracking().Where(part => part.Direction == PartDirection.Installed).ToListAsync(cancellationToken)),
            cancellationToken);
    }

    private static async Task<EditConflict?> ChangedAsync(ShopDbContext db, List<SignalLink> stored, IReadOnlyCollection<Guid> seen, SignalLinkForm mine, CancellationToken cancellationToken)
    {
        if (stored.Find(link => !seen.Contains(link.Version)) is { } changed)
        {
            return await db.ConflictAsync(changed, Guid.Empty, mine, changed.Form, cancellationToken);
        }

        // One that was seen is gone, and with it who took it away.
        return seen.Count > stored.Count ? new EditConflict("What feeds it", "somebody", default, Guid.Empty, []) : null;
    }

    private static Problem? Refused(List<JobPart> parts, List<SignalLink> links, SignalKind kind, Guid toPartId, int toInput, SignalLinkForm form)
    {
        if (parts.Find(part => part.Id == toPartId) is not { } to)
        {
            return new Problem("", "That part is no longer on the parts list.");
        }

        var inputs = SignalPorts.Inputs(to, kind);
        if (toInput < 0 || toInput >= inputs)
        {
            return new Problem("", $"{to.Name} has {inputs} inputs; input {toInput + 1} is not one of them.");
        }

        if (form.FromPartId is { } fromId)
        {
            if (parts.Find(part => part.Id == fromId) is not { } from)
            {
                return new Problem(nameof(form.FromPartId), "What it is to come from is no longer on the parts list.");
            }

            var outputs = SignalPorts.Outputs(from, kind);
            if (form.FromOutput >= outputs)
            {
                return new Problem(nameof(form.FromOutput), $"{from.Name} has {outputs} outputs for this; output {form.FromOutput + 1} is not one of them.");
            }

            if (Reaches(links, toPartId, fromId))
            {
                return new Problem(nameof(form.FromPartId), $"{from.Name} gets it from {to.Name} itself; a circle has no beginning.");
            }
        }

        if (to.Data is LoudspeakerData data && SignalPorts.Coils(data) is > 1 and var coils)
        {
            var unit = toInput / coils;
            var others = links.Where(link => link.ToPartId == toPartId && link.ToInput / coils == unit && link.ToInput != toInput).ToList();
            if (form.Coils != CoilUse.OneCoil && (toInput % coils != 0 || others.Count > 0))
            {
                return new Problem(nameof(form.Coils), "Another coil of this loudspeaker is fed on its own; take that link away first.");
            }

            if (others.Exists(link => link.Form.Coils != CoilUse.OneCoil))
            {
                return new Problem(nameof(form.Coils), "All coils of this loudspeaker are fed together already.");
            }
        }

        return null;
    }

    // Whether what leaves a part arrives at another along the links.
    private static bool Reaches(List<SignalLink> links, Guid from, Guid target)
    {
        var seen = new HashSet<Guid> { from };
        var ahead = new Stack<Guid>([from]);
        while (ahead.TryPop(out var at))
        {
            if (at == target)
            {
                return true;
            }

            foreach (var next in links.Where(link => link.Form.FromPartId == at && seen.Add(link.ToPartId)))
            {
                ahead.Push(next.ToPartId);
            }
        }

        return false;
    }
}
