using ShopFloor.Shop.Common;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What somebody measured or decided about one run, over what the plan would choose by itself.</summary>
public sealed class RunChoice : IAudited, IVersioned
{
    public RunChoice(Guid jobId, string runId)
    {
        Id = Guid.CreateVersion7();
        JobId = jobId;
        RunId = runId;
    }

    private RunChoice()
    {
    }

    public Guid Id { get; private set; }

    public Guid Version { get; private set; }

    public Guid JobId { get; private set; }

    /// <summary>"main", or the id of the part the run feeds.</summary>
    public string RunId { get; private set; } = "";

    public RunChoiceForm Form { get; private set; } = new();

    public void Apply(RunChoiceForm form) => Form = form;

    string IAudited.AuditName => RunId == "main" ? "Main run" : "Branch run";

    Guid? IAudited.AuditJobId => JobId;
}

/// <summary>Empty fields leave the choice to the plan.</summary>
public sealed record RunChoiceForm
{
    public double? LengthMeters { get; set; }

    public string? Awg { get; set; }

    public double? FuseAmperes { get; set; }

    public double? FuseDistanceMeters { get; set; }

    public bool SheathedToFuse { get; set; }

    public int? BundledConductors { get; set; }

    public string Route { get; set; } = "";

    public bool IsEmpty => this == new RunChoiceForm();

    public List<Problem> Problems() => new Check()
        .Range(LengthMeters, nameof(LengthMeters), "The length", 0.05, 50, "m")
        .Range(FuseAmperes, nameof(FuseAmperes), "The fuse", 0.5, 1_000, "A")
        .Range(FuseDistanceMeters, nameof(FuseDistanceMeters), "The distance to the fuse", 0, 20, "m")
        .Range(BundledConductors, nameof(BundledConductors), "The number of bundled cables", 1, 100, "")
        .Longest(Route, nameof(Route), "The route", Limits.Line)
        .Problems;
}
