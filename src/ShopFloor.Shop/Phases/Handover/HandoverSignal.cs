using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Shop.Phases.Handover;

/// <summary>The signal path as it left the shop, for the client's file and the next technician.</summary>
/// <param name="Drawing">Boxes and cables.</param>
/// <param name="Levels">The gain sheet with what was measured.</param>
/// <param name="Connections">Every cable with its ends.</param>
public sealed record HandoverSignal(
    SignalGraph Drawing, IReadOnlyList<HandoverChannel> Channels, IReadOnlyList<MeasuredFact> Levels, IReadOnlyList<ConnectionRow> Connections)
{
    /// <returns>Null for a job whose path was not worked out.</returns>
    internal static HandoverSignal? Of(SignalPathView view, IReadOnlyList<MeasuredRow> levels) => view.Result is null || view.Channels.Count == 0
        ? null
        : new HandoverSignal(
            SignalGraph.Of(view),
            [
                .. view.Channels.Select(row => new HandoverChannel(
                    row.Drivers, row.Levels.Channel.Name, row.Coils, row.Levels.Channel.NominalOhms, row.FedBy, row.Levels.Channel.TargetWatts, row.Levels.Step?.ToneHertz, row.Levels.Step?.ToneDecibelsFullScale)),
            ],
            [.. levels.Select(MeasuredFact.Of)],
            view.Connections);
}

/// <param name="SetWatts">Power its gain is set for, W.</param>
/// <param name="ToneHertz">Tone it was set with, Hz.</param>
/// <param name="ToneDecibelsFullScale">Level of that tone, dB full scale.</param>
public sealed record HandoverChannel(string Loudspeakers, string Channel, string Coils, double LoadOhms, string FedBy, double? SetWatts, double? ToneHertz, double? ToneDecibelsFullScale);
