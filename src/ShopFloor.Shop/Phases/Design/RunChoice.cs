using System.ComponentModel.DataAnnotations;
using System.Text.Json.Serialization;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>How a run lies; other cables in the same conduit or bundle warm it.</summary>
public enum RunLay
{
    Open,
    Sheathed,
    Bundled,
}

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

    /// <summary><see cref="ElectricalPlanBuilder.MainRunId"/>, or the point or load the run feeds as <see cref="ElectricalPlanBuilder"/> names it.</summary>
    public string RunId { get; private set; } = "";

    public RunChoiceForm Form { get; private set; } = new();

    public void Apply(RunChoiceForm form) => Form = form;

    string IAudited.AuditName => RunId == ElectricalPlanBuilder.MainRunId ? "Main run" : "Branch run";

    Guid? IAudited.AuditJobId => JobId;
}

/// <summary>Empty fields leave the choice to the plan.</summary>
public sealed record RunChoiceForm
{
    [Display(Name = "Measured length, one way (m)")]
    public double? LengthMeters { get; set; }

    [Display(Name = "Conductor size")]
    public string? Awg { get; set; }

    [Display(Name = "Fuse (A)")]
    public double? FuseAmperes { get; set; }

    [Display(Name = "From the source to the fuse (m)")]
    public double? FuseDistanceMeters { get; set; }

    [Display(Name = "In a sheath all the way to the fuse")]
    public bool SheathedToFuse { get; set; }

    [Display(Name = "Conductor is of")]
    public CableMetal? Metal { get; set; }

    [Display(Name = "Insulation withstands (°C)")]
    public int? InsulationCelsius { get; set; }

    [Display(Name = "Warmest place it passes (°C)")]
    public double? AmbientCelsius { get; set; }

    /// <summary>Null goes by the places the run lies between.</summary>
    [Display(Name = "Passes the engine space")]
    public bool? EngineSpace { get; set; }

    /// <summary>Null lies as the assumptions say.</summary>
    [Display(Name = "Lies")]
    public RunLay? Lies { get; set; }

    [Display(Name = "Current-carrying cables bundled together")]
    public int? BundledConductors { get; set; }

    /// <summary>Of a run to a load; null keeps that of the assumptions.</summary>
    [Display(Name = "Largest voltage drop at music level, battery to this load (%)")]
    public double? MaxDropPercent { get; set; }

    /// <summary>Id of a <see cref="FeedSource"/>, or one of the constants of <see cref="FeedSources"/>; empty for what is usual.</summary>
    [Display(Name = "Takes its current from")]
    public string From { get; set; } = "";

    [Display(Name = "Route")]
    public string Route { get; set; } = "";

    /// <summary>How the current of this run gets back; null takes what the plan assumes.</summary>
    [Display(Name = "Current comes back through")]
    public ReturnPath? Return { get; set; }

    /// <summary>Lugs, joints and holders of the run, both ends together; null leaves them out.</summary>
    [Display(Name = "Resistance of the terminations (mΩ)")]
    public double? TerminationMilliohms { get; set; }

    [JsonIgnore]
    public bool IsEmpty => this == new RunChoiceForm();

    public List<Problem> Problems() => new Check()
        .Range(LengthMeters, nameof(LengthMeters), "The length", 0.05, 30, "m")
        .Longest(Awg, nameof(Awg), "The conductor size", Limits.Name)
        .That(Metal is null || Enum.IsDefined(Metal.Value), nameof(Metal), $"'{Metal}' is no metal of cables.")
        .That(Lies is null || Enum.IsDefined(Lies.Value), nameof(Lies), $"'{Lies}' is no way a cable lies.")
        .Range(InsulationCelsius, nameof(InsulationCelsius), "The insulation", 40, 250, "°C")
        .Range(AmbientCelsius, nameof(AmbientCelsius), "The temperature", -40, 150, "°C")
        .Range(MaxDropPercent, nameof(MaxDropPercent), "The voltage drop", 0.1, 20, "%")
        .Range(FuseAmperes, nameof(FuseAmperes), "The fuse", 0.5, 1_000, "A")
        .Range(FuseDistanceMeters, nameof(FuseDistanceMeters), "The distance to the fuse", 0, 20, "m")
        .That(Lies != RunLay.Bundled || BundledConductors >= 2, nameof(BundledConductors), $"The number of bundled cables is {BundledConductors?.ToString(System.Globalization.CultureInfo.CurrentCulture) ?? "not said"}; a bundle has 2 to 100.")
        .Range(BundledConductors, nameof(BundledConductors), "The number of bundled cables", 1, 100, "")
        .That(Return is null || Enum.IsDefined(Return.Value), nameof(Return), $"'{Return}' is no way back; accepted are {string.Join(", ", Enum.GetNames<ReturnPath>())}.")
        .Range(TerminationMilliohms, nameof(TerminationMilliohms), "The resistance of the terminations", 0, 50, "mΩ")
        .Longest(From, nameof(From), "What it takes its current from", Limits.Line)
        .Longest(Route, nameof(Route), "The route", Limits.Line)
        .Problems;
}
