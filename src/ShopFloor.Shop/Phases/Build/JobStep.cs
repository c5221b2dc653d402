using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>One thing to do in a stage of a job, with the proof it asks for.</summary>
public sealed class JobStep : IAudited, IVersioned
{
    public JobStep(Guid jobId, Guid stageId, TemplateStep template, int order)
    {
        Id = Guid.CreateVersion7();
        JobId = jobId;
        StageId = stageId;
        Order = order;
        Text = template.Text;
        Required = template.Required;
        NeedsPhoto = template.NeedsPhoto;
        NeedsSecondPerson = template.NeedsSecondPerson;
        Measure = template.Measure;
    }

    private JobStep()
    {
    }

    public Guid Id { get; private set; }

    public Guid Version { get; private set; }

    public Guid JobId { get; private set; }

    public Guid StageId { get; private set; }

    public int Order { get; private set; }

    public string Text { get; private set; } = "";

    public bool Required { get; private set; }

    public bool NeedsPhoto { get; private set; }

    public bool NeedsSecondPerson { get; private set; }

    public StepMeasure? Measure { get; private set; }

    public double? MeasuredValue { get; private set; }

    /// <summary>A value that was measured but lies outside the limits: kept, so that nothing typed is lost, but no proof.</summary>
    public double? RefusedValue { get; private set; }

    public string RefusedBy { get; private set; } = "";

    public DateTimeOffset? RefusedAt { get; private set; }

    public string Note { get; private set; } = "";

    public DateTimeOffset? TickedAt { get; private set; }

    public Guid? TickedById { get; private set; }

    public string TickedBy { get; private set; } = "";

    public DateTimeOffset? ConfirmedAt { get; private set; }

    public string ConfirmedBy { get; private set; } = "";

    public bool IsTicked => TickedAt is not null;

    /// <summary>Ticked, and confirmed by a second person where one is asked for.</summary>
    public bool IsDone => IsTicked && (!NeedsSecondPerson || ConfirmedAt is not null);

    public void Tick(Guid? byId, string by, DateTimeOffset at, double? measuredValue)
    {
        TickedAt = at;
        TickedById = byId;
        TickedBy = by;
        MeasuredValue = Measure is null ? null : measuredValue;
        RefusedValue = null;
        RefusedBy = "";
        RefusedAt = null;
    }

    /// <summary>Keeps a value outside the limits beside the open step.</summary>
    public void KeepRefusedValue(double value, string by, DateTimeOffset at)
    {
        RefusedValue = value;
        RefusedBy = by;
        RefusedAt = at;
    }

    /// <summary>Takes the tick back; the record keeps that it was there.</summary>
    public void Untick()
    {
        TickedAt = null;
        TickedById = null;
        TickedBy = "";
        MeasuredValue = null;
        ConfirmedAt = null;
        ConfirmedBy = "";
    }

    public void Confirm(string by, DateTimeOffset at)
    {
        ConfirmedAt = at;
        ConfirmedBy = by;
    }

    /// <summary>Adds a line; what others wrote stays.</summary>
    public void Remark(string line) => Note = Note.Length == 0 ? line : Note + "\n" + line;

    /// <summary>Whether anybody has done something to it that would be lost with it.</summary>
    public bool IsTouched => IsTicked || Note.Length > 0 || RefusedValue is not null;

    string IAudited.AuditName => Text;

    Guid? IAudited.AuditJobId => JobId;
}
