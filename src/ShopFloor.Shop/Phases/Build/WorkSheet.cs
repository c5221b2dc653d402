using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>A job as the bay sees it.</summary>
public sealed record WorkSheet(
    Guid JobId,
    string Reference,
    string Title,
    JobState State,
    string VehicleTitle,
    string Plate,
    string Colour,
    Drivetrain DriveType,
    DateOnly? PromisedOn,
    bool NothingCut,
    bool KeepSpareWheel,
    string RestrictionNotes,
    IReadOnlyList<SheetStage> Stages,
    IReadOnlyList<SheetReport> Reports,
    IReadOnlyList<SheetClock> Running)
{
    /// <summary>The first stage that is not done, or null.</summary>
    public SheetStage? CurrentStage => Stages.FirstOrDefault(stage => !stage.IsDone);
}

public sealed record SheetStage(
    Guid Id,
    Guid Version,
    string Name,
    JobPhase Phase,
    decimal PlannedHours,
    decimal SpentHours,
    bool IsDone,
    bool IsBlocked,
    bool IsCommissioning,
    IReadOnlyList<SheetStep> Steps,
    IReadOnlyList<SheetClock> Running)
{
    public int StepsDone => Steps.Count(step => step.IsDone);

    internal static SheetStage Of(JobStage stage, Dictionary<Guid, List<Guid>> photos, decimal spent, List<SheetClock> running, bool blocked) => new(
        stage.Id,
        stage.Version,
        stage.Name,
        stage.Phase,
        stage.PlannedHours,
        spent,
        stage.IsDone,
        blocked,
        stage.IsCommissioning,
        [.. stage.Steps.OrderBy(step => step.Order).Select(step => SheetStep.Of(step, photos.GetValueOrDefault(step.Id) ?? []))],
        [.. running.Where(clock => clock.StageId == stage.Id)]);
}

public sealed record SheetStep(
    Guid Id,
    string Text,
    bool Required,
    bool NeedsPhoto,
    bool NeedsSecondPerson,
    StepMeasure? Measure,
    double? MeasuredValue,
    double? RefusedValue,
    string RefusedBy,
    DateTimeOffset? RefusedAt,
    string Note,
    DateTimeOffset? TickedAt,
    Guid? TickedById,
    string TickedBy,
    DateTimeOffset? ConfirmedAt,
    string ConfirmedBy,
    bool IsDone,
    IReadOnlyList<Guid> PhotoIds)
{
    public bool IsTicked => TickedAt is not null;

    internal static SheetStep Of(JobStep step, IReadOnlyList<Guid> photoIds) => new(
        step.Id, step.Text, step.Required, step.NeedsPhoto, step.NeedsSecondPerson, step.Measure, step.MeasuredValue, step.RefusedValue, step.RefusedBy, step.RefusedAt,
        step.Note, step.TickedAt, step.TickedById, step.TickedBy, step.ConfirmedAt, step.ConfirmedBy, step.IsDone, photoIds);
}

public sealed record SheetReport(
    Guid Id,
    Guid? StageId,
    BlockerKind Kind,
    string Text,
    string ReportedBy,
    DateTimeOffset ReportedAt,
    string Resolution,
    string ResolvedBy,
    DateTimeOffset? ResolvedAt,
    IReadOnlyList<Guid> PhotoIds)
{
    public bool IsOpen => ResolvedAt is null;

    internal static SheetReport Of(Blocker blocker, IReadOnlyList<Guid> photoIds) => new(
        blocker.Id, blocker.StageId, blocker.Kind, blocker.Text, blocker.ReportedBy, blocker.ReportedAt, blocker.Resolution, blocker.ResolvedBy, blocker.ResolvedAt, photoIds);
}

/// <summary>Somebody's running clock on a stage.</summary>
public sealed record SheetClock(Guid StageId, Guid StaffId, string StaffName, DateTimeOffset StartedAt);

/// <summary>Hours of one person on one stage.</summary>
public sealed record PersonHours(Guid StageId, Guid StaffId, string StaffName, decimal Hours);
