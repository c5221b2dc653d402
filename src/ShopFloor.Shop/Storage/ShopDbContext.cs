using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Estimate;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Phases.Tuning;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage.Audit;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Storage;

/// <summary>The shop's database. Every save renews versions and writes the audit trail in the same transaction.</summary>
public sealed class ShopDbContext(DbContextOptions<ShopDbContext> options, WriteGate gate, TimeProvider time)
    : IdentityUserContext<StaffMember, Guid>(options)
{
    private readonly HashSet<Guid> _touchedJobs = [];
    private readonly List<AuditEntry> _acts = [];
    private Actor _actor = Actor.Shop;
    private string _reason = "";
    private bool _holdsGate;

    public DbSet<Client> Clients => Set<Client>();

    public DbSet<ClientLink> ClientLinks => Set<ClientLink>();

    public DbSet<Vehicle> Vehicles => Set<Vehicle>();

    public DbSet<CataloguePart> CatalogueParts => Set<CataloguePart>();

    public DbSet<Job> Jobs => Set<Job>();

    public DbSet<JobPart> JobParts => Set<JobPart>();

    public DbSet<Photo> Photos => Set<Photo>();

    public DbSet<SignOff> SignOffs => Set<SignOff>();

    public DbSet<CheckIn> CheckIns => Set<CheckIn>();

    public DbSet<ConditionMark> ConditionMarks => Set<ConditionMark>();

    public DbSet<FactoryFunction> FactoryFunctions => Set<FactoryFunction>();

    public DbSet<ElectricalSettings> ElectricalSettings => Set<ElectricalSettings>();

    public DbSet<OwnTable> OwnTables => Set<OwnTable>();

    public DbSet<Offcut> Offcuts => Set<Offcut>();

    public DbSet<RunChoice> RunChoices => Set<RunChoice>();

    public DbSet<BudgetSettings> BudgetSettings => Set<BudgetSettings>();

    public DbSet<SignalLink> SignalLinks => Set<SignalLink>();

    public DbSet<JobDesign> JobDesigns => Set<JobDesign>();

    public DbSet<JobFile> JobFiles => Set<JobFile>();

    public DbSet<JobFileContent> JobFileContents => Set<JobFileContent>();

    public DbSet<DesignRelease> DesignReleases => Set<DesignRelease>();

    public DbSet<EstimateVersion> Estimates => Set<EstimateVersion>();

    public DbSet<StageTemplate> StageTemplates => Set<StageTemplate>();

    public DbSet<JobStage> JobStages => Set<JobStage>();

    public DbSet<JobStep> JobSteps => Set<JobStep>();

    public DbSet<TimeEntry> TimeEntries => Set<TimeEntry>();

    public DbSet<MeasuredValue> MeasuredValues => Set<MeasuredValue>();

    public DbSet<Blocker> Blockers => Set<Blocker>();

    public DbSet<SettingRow> SettingRows => Set<SettingRow>();

    public DbSet<HandoverNotes> HandoverNotes => Set<HandoverNotes>();

    public DbSet<HandoverRelease> HandoverReleases => Set<HandoverRelease>();

    public DbSet<ShopSettings> ShopSettings => Set<ShopSettings>();

    public DbSet<Tablet> Tablets => Set<Tablet>();

    public DbSet<ApiToken> ApiTokens => Set<ApiToken>();

    public DbSet<AuditEntry> AuditEntries => Set<AuditEntry>();

    public DbSet<CommandReceipt> CommandReceipts => Set<CommandReceipt>();

    /// <summary>Jobs whose things were saved through this context.</summary>
    internal IReadOnlySet<Guid> TouchedJobs => _touchedJobs;

    /// <summary>Says who writes and why; the caller already holds the write gate.</summary>
    internal void WriteAs(Actor actor, string reason)
    {
        _actor = actor;
        _reason = reason;
        _holdsGate = true;
    }

    /// <summary>Puts an act into the trail that is more than its changed fields, such as a delivery or an override.</summary>
    internal void RecordAct(string action, IAudited subject, Guid subjectId, string reason) =>
        _acts.Add(new AuditEntry(
            time.GetUtcNow(), _actor.Id, _actor.Name, _actor.Via.ToString(), action, subject.GetType().Name, subjectId, subject.AuditName, subject.AuditJobId, "[]", reason));

    public override async Task<int> SaveChangesAsync(bool acceptAllChangesOnSuccess, CancellationToken cancellationToken = default)
    {
        ChangeTracker.DetectChanges();
        if (!ChangeTracker.HasChanges() && _acts.Count == 0)
        {
            return 0;
        }

        using var lease = _holdsGate ? null : await gate.EnterAsync(cancellationToken);
        await using var own = Database.CurrentTransaction is null ? await Database.BeginTransactionAsync(cancellationToken) : null;
        foreach (var entry in ChangeTracker.Entries<IVersioned>().Where(entry => entry.State is EntityState.Added or EntityState.Modified))
        {
            entry.Property(nameof(IVersioned.Version)).CurrentValue = Guid.CreateVersion7();
        }

        await ChainAsync([.. AuditRecorder.LinesFor(ChangeTracker, _actor, _reason, time.GetUtcNow()), .. _acts], cancellationToken);
        _acts.Clear();
        foreach (var entry in ChangeTracker.Entries<IAudited>().Where(entry => entry.State != EntityState.Unchanged))
        {
            if (entry.Entity.AuditJobId is { } jobId)
            {
                _touchedJobs.Add(jobId);
            }
        }

        var saved = await base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
        if (own is not null)
        {
            await own.CommitAsync(cancellationToken);
        }

        return saved;
    }

    public override int SaveChanges(bool acceptAllChangesOnSuccess) =>
        throw new NotSupportedException("Save asynchronously: the write gate is awaited.");

    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder) =>
        ShopConventions.Apply(configurationBuilder);

    protected override void OnModelCreating(ModelBuilder builder)
    {
        base.OnModelCreating(builder);
        builder.ApplyConfigurationsFromAssembly(typeof(ShopDbContext).Assembly);
        ShopConventions.Finish(builder);
    }

    private async Task ChainAsync(List<AuditEntry> lines, CancellationToken cancellationToken)
    {
        if (lines.Count == 0)
        {
            return;
        }

        var previous = await AuditEntries.OrderByDescending(entry => entry.Sequence).Select(entry => entry.Hash).FirstOrDefaultAsync(cancellationToken) ?? "";
        foreach (var line in lines)
        {
            line.Chain(previous);
            previous = line.Hash;
            // Saved one by one so the sequence follows the chain.
            AuditEntries.Add(line);
        }
    }
}
