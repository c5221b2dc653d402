using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>The electrical plan of a job as it stands now: assumptions, runs, results, and everything found.</summary>
public sealed record ElectricalPlanView
{
    public required Guid JobId { get; init; }

    public required ElectricalSettingsForm Settings { get; init; }

    /// <summary>Version to save the settings with; empty before they were ever saved.</summary>
    public required Guid SettingsVersion { get; init; }

    /// <summary>What runs may take their current from.</summary>
    public required FeedSources Sources { get; init; }

    /// <summary>Tables, sizes and fuses the plan works with, also while no part takes current.</summary>
    public SizingRules Rules { get; init; } = new();

    /// <summary>Null when no part takes current.</summary>
    public required ElectricalPlanInput? Input { get; init; }

    /// <summary>Null when there is no input or it was refused; the findings say why.</summary>
    public required ElectricalPlanResult? Result { get; init; }

    public required IReadOnlyList<PlanRun> Runs { get; init; }

    /// <summary>Versions of the parts the plan was made from, to edit or remove one as it was seen.</summary>
    public IReadOnlyDictionary<Guid, Guid> PartVersions { get; init; } = new Dictionary<Guid, Guid>();

    /// <summary>Gravest first: of the parts list, of the calculation, and of parts that differ from the plan.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }
}

/// <summary>One run with its place, what was decided about it and its result.</summary>
/// <param name="ChoiceVersion">Version to save the choice with; empty before there was one.</param>
/// <param name="Sizing">Null while something is missing.</param>
/// <param name="Load">The load it feeds; null for runs to points and for loads on the car's own circuit.</param>
public sealed record PlanRun(RunPlace Place, Guid ChoiceVersion, RunSizingResult? Sizing, PlannedLoad? Load)
{
    /// <summary>Neither a place nor a source was said for it, so outline and drawing keep it apart.</summary>
    public bool IsNotPlaced => Load is not null && !Place.IsFedByTheCar && Place.To.Length == 0 && Place.Choice.From.Length == 0;
}

/// <summary>A released plan in the list of them.</summary>
public sealed record PlanReleaseRow(Guid Id, int Number, string ReleasedBy, DateTimeOffset ReleasedAt);

/// <summary>What putting the plan's cables and fuses on the parts list did.</summary>
/// <param name="Kept">Parts already ordered, received or fitted that no longer match the plan, with what it asks for now.</param>
/// <param name="WithoutPrice">Names of parts the catalogue has no match for, so price or mass is still to be entered.</param>
public sealed record PlannedPartsResult(int Added, int Updated, int Removed, IReadOnlyList<string> Kept, IReadOnlyList<string> WithoutPrice);
