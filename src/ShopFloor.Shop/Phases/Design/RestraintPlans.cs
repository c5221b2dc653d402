using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Fabrication.Restraint;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What holds the heavy things of a job, reckoned from the parts each carries.</summary>
public sealed class RestraintPlans(ShopStore store, JobDesigns designs)
{
    /// <summary>From here a part is told when nothing on this page holds it. Common practice, no source.</summary>
    public const double HeavyKilograms = 4;

    /// <param name="text">Units and culture of the reader.</param>
    public Task<RestraintsView> GetAsync(Actor actor, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db => await ViewAsync(db, jobId, await PlanFacts.ReadAsync(db, jobId, cancellationToken), text, cancellationToken), cancellationToken);
    }

    /// <summary>Keeps one; ticks stay only while it is held as it was when somebody looked.</summary>
    /// <param name="loaded">As it was read, or null for a new one.</param>
    public async Task<Outcome<Guid>> SaveAsync(Actor actor, Guid jobId, LoadedDesign<RestraintForm>? loaded, string name, RestraintForm form, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(form);
        if (loaded is null)
        {
            return await designs.AddAsync(actor, jobId, name, form with { Ticks = [] }, cancellationToken);
        }

        var ticks = form.IsHeldOtherwiseThan(loaded.Form) ? [] : loaded.Form.Ticks;
        return await designs.EditAsync(actor, loaded.Id, loaded.Version, name, form with { Ticks = [.. ticks] }, cancellationToken);
    }

    /// <summary>Whoever looked under the car ticks what is clear, by name and time; again takes it back.</summary>
    public Task<Outcome<Done>> TickAsync(Actor actor, Guid designId, RestraintHazard hazard, bool clear, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        return store.WriteAsync<Done>(
            actor,
            async db =>
            {
                if (await db.JobDesigns.FirstOrDefaultAsync(found => found.Id == designId && found.Kind == DesignKind.Restraint, cancellationToken) is not { } design)
                {
                    return new Problem("", "That restraint is no longer there; load the page again.");
                }

                if (await db.OpenJobProblemAsync(design.JobId, cancellationToken) is { } closed)
                {
                    return closed;
                }

                var form = design.Form<RestraintForm>();
                var had = form.Ticks.Exists(tick => tick.Hazard == hazard);
                if (clear != had)
                {
                    form.Ticks.RemoveAll(tick => tick.Hazard == hazard);
                    if (clear)
                    {
                        form.Ticks.Add(new RestraintTick(hazard, actor.Name, store.Time.GetUtcNow()));
                    }

                    design.Apply(design.Name, JobDesign.Write(form));
                }

                return Done.Value;
            },
            cancellationToken);
    }

    /// <summary>What a fastener must keep clear of in this vehicle.</summary>
    public static IReadOnlyList<RestraintHazard> HazardsOf(Drivetrain drive) =>
        [.. Enum.GetValues<RestraintHazard>().Where(hazard => hazard != RestraintHazard.HighVoltage || drive.IsHighVoltage())];

    public static string Words(RestraintHazard hazard) => hazard switch
    {
        RestraintHazard.Airbags => "Airbags, their sensors and the room they open into",
        RestraintHazard.Belts => "Belts, buckles, tensioners and their bolts",
        RestraintHazard.ChildSeatAnchors => "Child-seat anchors and top tethers",
        RestraintHazard.FuelLines => "Fuel and brake lines, also below the sheet",
        RestraintHazard.HighVoltage => "High-voltage cables and battery, also below the sheet",
        _ => throw new ArgumentOutOfRangeException(nameof(hazard), hazard, null),
    };

    /// <summary>For gates between phases; texts are invariant.</summary>
    internal static async Task<IReadOnlyList<Finding>> FindingsAsync(ShopDbContext db, Guid jobId, PlanFacts facts, CancellationToken cancellationToken) =>
        [.. (await ViewAsync(db, jobId, facts, UnitText.Invariant, cancellationToken)).Items.SelectMany(item => item.Findings)];

    internal static async Task<RestraintsView> ViewAsync(ShopDbContext db, Guid jobId, PlanFacts facts, UnitText text, CancellationToken cancellationToken)
    {
        var settings = await db.SettingsAsync(cancellationToken);
        var usual = new Decelerations(settings.HoldForwardG, settings.HoldRearwardG, settings.HoldSidewaysG, settings.HoldUpG);
        var hazards = HazardsOf(facts.Vehicle.DriveType);
        List<CarriedPart> parts = [.. facts.Parts.Where(part => part.Direction == PartDirection.Installed).Select(part => new CarriedPart(part.Id, part.Name, part.Zone, part.TotalMassKilograms))];
        var known = parts.ToDictionary(part => part.PartId);
        List<RestraintView> items = [.. (await JobDesigns.ListAsync<RestraintForm>(db, jobId, cancellationToken)).Select(design => Of(design, known, usual, hazards, text))];
        var held = items.SelectMany(item => item.Carried).Select(part => part.PartId).ToHashSet();
        // Sheets of treatment are glued over their whole face.
        held.UnionWith(facts.Parts.Where(part => part.Kind == PartKind.Treatment).Select(part => part.Id));
        return new RestraintsView(items, parts, [.. parts.Where(part => part.Kilograms >= HeavyKilograms && !held.Contains(part.PartId))], usual, facts.Vehicle.DriveType.IsHighVoltage());
    }

    private static RestraintView Of(LoadedDesign<RestraintForm> design, Dictionary<Guid, CarriedPart> parts, Decelerations usual, IReadOnlyList<RestraintHazard> hazards, UnitText text)
    {
        var form = design.Form;
        List<CarriedPart> carried = [.. form.PartIds.Select(parts.GetValueOrDefault).OfType<CarriedPart>()];
        var unweighed = carried.Where(part => part.Kilograms is null).ToList();
        var kilograms = carried.Sum(part => part.Kilograms ?? 0);
        List<Finding> findings = [];
        void Found(string code, Severity severity, string what, string remedy) => findings.Add(new Finding(code, severity, $"{design.Id}", design.Name, what, remedy, Unsourced.CommonPractice));

        RestraintResult? result = null;
        var input = form.Input(design.Name, kilograms, new Decelerations(form.ForwardG ?? usual.ForwardG, form.RearwardG ?? usual.RearwardG, form.SidewaysG ?? usual.SidewaysG, form.UpG ?? usual.UpG));
        if (kilograms > 0)
        {
            if (input.Validate(text) is { Count: > 0 } refused)
            {
                Found("restraint-refused", Severity.Warn, string.Join(" ", refused.Select(problem => problem.Message)), "Correct what is carried, or the restraint.");
            }
            else
            {
                result = ItemRestraint.Compute(input, text);
                findings.AddRange(result.Findings.Select(finding => finding with { SubjectId = $"{design.Id}:{finding.SubjectId}", Subject = design.Name }));
            }
        }
        else
        {
            Found("restraint-mass-missing", Severity.Warn, "No part it carries has a mass, so nothing can be said.", "Weigh the parts and enter the mass on the parts list.");
        }

        if (unweighed.Count > 0 && kilograms > 0)
        {
            Found("restraint-mass-incomplete", Severity.Warn, $"Not in its mass: {string.Join(", ", unweighed.Select(part => part.Name))}.", "Weigh them and enter the mass on the parts list.");
        }

        if (carried.Count < form.PartIds.Count)
        {
            Found("restraint-part-gone", Severity.Note, $"{form.PartIds.Count - carried.Count} of the parts it carried are no longer on the list.", "Look at what it carries now.");
        }

        List<RestraintCheck> checks = [.. hazards.Select(hazard => new RestraintCheck(hazard, Words(hazard), form.Ticks.Find(tick => tick.Hazard == hazard)))];
        if (checks.Exists(check => check.Tick is null))
        {
            Found("restraint-not-checked", Severity.Warn, $"Nobody has ticked that its fasteners are clear of: {string.Join("; ", checks.Where(check => check.Tick is null).Select(check => check.Text.ToLowerInvariant()))}.",
                "Look on both sides of the sheet before drilling, and tick it.");
        }

        return new RestraintView(design, kilograms, carried, result, input.Decelerations, checks, [.. findings.OrderByDescending(finding => finding.Severity)]);
    }
}

