using ShopFloor.Engineering.Mass;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Phases.Tuning.Presets;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Handover;

/// <summary>
/// Everything the handover document says, gathered from the job. Frozen as it is when the car is delivered;
/// screen, paper and client page all read this record. Holds no cost and no price.
/// </summary>
public sealed record HandoverFacts
{
    public required Letterhead Letterhead { get; init; }

    public required string JobReference { get; init; }

    public required string JobTitle { get; init; }

    public required string ClientName { get; init; }

    public required HandoverVehicle Vehicle { get; init; }

    /// <summary>Day of the handover in the shop's zone; null while it is a preview.</summary>
    public DateOnly? DeliveredOn { get; init; }

    /// <summary>Number of the release; null while it is a preview.</summary>
    public int? ReleaseNumber { get; init; }

    public string Overview { get; init; } = "";

    public IReadOnlyList<SourceGuide> Sources { get; init; } = [];

    public IReadOnlyList<SystemGroup> System { get; init; } = [];

    public IReadOnlyList<FuseMapRow> Fuses { get; init; } = [];

    /// <summary>Spare fuses left in the car; empty in handovers of before they were listed.</summary>
    public IReadOnlyList<SpareFuse> Spares { get; init; } = [];

    public IReadOnlyList<AccessRow> Access { get; init; } = [];

    public string ServiceAccess { get; init; } = "";

    public IReadOnlyList<SettingFact> Settings { get; init; } = [];

    /// <summary>Boxes as they were built; empty in handovers of before they were kept.</summary>
    public IReadOnlyList<BoxFact> Boxes { get; init; } = [];

    /// <summary>How things made by hand are built; empty in handovers of before it was kept.</summary>
    public IReadOnlyList<MadeFact> Made { get; init; } = [];

    /// <summary>The supply as measured on the finished car; empty in handovers of before it was kept.</summary>
    public IReadOnlyList<MeasuredFact> Measured { get; init; } = [];

    /// <summary>The signal path; null where none was designed, and in handovers of before it was kept.</summary>
    public HandoverSignal? Signal { get; init; }

    /// <summary>The preset in the car and what was measured with it; null without one, and in handovers of before it was kept.</summary>
    public TuningFact? Tuning { get; init; }

    public required MassFact Mass { get; init; }

    /// <summary>How the heavy things are held; empty in handovers of before it was kept.</summary>
    public IReadOnlyList<HeldFact> Held { get; init; } = [];

    public IReadOnlyList<FunctionFact> Functions { get; init; } = [];

    public IReadOnlyList<HandoverPhoto> Photos { get; init; } = [];

    public string Warranty { get; init; } = "";

    public string Care { get; init; } = "";

    public IReadOnlyList<HandoverCaution> Cautions { get; init; } = [];
}

public sealed record HandoverVehicle(string Title, string Plate, string Vin, string Colour, string Drive)
{
    /// <summary>Body, for the plan; null in releases from before it was kept.</summary>
    public BodyStyle? Body { get; init; }
}

/// <summary>What was fitted, of one kind.</summary>
public sealed record SystemGroup(string Kind, IReadOnlyList<SystemPart> Parts);

/// <param name="Name">Name of the part.</param>
/// <param name="Quantity">How many, with its unit.</param>
/// <param name="Place">Where it sits.</param>
/// <param name="Data">Its technical data in one line.</param>
public sealed record SystemPart(string Name, string Quantity, string Place, string Data)
{
    /// <summary>Key of the zone it sits in, for the plan; empty when none was set.</summary>
    public string Zone { get; init; } = "";
}

/// <param name="Fuse">Name of the fuse.</param>
/// <param name="RatingAmperes">Rating, A; null when not known.</param>
/// <param name="Form">Form of the fuse.</param>
/// <param name="Place">Where it sits.</param>
/// <param name="Protects">What it protects.</param>
public sealed record FuseMapRow(string Fuse, double? RatingAmperes, string Form, string Place, string Protects)
{
    /// <summary>Its short name, the one on the wiring sheet and the labels; empty in handovers of before there was one.</summary>
    public string Mark { get; init; } = "";

    /// <summary>Key of the zone it sits in, for the plan; empty when none was set.</summary>
    public string Zone { get; init; } = "";

    /// <summary>The run of the plan it stands in; empty when it stands in none.</summary>
    public string RunId { get; init; } = "";

    /// <summary>The fused run that feeds its own; empty for the battery.</summary>
    public string FedByRunId { get; init; } = "";

    /// <summary>Name of the distribution its run ends in; empty when it ends in a load.</summary>
    public string Distribution { get; init; } = "";

    /// <summary>Name of the place its run ends in.</summary>
    public string EndsIn { get; init; } = "";
}

/// <param name="Part">Name of the part.</param>
/// <param name="Place">Where it sits.</param>
/// <param name="Way">How to get at it.</param>
public sealed record AccessRow(string Part, string Place, string Way)
{
    /// <summary>Tools it takes, "by hand" for none; empty when nobody said, and in handovers of before it was asked.</summary>
    public string Tools { get; init; } = "";
}

public sealed record SettingFact(string Device, string Setting, string Value);

/// <param name="Name">Name of the box.</param>
/// <param name="Loudspeaker">What plays in it.</param>
/// <param name="Kind">Kind of box, in plain words.</param>
/// <param name="NetCubicMeters">Net volume, m³.</param>
/// <param name="TuningHertz">Tuning, Hz; null for a closed box.</param>
/// <param name="HighPassHertz">High-pass to keep, Hz; null for none.</param>
public sealed record BoxFact(string Name, string Loudspeaker, string Kind, double NetCubicMeters, double? TuningHertz, double? HighPassHertz);

/// <param name="AddedKilograms">Mass of what was fitted less what was taken out, as far as known.</param>
/// <param name="UnknownParts">Parts whose mass is not known.</param>
/// <param name="PayloadKilograms">Load the vehicle's own label allows; null when not written down.</param>
public sealed record MassFact(double AddedKilograms, int UnknownParts, double? PayloadKilograms)
{
    /// <summary>Vehicle, axles and wheels; empty while the wheelbase is not known, and in handovers of before they were kept.</summary>
    public IReadOnlyList<LoadRow> Loads { get; init; } = [];

    /// <summary>What the scales said of the change that was predicted; empty when it was not weighed before and after.</summary>
    public IReadOnlyList<CornerReconciliation> Reconciled { get; init; } = [];
}

/// <summary>How a heavy thing is held.</summary>
/// <param name="SafetyFactor">What the worst fastener bears over what it has to, least of all directions; null when it could not be said.</param>
/// <param name="CheckedBy">Who ticked what the fasteners keep clear of, each once; empty while nobody did.</param>
public sealed record HeldFact(string Name, double Kilograms, string HeldBy, double? SafetyFactor, string CheckedBy);

public sealed record FunctionFact(string Group, string Name, FunctionResult Before, string BeforeNote, FunctionResult After, string Explanation);

/// <param name="Id">The photo.</param>
/// <param name="Hash">Its name in the photo store.</param>
/// <param name="Caption">What it shows.</param>
public sealed record HandoverPhoto(Guid Id, string Hash, string Caption);

/// <param name="IsDanger">Whether somebody can be badly hurt or a fire start.</param>
/// <param name="Text">The caution.</param>
public sealed record HandoverCaution(bool IsDanger, string Text);
