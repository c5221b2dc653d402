using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Mass;

/// <summary>What one place in the vehicle gains and loses.</summary>
/// <param name="Zone">Place.</param>
/// <param name="InstalledKilograms">Put in, kg.</param>
/// <param name="RemovedKilograms">Taken out, kg.</param>
/// <param name="NetKilograms">Difference, kg.</param>
public sealed record ZoneMass(string Zone, double InstalledKilograms, double RemovedKilograms, double NetKilograms);

/// <summary>Added mass and what it leaves of the vehicle's payload.</summary>
public sealed record AddedMassResult
{
    /// <summary>Put in, of the items whose mass is known, kg.</summary>
    public required double InstalledKilograms { get; init; }

    /// <summary>Taken out, of the items whose mass is known, kg.</summary>
    public required double RemovedKilograms { get; init; }

    /// <summary>Put in less taken out, kg; below zero when the vehicle got lighter.</summary>
    public required double NetKilograms { get; init; }

    /// <summary>Whether the mass of every item is known.</summary>
    public required bool IsComplete { get; init; }

    /// <summary>Identifiers of items without a mass.</summary>
    public required IReadOnlyList<string> MissingItemIds { get; init; }

    /// <summary>By place, heaviest net first.</summary>
    public required IReadOnlyList<ZoneMass> Zones { get; init; }

    /// <summary>Placard value less net mass, kg; null when the placard was not read.</summary>
    public required double? RemainingPayloadKilograms { get; init; }

    /// <summary>68 kg for every seating position, kg; null when the seats were not counted.</summary>
    public required double? OccupantsKilograms { get; init; }

    /// <summary>What is left for cargo with every seat taken, kg; below zero when not every seat may be used; null when unknown.</summary>
    public required double? CargoWithAllSeatsKilograms { get; init; }

    /// <summary>Added mass from which the placard would have to be corrected before first retail sale, kg; null when the rating was not read.</summary>
    public required double? LabelThresholdKilograms { get; init; }

    /// <summary>What was found, gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}