/// <summary>The restraints of a job.</summary>
/// <param name="Parts">What can be carried: everything that goes into the car.</param>
/// <param name="Loose">Heavy parts none of them carries; treatment is glued and not among them.</param>
/// <param name="Usual">The shop's decelerations.</param>
public sealed record RestraintsView(IReadOnlyList<RestraintView> Items, IReadOnlyList<CarriedPart> Parts, IReadOnlyList<CarriedPart> Loose, Decelerations Usual, bool IsHighVoltage);

/// <param name="Kilograms">Of the line; null when it is not known.</param>
public sealed record CarriedPart(Guid PartId, string Name, string Zone, double? Kilograms);

/// <param name="Tick">Who looked and when; null while nobody did.</param>
public sealed record RestraintCheck(RestraintHazard Hazard, string Text, RestraintTick? Tick);

/// <summary>One of them as it stands.</summary>
/// <param name="Kilograms">Of the parts it carries, as far as known.</param>
/// <param name="Result">Null while nothing has a mass.</param>
/// <param name="Against">The decelerations it was reckoned with.</param>
/// <param name="Findings">Gravest first.</param>
public sealed record RestraintView(
    LoadedDesign<RestraintForm> Design,
    double Kilograms,
    IReadOnlyList<CarriedPart> Carried,
    RestraintResult? Result,
    Decelerations Against,
    IReadOnlyList<RestraintCheck> Checks,
    IReadOnlyList<Finding> Findings)
{
    /// <summary>The direction that bears least; null without a result.</summary>
    public DirectionHold? Worst => Result?.Directions.MinBy(direction => direction.Margin ?? 0);
}
