using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Connects outputs and inputs one by one, takes the last change back, and keeps what processors make their outputs of.</summary>
public sealed class SignalJoining(ShopStore store, SignalLinks links)
{
    public async Task<ConnectionsView> GetAsync(Actor actor, Guid jobId, CancellationToken cancellationToken) => (await SeeAsync(actor, jobId, cancellationToken)).View;

    /// <summary>Joins an output to an input. A digital cable carries two channels, so both are joined.</summary>
    public async Task<Outcome<ConnectionStep>> ConnectAsync(Actor actor, Guid jobId, ConnectedOutput from, ConnectedInput to, CancellationToken cancellationToken)
    {
        var seen = await GetAsync(actor, jobId, cancellationToken);
        if (seen.Refusal(from, to) is { } refusal)
        {
            return new Problem("", refusal);
        }

        var changes = new List<LinkChange>();
        foreach (var (output, input) in Pairs(seen, from, to))
        {
            // The version the person saw counts for the input they chose; its twin follows it.
            var version = input.Number == to.Number ? to.LinkVersion : input.LinkVersion;
            var form = Moved(input.Link, output);
            var outcome = await links.LinkAsync(actor, jobId, SignalKind.Sound, input.PartId, input.Number, version, form, cancellationToken);
            if (!outcome.Succeeded)
            {
                return outcome.Conflict is { } conflict ? conflict : outcome.Problems.ToList();
            }

            changes.Add(new LinkChange(input.PartId, input.Number, input.Link, await VersionAsync(actor, jobId, input.PartId, input.Number, form, cancellationToken)));
        }

        return new ConnectionStep($"{from.Name} to {to.Name}", changes);
    }

    /// <summary>Joins what is free the way it usually is, as one step that can be taken back; what is linked stays.</summary>
    public async Task<Outcome<ConnectionStep>> ConnectUsualAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        var (view, installed) = await SeeAsync(actor, jobId, cancellationToken);
        var changes = new List<LinkChange>();
        foreach (var (from, to) in new UsualConnections(view, installed).All())
        {
            // One digital cable was joined with both its channels.
            if (changes.Exists(change => change.ToPartId == to.PartId && change.ToInput == to.Number))
            {
                continue;
            }

            var outcome = await ConnectAsync(actor, jobId, from, to, cancellationToken);
            if (outcome.Succeeded)
            {
                changes.AddRange(outcome.Value.Changes);
            }
            else if (changes.Count == 0)
            {
                return outcome;
            }
        }

