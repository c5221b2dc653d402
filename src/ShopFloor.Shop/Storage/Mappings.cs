using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
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

// One class an entity; what the conventions already say is not said again.

internal sealed class StaffMemberMapping : IEntityTypeConfiguration<StaffMember>
{
    public void Configure(EntityTypeBuilder<StaffMember> builder) => builder.ToTable("StaffMembers");
}

internal sealed class TabletMapping : IEntityTypeConfiguration<Tablet>
{
    public void Configure(EntityTypeBuilder<Tablet> builder) => builder.HasIndex(tablet => tablet.SecretHash).IsUnique();
}

internal sealed class ApiTokenMapping : IEntityTypeConfiguration<ApiToken>
{
    public void Configure(EntityTypeBuilder<ApiToken> builder)
    {
        builder.HasIndex(token => token.Hash).IsUnique();
        builder.Property(token => token.Scope).HasJson();
    }
}

internal sealed class ClientMapping : IEntityTypeConfiguration<Client>
{
    public void Configure(EntityTypeBuilder<Client> builder)
    {
        builder.HasIndex(client => client.SearchText);
    }
}

internal sealed class ClientLinkMapping : IEntityTypeConfiguration<ClientLink>
{
    public void Configure(EntityTypeBuilder<ClientLink> builder)
    {
        builder.HasIndex(link => link.Hash).IsUnique();
        builder.HasOne<Job>().WithMany().HasForeignKey(link => link.JobId).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class VehicleMapping : IEntityTypeConfiguration<Vehicle>
{
    public void Configure(EntityTypeBuilder<Vehicle> builder)
    {
        builder.HasOne(vehicle => vehicle.Client).WithMany().HasForeignKey(vehicle => vehicle.ClientId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(vehicle => vehicle.Measures).HasJson().HasDefaultValueSql("'{}'");
        builder.HasIndex(vehicle => vehicle.Vin);
        builder.HasIndex(vehicle => vehicle.Plate);
    }
}

internal sealed class CataloguePartMapping : IEntityTypeConfiguration<CataloguePart>
{
    public void Configure(EntityTypeBuilder<CataloguePart> builder)
    {
        builder.HasQueryFilter(part => part.RemovedAt == null);
        builder.Property(part => part.Data).HasJson();
        builder.HasIndex(part => new { part.Supplier, part.PartNumber });
    }
}

internal sealed class JobMapping : IEntityTypeConfiguration<Job>
{
    public void Configure(EntityTypeBuilder<Job> builder)
    {
        builder.HasIndex(job => job.Number).IsUnique();
        builder.HasIndex(job => new { job.State, job.PromisedOn });
        builder.HasOne(job => job.Client).WithMany().HasForeignKey(job => job.ClientId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne(job => job.Vehicle).WithMany().HasForeignKey(job => job.VehicleId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(job => job.SourceDevices).HasJson();
        builder.ComplexProperty(job => job.Progress);
        builder.Property(job => job.SearchText).HasMaxLength(12_000);
    }
}

internal sealed class JobPartMapping : IEntityTypeConfiguration<JobPart>
{
    public void Configure(EntityTypeBuilder<JobPart> builder)
    {
        builder.HasQueryFilter(part => part.RemovedAt == null);
        builder.Property(part => part.Data).HasJson();
        builder.Property(part => part.Position).HasJson().HasDefaultValueSql("'{}'");
        builder.HasOne<Job>().WithMany().HasForeignKey(part => part.JobId).OnDelete(DeleteBehavior.Restrict);
        builder.HasIndex(part => new { part.JobId, part.Order });
    }
}

internal sealed class PhotoMapping : IEntityTypeConfiguration<Photo>
{
    public void Configure(EntityTypeBuilder<Photo> builder)
    {
        builder.HasQueryFilter(photo => photo.RemovedAt == null);
        builder.HasOne<Job>().WithMany().HasForeignKey(photo => photo.JobId).OnDelete(DeleteBehavior.Restrict);
        builder.HasIndex(photo => new { photo.JobId, photo.Subject, photo.SubjectId });
    }
}

internal sealed class JobDesignMapping : IEntityTypeConfiguration<JobDesign>
{
    public void Configure(EntityTypeBuilder<JobDesign> builder)
    {
        builder.HasQueryFilter(design => design.RemovedAt == null);
        builder.HasOne<Job>().WithMany().HasForeignKey(design => design.JobId).OnDelete(DeleteBehavior.Restrict);
        builder.HasIndex(design => new { design.JobId, design.Kind });
        builder.Property(design => design.FormJson).HasMaxLength(2_000_000);
    }
}

internal sealed class JobFileMapping : IEntityTypeConfiguration<JobFile>
{
    public void Configure(EntityTypeBuilder<JobFile> builder)
    {
        builder.HasQueryFilter(file => file.RemovedAt == null);
        builder.HasOne<Job>().WithMany().HasForeignKey(file => file.JobId).OnDelete(DeleteBehavior.Restrict);
        builder.HasIndex(file => new { file.JobId, file.Kind });
    }
}

internal sealed class JobFileContentMapping : IEntityTypeConfiguration<JobFileContent>
{
    public void Configure(EntityTypeBuilder<JobFileContent> builder) => builder.HasOne<JobFile>().WithOne().HasForeignKey<JobFileContent>(content => content.Id).OnDelete(DeleteBehavior.Restrict);
}

internal sealed class SignOffMapping : IEntityTypeConfiguration<SignOff>
{
    public void Configure(EntityTypeBuilder<SignOff> builder) => builder.HasIndex(signOff => signOff.JobId);
}

internal sealed class CheckInMapping : IEntityTypeConfiguration<CheckIn>
{
    public void Configure(EntityTypeBuilder<CheckIn> builder)
    {
        builder.HasIndex(checkIn => checkIn.JobId).IsUnique();
        builder.Property(checkIn => checkIn.WarningLights).HasJson();
        builder.Property(checkIn => checkIn.SignaturePath).HasMaxLength(200_000);
    }
}

internal sealed class ConditionMarkMapping : IEntityTypeConfiguration<ConditionMark>
{
    public void Configure(EntityTypeBuilder<ConditionMark> builder)
    {
        builder.HasQueryFilter(mark => mark.RemovedAt == null);
        builder.HasIndex(mark => mark.JobId);
    }
}

internal sealed class FactoryFunctionMapping : IEntityTypeConfiguration<FactoryFunction>
{
    public void Configure(EntityTypeBuilder<FactoryFunction> builder)
    {
        builder.HasQueryFilter(function => function.RemovedAt == null);
        builder.HasIndex(function => new { function.JobId, function.Order });
    }
}

internal sealed class ElectricalSettingsMapping : IEntityTypeConfiguration<ElectricalSettings>
{
    public void Configure(EntityTypeBuilder<ElectricalSettings> builder)
    {
        builder.HasIndex(settings => settings.JobId).IsUnique();
        builder.Property(settings => settings.Form).HasJson();
    }
}

internal sealed class OwnTableMapping : IEntityTypeConfiguration<OwnTable>
{
    public void Configure(EntityTypeBuilder<OwnTable> builder)
    {
        builder.HasQueryFilter(table => table.RemovedAt == null);
        builder.Property(table => table.Form).HasJson().HasMaxLength(40_000);
    }
}

internal sealed class OffcutMapping : IEntityTypeConfiguration<Offcut>
{
    public void Configure(EntityTypeBuilder<Offcut> builder)
    {
        builder.HasQueryFilter(offcut => offcut.RemovedAt == null);
        builder.HasIndex(offcut => offcut.ForDesignId);
        builder.HasIndex(offcut => offcut.FromDesignId);
        builder.Property(offcut => offcut.Form).HasJson();
    }
}

internal sealed class RunChoiceMapping : IEntityTypeConfiguration<RunChoice>
{
    public void Configure(EntityTypeBuilder<RunChoice> builder)
    {
        builder.HasIndex(choice => new { choice.JobId, choice.RunId }).IsUnique();
        builder.Property(choice => choice.Form).HasJson();
    }
}

internal sealed class BudgetSettingsMapping : IEntityTypeConfiguration<BudgetSettings>
{
    public void Configure(EntityTypeBuilder<BudgetSettings> builder)
    {
        builder.HasIndex(settings => settings.JobId).IsUnique();
        builder.Property(settings => settings.Form).HasJson().HasMaxLength(40_000);
    }
}

internal sealed class SignalLinkMapping : IEntityTypeConfiguration<SignalLink>
{
    public void Configure(EntityTypeBuilder<SignalLink> builder)
    {
        builder.HasIndex(link => new { link.JobId, link.Kind, link.ToPartId, link.ToInput }).IsUnique();
        builder.Property(link => link.Form).HasJson();
    }
}

internal sealed class DesignReleaseMapping : IEntityTypeConfiguration<DesignRelease>
{
    public void Configure(EntityTypeBuilder<DesignRelease> builder)
    {
        builder.HasIndex(release => new { release.JobId, release.Number }).IsUnique();
        builder.Property(release => release.PlanInputJson).HasMaxLength(2_000_000);
        builder.Property(release => release.PlanResultJson).HasMaxLength(2_000_000);
    }
}

internal sealed class EstimateVersionMapping : IEntityTypeConfiguration<EstimateVersion>
{
    public void Configure(EntityTypeBuilder<EstimateVersion> builder)
    {
        builder.HasIndex(estimate => new { estimate.JobId, estimate.Number }).IsUnique();
        builder.Property(estimate => estimate.Lines).HasJson().HasMaxLength(2_000_000);
    }
}

internal sealed class StageTemplateMapping : IEntityTypeConfiguration<StageTemplate>
{
    public void Configure(EntityTypeBuilder<StageTemplate> builder)
    {
        builder.HasQueryFilter(template => template.RemovedAt == null);
        builder.Property(template => template.Stages).HasJson().HasMaxLength(2_000_000);
    }
}

internal sealed class JobStageMapping : IEntityTypeConfiguration<JobStage>
{
    public void Configure(EntityTypeBuilder<JobStage> builder)
    {
        builder.HasIndex(stage => new { stage.JobId, stage.Order });
        builder.HasMany(stage => stage.Steps).WithOne().HasForeignKey(step => step.StageId).OnDelete(DeleteBehavior.Restrict);
        builder.Navigation(stage => stage.Steps).UsePropertyAccessMode(PropertyAccessMode.Field);
    }
}

internal sealed class JobStepMapping : IEntityTypeConfiguration<JobStep>
{
    public void Configure(EntityTypeBuilder<JobStep> builder)
    {
        builder.HasIndex(step => step.JobId);
        builder.Property(step => step.Measure).HasJson();
    }
}

internal sealed class TimeEntryMapping : IEntityTypeConfiguration<TimeEntry>
{
    public void Configure(EntityTypeBuilder<TimeEntry> builder)
    {
        builder.HasQueryFilter(entry => entry.RemovedAt == null);
        builder.HasIndex(entry => entry.JobId);
        builder.HasIndex(entry => new { entry.StaffId, entry.StoppedAt });
    }
}

internal sealed class MeasuredValueMapping : IEntityTypeConfiguration<MeasuredValue>
{
    public void Configure(EntityTypeBuilder<MeasuredValue> builder)
    {
        builder.HasOne<Job>().WithMany().HasForeignKey(value => value.JobId).OnDelete(DeleteBehavior.Restrict);
        builder.HasIndex(value => new { value.JobId, value.PointId });
    }
}

internal sealed class BlockerMapping : IEntityTypeConfiguration<Blocker>
{
    public void Configure(EntityTypeBuilder<Blocker> builder) => builder.HasIndex(blocker => new { blocker.JobId, blocker.ResolvedAt });
}

internal sealed class SettingRowMapping : IEntityTypeConfiguration<SettingRow>
{
    public void Configure(EntityTypeBuilder<SettingRow> builder)
    {
        builder.HasQueryFilter(row => row.RemovedAt == null);
        builder.HasIndex(row => new { row.JobId, row.Order });
    }
}

internal sealed class HandoverNotesMapping : IEntityTypeConfiguration<HandoverNotes>
{
    public void Configure(EntityTypeBuilder<HandoverNotes> builder)
    {
        builder.HasIndex(notes => notes.JobId).IsUnique();
        builder.Property(notes => notes.Form).HasJson().HasMaxLength(200_000);
    }
}

internal sealed class HandoverReleaseMapping : IEntityTypeConfiguration<HandoverRelease>
{
    public void Configure(EntityTypeBuilder<HandoverRelease> builder)
    {
        builder.HasIndex(release => new { release.JobId, release.Number }).IsUnique();
        builder.Property(release => release.FactsJson).HasMaxLength(2_000_000);
    }
}

internal sealed class ShopSettingsMapping : IEntityTypeConfiguration<ShopSettings>
{
    public void Configure(EntityTypeBuilder<ShopSettings> builder) => builder.Property(settings => settings.Form).HasJson().HasMaxLength(40_000);
}

internal sealed class AuditEntryMapping : IEntityTypeConfiguration<AuditEntry>
{
    public void Configure(EntityTypeBuilder<AuditEntry> builder)
    {
        builder.HasKey(entry => entry.Sequence);
        builder.Property(entry => entry.Sequence).ValueGeneratedOnAdd();
        builder.Property(entry => entry.ChangesJson).HasMaxLength(4_000_000);
        builder.HasIndex(entry => new { entry.JobId, entry.Sequence });
    }
}

internal sealed class CommandReceiptMapping : IEntityTypeConfiguration<CommandReceipt>
{
    public void Configure(EntityTypeBuilder<CommandReceipt> builder) => builder.HasKey(receipt => receipt.CommandId);
}
