using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>The budgets of a job as they stand now. A budget that cannot be computed is null; the findings say what is missing.</summary>
public sealed record BudgetView
{
    public required Guid JobId { get; init; }

    public required BudgetSettingsForm Settings { get; init; }

    /// <summary>Version to save the settings with; empty before they were ever saved.</summary>
    public required Guid SettingsVersion { get; init; }

    public required AlternatorBudgetResult? Alternator { get; init; }

    /// <summary>Each battery, on music and switched on without signal.</summary>
    public required IReadOnlyList<BatteryTimeRow> Batteries { get; init; }

    public required KeyOffDrainResult? Drain { get; init; }

    /// <summary>Every part that can draw with the key off, known ones first, largest first.</summary>
    public required IReadOnlyList<DrainRow> DrainRows { get; init; }

    public required PeakView? Peak { get; init; }

    /// <summary>Each place with an amplifier.</summary>
    public required IReadOnlyList<CompartmentView> Compartments { get; init; }

    /// <summary>Gravest first; each kind once a subject.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }
}

/// <param name="PartId">The battery on the parts list; null for the car's own.</param>
/// <param name="Feeds">Names of what hangs on it with the engine off.</param>
/// <param name="Unknown">Names of what hangs on it and whose current is not known.</param>
/// <param name="Music">Null when its capacity is not known or nothing draws.</param>
/// <param name="Idle">Switched on, no signal.</param>
public sealed record BatteryTimeRow(
    Guid? PartId, string Name, double MusicAmperes, double IdleAmperes, IReadOnlyList<string> Feeds, IReadOnlyList<string> Unknown, BatteryTimeResult? Music, BatteryTimeResult? Idle);

/// <param name="PartId">Null for the car itself.</param>
/// <param name="Milliamperes">Null when not known; it is in no sum then.</param>
public sealed record DrainRow(Guid? PartId, string Name, double? Milliamperes);

/// <summary>A peak of every amplifier at once, with nothing to help and with what is on the list.</summary>
/// <param name="Helpers">Names of the capacitors and second batteries that help; empty when there are none.</param>
/// <param name="Alone">The supply alone.</param>
/// <param name="Helped">With the helpers; null when there are none.</param>
public sealed record PeakView(double BurstWatts, double SourceVolts, double SourceOhms, IReadOnlyList<string> Helpers, PeakSupportResult Alone, PeakSupportResult? Helped);

/// <param name="Zone">Key of the place; empty when the amplifiers' place is not set.</param>
/// <param name="Box">What was entered about it; null when nothing was.</param>
/// <param name="MusicWatts">Heat on music of the amplifiers whose data are known.</param>
/// <param name="AirAloneCubicMetersPerHour">Airflow that would hold the rise if no wall let heat through.</param>
/// <param name="Result">Null while the box is not described.</param>
public sealed record CompartmentView(
    string Zone, string Name, IReadOnlyList<string> Amplifiers, CompartmentForm? Box, double MusicWatts, double AirAloneCubicMetersPerHour, CompartmentHeatResult? Result);
