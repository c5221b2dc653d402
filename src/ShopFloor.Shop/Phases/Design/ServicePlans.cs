using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Fabrication.Service;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What it takes to reach a part, beside the words on how.</summary>
public sealed record ReachForm
{
    public Guid PartId { get; set; }

    /// <summary>Separated by commas; empty for hands alone.</summary>
    public string Tools { get; set; } = "";

    /// <summary>Something is cut, unglued or broken on the way.</summary>
    public bool Destroys { get; set; }

    /// <summary>In words for tables and papers.</summary>
    public string ToolsText => (Tools.Length > 0 ? Tools : "by hand") + (Destroys ? "; something has to be cut" : "");

    public override string ToString() => $"{PartId:N}: {ToolsText}";
}

/// <summary>Tools of the parts of a job. The way to each stands on its line of the parts list.</summary>
public sealed record ServiceAccessForm : IDesignForm
{
    public static DesignKind Kind => DesignKind.ServiceAccess;

    public static Permission Needed => Permission.DesignJobs;

    public List<ReachForm> Rows { get; set; } = [];

    public List<Problem> Problems() => [.. Rows.SelectMany(row => new Check().Longest(row.Tools, nameof(ReachForm.Tools), "The tools", Limits.Name).Problems)];
}

/// <summary>How fuses, batteries and everything that is adjusted are reached: listed from the parts, judged by rules.</summary>
public sealed class ServicePlans(ShopStore store)
{
    private static readonly char[] _stepEnds = [';', '\n'];

