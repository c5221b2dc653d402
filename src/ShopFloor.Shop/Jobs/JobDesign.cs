using System.Text.Json;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Jobs;

/// <summary>What a named design of a job is about. A job may have several of each.</summary>
public enum DesignKind
{
    Enclosure,
    CutList,
    Laminate,
    Treatment,
    Restraint,
    Placement,
    SignalRouting,
    TuningMeasurement,
    TuningPreset,
    SourcePreset,
    CornerScales,
    MassBudget,
    ServiceAccess,
    Template,
    Rattle,
    DriverMeasurement,
    FactoryMeasurement,
    FactorySignal,
}

/// <summary>What somebody decided in a design; the results are reckoned from it each time.</summary>
public interface IDesignForm
{
    /// <summary>Kind under which forms of this type are kept.</summary>
    static abstract DesignKind Kind { get; }

    /// <summary>What it takes to change one.</summary>
    static abstract Permission Needed { get; }

    List<Problem> Problems();
}

/// <summary>A named design of a job, its form kept whole. Taken away, it can be brought back.</summary>
public sealed class JobDesign : IAudited, IVersioned, IRemovable
{
    public JobDesign(Guid jobId, DesignKind kind, string name, string formJson, DateTimeOffset at)
    {
        Id = Guid.CreateVersion7(at);
        JobId = jobId;
        Kind = kind;
        Name = name;
        FormJson = formJson;
    }

    private JobDesign()
    {
    }

    public Guid Id { get; private set; }

    public Guid Version { get; private set; }

    public Guid JobId { get; private set; }

    public DesignKind Kind { get; private set; }

    public string Name { get; private set; } = "";

    /// <summary>The form as <see cref="StoredJson"/> writes it; its type follows from <see cref="Kind"/>.</summary>
    public string FormJson { get; private set; } = "{}";

    public DateTimeOffset? RemovedAt { get; private set; }

    public TForm Form<TForm>()
        where TForm : class, IDesignForm =>
        JsonSerializer.Deserialize<TForm>(FormJson, StoredJson.Options)!; // written by Write below

    public static string Write<TForm>(TForm form)
        where TForm : class, IDesignForm =>
        JsonSerializer.Serialize(form, StoredJson.Options);

    public void Apply(string name, string formJson) => (Name, FormJson) = (name, formJson);

    public void Remove(DateTimeOffset at) => RemovedAt ??= at;

    public void BringBack() => RemovedAt = null;

    string IAudited.AuditName => $"{KindWords(Kind)} '{Name}'";

    Guid? IAudited.AuditJobId => JobId;

    private static string KindWords(DesignKind kind) => kind switch
    {
        DesignKind.Enclosure => "Enclosure",
        DesignKind.CutList => "Cut list",
        DesignKind.Laminate => "Composite schedule",
        DesignKind.Treatment => "Treatment",
        DesignKind.Restraint => "Restraint",
        DesignKind.Placement => "Placement study",
        DesignKind.SignalRouting => "Routing of",
        DesignKind.TuningMeasurement => "Measurement",
        DesignKind.TuningPreset => "Tuning preset",
        DesignKind.SourcePreset => "Source preset",
        DesignKind.CornerScales => "Weighing",
        DesignKind.MassBudget => "Mass budget",
        DesignKind.ServiceAccess => "Service access",
        DesignKind.Template => "Template",
        DesignKind.Rattle => "Rattle list",
        DesignKind.DriverMeasurement => "Driver measurement",
        DesignKind.FactoryMeasurement => "Measurement of a factory output",
        DesignKind.FactorySignal => "Factory signal",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Unknown kind of design."),
    };
}
