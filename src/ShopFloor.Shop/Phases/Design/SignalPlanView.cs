using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Runs;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Loudspeaker, signal and turn-on runs of a job as they stand now.</summary>
public sealed record SignalPlanView
{
    public required Guid JobId { get; init; }

    public required BudgetSettingsForm Settings { get; init; }

    /// <summary>One row for each loudspeaker, or for each coil that is fed on its own.</summary>
    public required IReadOnlyList<SpeakerRow> Speakers { get; init; }

    /// <summary>One row for each processor and amplifier, with what feeds it.</summary>
    public required IReadOnlyList<SignalRow> Signals { get; init; }

    /// <summary>Outputs of amplifiers a loudspeaker may be fed by.</summary>
    public required IReadOnlyList<PortChoice> Outputs { get; init; }

    public required CableCutListResult Cuts { get; init; }

    /// <summary>Cables the runs ask for; what goes on the parts list.</summary>
    public required IReadOnlyList<LinkCable> Cables { get; init; }

    /// <summary>Run ids of cables whose length or size is not known yet; what the parts list has for them stays.</summary>
    public required IReadOnlySet<string> Undecided { get; init; }

    /// <summary>Gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }
}

/// <param name="PartId">Null for the car itself.</param>
public sealed record PortChoice(Guid? PartId, int Output, string Name);

/// <param name="Input">Input of the link, counted from 0 over units and coils.</param>
/// <param name="Coils">Voice coils of the loudspeaker.</param>
/// <param name="Link">What was decided; null when nothing was.</param>
/// <param name="From">Name of the output; empty while not decided.</param>
/// <param name="LoadOhms">Impedance of this loudspeaker as its coils are joined; null when not known.</param>
/// <param name="Conductor">What is used: the cable on the list, what was chosen, or the least that keeps the limits; null while not known.</param>
/// <param name="Result">Null while length or impedance is missing.</param>
public sealed record SpeakerRow(
    Guid PartId, int Input, int Coils, string Name, SignalLinkForm? Link, Guid LinkVersion, string From, double? LengthMeters, double? LoadOhms, ConductorSize? Conductor, bool OnList, SpeakerRunResult? Result)
{
    public bool LengthMeasured => Link?.LengthMeters is not null;

    /// <summary>The figures of what is used.</summary>
    public SpeakerRunFigures? Figures => Result?.Entered ?? Result?.Least;
}

/// <param name="ToPartId">The device that is fed.</param>
/// <param name="FromPartId">What feeds it; null when several do or nothing was decided.</param>
/// <param name="Channels">Channels linked.</param>
/// <param name="Inputs">Channels it has; 0 when not known.</param>
/// <param name="LinkVersions">Versions of its links, to change them as they were seen.</param>
/// <param name="Sources">What it may be fed from.</param>
/// <param name="Result">Null while length or output impedance is missing.</param>
public sealed record SignalRow(
    Guid ToPartId, string Name, Guid? FromPartId, string From, int Channels, int Inputs, double? LengthMeters, bool LengthMeasured, IReadOnlyList<Guid> LinkVersions, IReadOnlyList<PortChoice> Sources, SignalRunResult? Result);

/// <summary>A cable that links ask for.</summary>
/// <param name="RunId">Run id of its line on the parts list.</param>
/// <param name="AreaSquareMillimeters">Least conductor; null for signal cable, which has none to choose.</param>
/// <param name="Pieces">Cables side by side.</param>
public sealed record LinkCable(
    string RunId, string Name, Catalogue.CablePurpose Purpose, double? AreaSquareMillimeters, string SizeLabel, double? LengthMeters, int Pieces, string From, string To);

/// <summary>What putting the links' cables on the parts list did.</summary>
/// <param name="Kept">Lines already ordered or further that no longer match, told one by one.</param>
public sealed record LinkCablesResult(int Added, int Updated, int Removed, IReadOnlyList<string> Kept);