    public Task<ServiceView> GetAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db => ViewOf(await PartsList.InOrder(db, jobId).AsNoTracking().ToListAsync(cancellationToken), await RowsAsync(db, jobId, cancellationToken)), cancellationToken);
    }

    /// <summary>Keeps the way on the part and the tools beside it, both or neither.</summary>
    /// <param name="expectedVersion">Version of the part the way was read with.</param>
    public Task<Outcome<Guid>> SaveAsync(Actor actor, Guid partId, Guid expectedVersion, string way, ReachForm reach, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return store.WriteAsync<Guid>(
            actor,
            async db =>
            {
                if (await db.JobParts.SingleOrDefaultAsync(found => found.Id == partId, cancellationToken) is not { } part)
                {
                    return new Problem("", "That part is no longer on the list.");
                }

                if (await JobLock.ProblemAsync(db, part.JobId, cancellationToken) is { } locked)
                {
                    return locked;
                }

                var details = JobPartDetails.Of(part);
                details.Access = way.Trim();
                var row = reach with { PartId = partId, Tools = reach.Tools.Trim() };
                List<Problem> problems = [.. details.Problems(), .. new ServiceAccessForm { Rows = [row] }.Problems()];
                if (Steps(details.Access).Count is > MostSteps and var many)
                {
                    problems.Add(new Problem(nameof(JobPart.Access), $"The way has {many} steps; at most {MostSteps} are accepted."));
                }

                if (Tools(row.Tools).Count is > MostTools and var tools)
                {
                    problems.Add(new Problem(nameof(ReachForm.Tools), $"{tools} tools are named; at most {MostTools} are accepted."));
                }

                if (problems.Count > 0)
                {
                    return problems;
                }

                if (await db.ConflictAsync(part, expectedVersion, details, JobPartDetails.Of(part), cancellationToken) is { } conflict)
                {
                    return conflict;
                }

                if (details.Access != part.Access)
                {
                    part.Apply(details);
                }

                var kept = await db.JobDesigns.OrderBy(found => found.Id).FirstOrDefaultAsync(found => found.JobId == part.JobId && found.Kind == DesignKind.ServiceAccess, cancellationToken);
                var form = kept?.Form<ServiceAccessForm>() ?? new ServiceAccessForm();
                form.Rows.RemoveAll(other => other.PartId == partId);
                form.Rows.Add(row);
                if (kept is null)
                {
                    db.JobDesigns.Add(new JobDesign(part.JobId, DesignKind.ServiceAccess, "Service access", JobDesign.Write(form), store.Time.GetUtcNow()));
                }
                else
                {
                    kept.Apply(kept.Name, JobDesign.Write(form));
                }

                return partId;
            },
            cancellationToken);
    }

    internal static async Task<IReadOnlyList<Finding>> FindingsAsync(ShopDbContext db, Guid jobId, IReadOnlyList<JobPart> parts, CancellationToken cancellationToken) =>
        ViewOf(parts, await RowsAsync(db, jobId, cancellationToken)).Findings;

    internal static async Task<Dictionary<Guid, ReachForm>> RowsAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken) =>
        (await JobDesigns.ListAsync<ServiceAccessForm>(db, jobId, cancellationToken)).FirstOrDefault()?.Form.Rows.ToDictionary(row => row.PartId) ?? [];

    /// <summary>A way in words is one step up to each semicolon or line.</summary>
    public static IReadOnlyList<string> Steps(string way) => way.Split(_stepEnds, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);

    public static IReadOnlyList<string> Tools(string tools) => tools.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);

    private const int MostSteps = 30;
    private const int MostTools = 20;

    internal static ServiceView ViewOf(IReadOnlyList<JobPart> parts, Dictionary<Guid, ReachForm> rows)
    {
        List<ServiceRow> listed =
        [
            .. from part in parts
               where part.Direction == PartDirection.Installed && !PlannedSpares.IsSpare(part)
               let kind = KindOf(part.Kind)
               where kind != ServiceKind.Part || part.Access.Length > 0 || rows.ContainsKey(part.Id)
               orderby kind
               select new ServiceRow(part.Id, part.Version, part.Name, kind, VehicleZones.NameOf(part.Zone), part.Place, part.Access, Steps(part.Access), rows.GetValueOrDefault(part.Id)),
        ];
        // The check takes at most 200; a job's further lines are cables and the like, which come last.
        ServiceItem[] said =
        [
            .. listed.Where(row => row.IsSaid).Take(200).Select(row => new ServiceItem(
                row.PartId.ToString(), row.Name, row.Kind, [.. row.Steps.Take(MostSteps)], row.Reach is { } reach ? [.. Tools(reach.Tools).Take(MostTools)] : [], row.Reach?.Destroys ?? false)),
        ];
        return new ServiceView(listed, ServiceAccess.Check(new ServiceAccessInput(said, new ServiceLimits())));
    }

    private static ServiceKind KindOf(PartKind kind) => kind switch
    {
        PartKind.Fuse or PartKind.Distribution => ServiceKind.Fuse,
        PartKind.Battery => ServiceKind.Battery,
        PartKind.Amplifier or PartKind.Processor => ServiceKind.Adjustment,
        _ => ServiceKind.Part,
    };
}

/// <param name="Rows">Fuses first, then batteries, what is adjusted, and other parts with a way.</param>
/// <param name="Findings">Of the rows something was said of.</param>
public sealed record ServiceView(IReadOnlyList<ServiceRow> Rows, IReadOnlyList<Finding> Findings)
{
    /// <summary>Rows nobody has said anything of.</summary>
    public int Unsaid => Rows.Count(row => !row.IsSaid);
}

/// <param name="Version">Version of the part.</param>
/// <param name="Way">How it is reached, as it stands on the part.</param>
/// <param name="Reach">Tools; null while nobody answered.</param>
public sealed record ServiceRow(Guid PartId, Guid Version, string Name, ServiceKind Kind, string Zone, string Place, string Way, IReadOnlyList<string> Steps, ReachForm? Reach)
{
    public bool IsSaid => Way.Length > 0 || Reach is not null;

    /// <summary>Tools in words; empty while nobody answered.</summary>
    public string ToolsText => Reach?.ToolsText ?? "";
}
