using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Shop.Catalogue;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Every connector sound goes through on a job, free ones too, with what is linked.</summary>
public sealed record ConnectionsView
{
    public required Guid JobId { get; init; }

    /// <summary>Devices in the order sound passes them: sources, processors, amplifiers, loudspeakers.</summary>
    public required IReadOnlyList<ConnectedUnit> Units { get; init; }

    /// <summary>Processors with what their outputs are made of.</summary>
    public required IReadOnlyList<ProcessorRow> Processors { get; init; }

    public ConnectedInput? Input(Guid partId, int number) => Units.SelectMany(unit => unit.Inputs).FirstOrDefault(input => input.PartId == partId && input.Number == number);

    /// <summary>Why an output may not feed an input at all, in words of the trade; null when it may. Connectors that do not fit are another matter.</summary>
    public string? Refusal(ConnectedOutput from, ConnectedInput to)
    {
        ArgumentNullException.ThrowIfNull(from);
        ArgumentNullException.ThrowIfNull(to);
        var (giver, taker) = (Units.FirstOrDefault(unit => unit.PartId == from.PartId)?.Kind, Units.FirstOrDefault(unit => unit.PartId == to.PartId)?.Kind);
        return from.PartId == to.PartId ? "A device does not feed itself."
            : taker == PartKind.Loudspeaker && giver != PartKind.Amplifier ? "A loudspeaker is fed by an output of an amplifier."
            : taker != PartKind.Loudspeaker && giver == PartKind.Amplifier ? "An output of an amplifier feeds a loudspeaker."
            : null;
    }

    public ConnectedOutput? Output(Guid? partId, int number) => Units.SelectMany(unit => unit.Outputs).FirstOrDefault(output => output.PartId == partId && output.Number == number);
}

/// <summary>One unit of a line of the parts list.</summary>
/// <param name="Key">The same as in the drawing of the path.</param>
public sealed record ConnectedUnit(string Key, Guid PartId, PartKind Kind, string Name, IReadOnlyList<ConnectedInput> Inputs, IReadOnlyList<ConnectedOutput> Outputs);

/// <param name="Number">Counted over the units of the line.</param>
/// <param name="Label">As it stands on the device; empty for a loudspeaker with one.</param>
/// <param name="Name">With its device.</param>
/// <param name="Link">What feeds it; null when it is free.</param>
/// <param name="Fits">Whether the output that feeds it fits; true while it is free.</param>
public sealed record ConnectedInput(Guid PartId, int Number, string Label, string Name, PortKind Kind, ImageSide Side, SignalLinkForm? Link, Guid LinkVersion, bool Fits);

/// <param name="Feeds">How many inputs it feeds.</param>
public sealed record ConnectedOutput(Guid PartId, int Number, string Label, string Name, PortKind Kind, ImageSide Side, int Feeds);

/// <param name="Outputs">Its outputs with where they end.</param>
public sealed record ProcessorRow(Guid PartId, string Name, Guid Version, SignalRoutingForm Form, IReadOnlyList<ProcessorOutput> Outputs);

/// <param name="Ends">Loudspeakers it reaches, or what it feeds; empty when nothing.</param>
public sealed record ProcessorOutput(int Number, string Name, string Ends);

/// <summary>A change of links, kept to take it back.</summary>
/// <param name="Words">What was done, for example "Player, left to Processor, input 1".</param>
public sealed record ConnectionStep(string Words, IReadOnlyList<LinkChange> Changes);

/// <param name="Before">What fed it; null when nothing did.</param>
/// <param name="After">Version the change left; empty when it left the input open.</param>
public sealed record LinkChange(Guid ToPartId, int ToInput, SignalLinkForm? Before, Guid After);
