using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Rules;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>The signal path of a job from source to loudspeaker: loads, gains, levels, noise and formats, from its parts and links alone.</summary>
public sealed class SignalPaths(ShopStore store)
{
    private static readonly string _belowRating = new LoadBelowRating().Code;

    /// <param name="text">Units and culture of the reader.</param>
    public Task<SignalPathView> GetAsync(Actor actor, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(db => ViewAsync(db, jobId, text, cancellationToken), cancellationToken);
    }

    /// <summary>The path with the heads of a paper; null when there is no such job. Texts are in the shop's units.</summary>
    public Task<SignalSheet?> SheetAsync(Actor actor, Guid jobId, IFormatProvider culture, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
            {
                if (await DesignPaper.HeadAsync(db, jobId, cancellationToken) is not { } head)
                {
                    return null;
                }

                return new SignalSheet(head.Letterhead, head.JobReference, head.JobTitle, head.Vehicle, await ViewAsync(db, jobId, new UnitText(head.Letterhead.Units, culture), cancellationToken));
            },
            cancellationToken);
    }

    /// <summary>What stands against cables and path, for gates between phases; texts are invariant. A load too low for its amplifier is said once.</summary>
    internal static IReadOnlyList<Finding> Findings(Guid jobId, PlanFacts facts, IReadOnlyList<SignalLink> links, IReadOnlyList<SignalRoutingForm> routing)
    {
        List<JobPart> parts = [.. facts.Parts.Where(part => part.Direction == PartDirection.Installed)];
        var runs = new SignalMapping(parts, links, facts.Budget, UnitText.Invariant).View(jobId);
        var path = ViewOf(jobId, facts, parts, links, routing, runs, UnitText.Invariant);
        var below = path.Findings.Where(finding => finding.Code == _belowRating).Select(finding => finding.SubjectId).ToHashSet();
        var said = path.Channels.Where(row => below.Contains(row.Levels.Channel.Load.Id)).Select(row => row.OutputId).ToHashSet();
        return [.. runs.Findings.Where(finding => finding.Code != SignalFindings.TooLowCode || !said.Contains(finding.SubjectId)), .. path.Findings];
    }

    /// <summary>What was said about the routing in processors.</summary>
    internal static async Task<List<SignalRoutingForm>> RoutingAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken) =>
        [.. (await JobDesigns.ListAsync<SignalRoutingForm>(db, jobId, cancellationToken)).Select(design => design.Form)];

    /// <summary>The path as it stands, inside a reading of the caller.</summary>
    internal static async Task<SignalPathView> ViewAsync(ShopDbContext db, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        var facts = await PlanFacts.ReadAsync(db, jobId, cancellationToken);
        List<JobPart> parts = [.. facts.Parts.Where(part => part.Direction == PartDirection.Installed)];
        var links = await SignalLinks.OfJob(db, jobId).ToListAsync(cancellationToken);
        return ViewOf(jobId, facts, parts, links, await RoutingAsync(db, jobId, cancellationToken), new SignalMapping(parts, links, facts.Budget, text).View(jobId), text);
    }

    internal static SignalPathView ViewOf(
        Guid jobId, PlanFacts facts, IReadOnlyList<JobPart> parts, IReadOnlyList<SignalLink> links, IReadOnlyList<SignalRoutingForm> routing, SignalPlanView runs, UnitText text)
    {
        var mapping = new SignalPathMapping(parts, links, runs.Speakers, new SignalGrounds(facts.Settings, facts.Choices, parts), routing, facts.Budget.GainOverlapDecibels, facts.MeasuredFactory);
        if (mapping.Map() is not { } input)
        {
            return new SignalPathView { JobId = jobId, Input = null, Result = null, Channels = [], Unused = [], Findings = [], GainToleranceDecibels = facts.Budget.GainToleranceDecibels };
        }

        var findings = mapping.Findings;
        findings.AddRange(SignalFacts.Loads(parts, facts.Parts.Any(part => part.Direction == PartDirection.Removed)));
        var result = BudgetFacts.Ask("signal-path", "Signal path", input.Validate(text), findings, () => SignalPath.Compute(input, text));
        findings.AddRange(result?.Findings ?? []);
        return new SignalPathView
        {
            JobId = jobId,
            GainToleranceDecibels = facts.Budget.GainToleranceDecibels,
            Input = input,
            Connections = ConnectionRows.Of(input, links, runs.Speakers),
            Result = result,
            Channels = [.. (result?.Channels ?? []).Select(levels => mapping.Row(levels))],
            Unused = [.. from device in input.Devices.OfType<AmplifierDevice>()
                         from output in device.Outputs
                         where !input.Loads.Any(load => load.AmplifierId == device.Id && load.Outputs.Contains(output.Id))
                         select $"{device.Name}, {output.Name}"],
            Findings = [.. findings.DistinctBy(finding => (finding.Code, finding.SubjectId)).OrderByDescending(finding => finding.Severity)],
        };
    }
}
