using ShopFloor.Engineering.Electrical.Accessories;
using ShopFloor.Engineering.Electrical.Lighting;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Lights, accessories and the turn-on chain of a job as they stand now.</summary>
public sealed record LightingPlanView
{
    public required Guid JobId { get; init; }

    public required IReadOnlyList<StripRow> Strips { get; init; }

    /// <summary>Cameras, detection devices and other accessories as loads; null when there are none or they were refused.</summary>
    public required AccessoryPowerResult? Accessories { get; init; }

    public required IReadOnlyList<AccessoryRow> AccessoryRows { get; init; }

    /// <summary>Whether the car's own current asleep is in the time of watching.</summary>
    public required bool CarAsleepKnown { get; init; }

    /// <summary>What is switched by a turn-on line, with what switches it.</summary>
    public required IReadOnlyList<TurnOnRow> TurnOn { get; init; }

    /// <summary>Each turn-on output in use.</summary>
    public required IReadOnlyList<TurnOnOutput> Outputs { get; init; }

    /// <summary>What may switch something; the car itself first.</summary>
    public required IReadOnlyList<PortChoice> Triggers { get; init; }

    /// <summary>All devices of the chain in the order that makes no noise; null when there is none.</summary>
    public required TurnOnResult? Order { get; init; }

    /// <summary>Gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }
}

/// <param name="Missing">Names of the data that are missing; empty when computed.</param>
/// <param name="FeedPoints">Points it is fed at, as entered; 1 when nothing was.</param>
public sealed record StripRow(Guid PartId, string Name, double? LengthMeters, int Colours, int FeedPoints, IReadOnlyList<string> Missing, LedStripResult? Result);

public sealed record AccessoryRow(Guid PartId, string Name, AccessoryKind Kind, double? DrivingAmperes, double? ParkedMilliamperes);

/// <param name="Link">What was decided; null when nothing was.</param>
/// <param name="From">Name of what switches it; empty while not decided.</param>
/// <param name="Milliamperes">What it takes from the line; null when not known.</param>
public sealed record TurnOnRow(Guid PartId, string Name, TurnOnStage Stage, SignalLinkForm? Link, Guid LinkVersion, string From, double? Milliamperes);

/// <param name="PartId">Null for the car's accessory line.</param>
public sealed record TurnOnOutput(Guid? PartId, string Name, double? LimitMilliamperes, TurnOnResult Result);