        return changes.Count == 0
            ? new Problem("", "Nothing free fits together: what is open is joined by hand.")
            : new ConnectionStep(changes.Count == 1 ? "1 input joined" : $"{changes.Count} inputs joined", changes);
    }

    /// <summary>Leaves an input open, and its twin where one digital cable fed both.</summary>
    public async Task<Outcome<ConnectionStep>> DisconnectAsync(Actor actor, Guid jobId, ConnectedInput to, CancellationToken cancellationToken)
    {
        var seen = await GetAsync(actor, jobId, cancellationToken);
        var twin = to.Kind.IsAnalog() ? null : seen.Units.SelectMany(unit => unit.Inputs).FirstOrDefault(input =>
            input.PartId == to.PartId && input.Number == TwinOf(to.Number, to.Side) && input.Link is not null && input.Link.FromPartId == to.Link?.FromPartId);
        var changes = new List<LinkChange>();
        foreach (var input in new[] { to, twin }.OfType<ConnectedInput>())
        {
            var outcome = await links.UnlinkAsync(actor, jobId, SignalKind.Sound, input.PartId, input.Number, input.LinkVersion, cancellationToken);
            if (!outcome.Succeeded)
            {
                return outcome.Conflict is { } conflict ? conflict : outcome.Problems.ToList();
            }

            changes.Add(new LinkChange(input.PartId, input.Number, input.Link, Guid.Empty));
        }

        return new ConnectionStep($"{to.Name} left open", changes);
    }

    /// <summary>Takes a change back under the versions it left, so that nothing somebody else did since is covered.</summary>
    public async Task<Outcome<Done>> UndoAsync(Actor actor, Guid jobId, ConnectionStep step, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(step);
        foreach (var change in step.Changes.Reverse())
        {
            Outcome<Done> outcome;
            if (change.Before is { } before)
            {
                var put = await links.LinkAsync(actor, jobId, SignalKind.Sound, change.ToPartId, change.ToInput, change.After, before, cancellationToken);
                outcome = put.Succeeded ? Done.Value : put.Conflict is { } conflict ? conflict : put.Problems.ToList();
            }
            else
            {
                outcome = await links.UnlinkAsync(actor, jobId, SignalKind.Sound, change.ToPartId, change.ToInput, change.After, cancellationToken);
            }

            if (!outcome.Succeeded)
            {
                return outcome;
            }
        }

        return Done.Value;
    }

    /// <summary>Keeps what the outputs of a processor are made of, as it is set in the device.</summary>
    public Task<Outcome<Guid>> RouteAsync(Actor actor, Guid jobId, Guid expectedVersion, SignalRoutingForm form, CancellationToken cancellationToken)
    {
        actor.Demand(SignalRoutingForm.Needed);
        ArgumentNullException.ThrowIfNull(form);
        var kept = form with { Outputs = [.. form.Outputs.Where(route => !route.IsEmpty).OrderBy(route => route.Output)] };
        return store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                if (await JobLock.ProblemAsync(db, jobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                if (kept.Problems() is { Count: > 0 } problems)
                {
                    return problems;
                }

                if (await Installed(db, jobId).SingleOrDefaultAsync(part => part.Id == kept.PartId, cancellationToken) is not { Data: ProcessorData } processor)
                {
                    return new Problem(nameof(form.PartId), "That processor is no longer on the parts list.");
                }

                if (kept.Outputs.Find(route => route.Output >= SignalPorts.Outputs(processor, SignalKind.Sound)) is { } beyond)
                {
                    return new Problem(nameof(form.Outputs), $"{processor.Name} has {SignalPorts.Outputs(processor, SignalKind.Sound)} outputs; output {beyond.Output + 1} is not one of them.");
                }

                var stored = (await db.JobDesigns.Where(design => design.JobId == jobId && design.Kind == DesignKind.SignalRouting).ToListAsync(cancellationToken))
                    .Find(design => design.Form<SignalRoutingForm>().PartId == kept.PartId);
                if (stored is null)
                {
                    return db.JobDesigns.Add(new JobDesign(jobId, DesignKind.SignalRouting, processor.Name, JobDesign.Write(kept), store.Time.GetUtcNow())).Entity.Id;
                }

                if (await db.ConflictAsync(stored, expectedVersion, kept, stored.Form<SignalRoutingForm>(), cancellationToken) is { } conflict)
                {
                    return conflict;
                }

                stored.Apply(processor.Name, JobDesign.Write(kept));
                return stored.Id;
            },
            cancellationToken);
    }

    private Task<(ConnectionsView View, IReadOnlyList<JobPart> Installed)> SeeAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
            {
                var installed = await Installed(db, jobId).ToListAsync(cancellationToken);
                var links = await SignalLinks.OfJob(db, jobId).Where(link => link.Kind == SignalKind.Sound).ToListAsync(cancellationToken);
                return (new ConnectionMapping(jobId, installed, links, await JobDesigns.ListAsync<SignalRoutingForm>(db, jobId, cancellationToken)).View(), (IReadOnlyList<JobPart>)installed);
            },
            cancellationToken);
    }

    private static IQueryable<JobPart> Installed(ShopDbContext db, Guid jobId) => PartsList.InOrder(db, jobId).AsNoTracking().Where(part => part.Direction == PartDirection.Installed);

    private static int TwinOf(int number, ImageSide side) => side == ImageSide.Left ? number + 1 : number - 1;

    private static IEnumerable<(ConnectedOutput Output, ConnectedInput Input)> Pairs(ConnectionsView seen, ConnectedOutput from, ConnectedInput to)
    {
        if (from.Kind.IsAnalog() || to.Kind.IsAnalog())
        {
            return [(from, to)];
        }

        var (output, input) = (seen.Output(from.PartId, TwinOf(from.Number, from.Side)), seen.Input(to.PartId, TwinOf(to.Number, to.Side)));
        return output is null || input is null ? [(from, to)]
            : from.Side == to.Side ? [(from, to), (output, input)]
            // Left stays left inside one cable, whichever of its channels was chosen.
            : [(output, to), (from, input)];
    }

    // What was decided about a loudspeaker stays; what was measured of another device's cable does not.
    private static SignalLinkForm Moved(SignalLinkForm? before, ConnectedOutput output) => before is null
        ? new SignalLinkForm { FromPartId = output.PartId, FromOutput = output.Number }
        : before with
        {
            FromPartId = output.PartId,
            FromOutput = output.Number,
            LengthMeters = before.FromPartId == output.PartId ? before.LengthMeters : null,
            Lies = before.FromPartId == output.PartId ? before.Lies : LinkLay.NotSaid,
        };

    private async Task<Guid> VersionAsync(Actor actor, Guid jobId, Guid partId, int input, SignalLinkForm form, CancellationToken cancellationToken) =>
        (await links.ListAsync(actor, jobId, cancellationToken)).Find(link => link.Kind == SignalKind.Sound && link.ToPartId == partId && link.ToInput == input && link.Form == form)?.Version ?? Guid.Empty;
}
