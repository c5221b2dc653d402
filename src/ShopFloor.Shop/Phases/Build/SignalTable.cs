using ShopFloor.Engineering.Signal.Presets;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>The signal path of a job as data for other programs; lengths in m, voltages in V rms, levels in dB, powers in W, impedances in Ω.</summary>
/// <param name="GainToleranceDecibels">How far a measured voltage may lie from its target, dB.</param>
public sealed record SignalTable(
    string JobReference,
    string JobTitle,
    string Vehicle,
    double GainToleranceDecibels,
    IReadOnlyList<SourcePreset> Sources,
    IReadOnlyList<ConnectionRow> Connections,
    IReadOnlyList<GainTableRow> Channels,
    IReadOnlyList<string> Free,
    IReadOnlyList<string> Stops);

/// <summary>One amplifier channel or bridged pair: what it drives and what its gain is set to.</summary>
/// <param name="Loudspeakers">What hangs on it.</param>
/// <param name="Coils">How coils are joined.</param>
/// <param name="ControlVolts">Position of the sensitivity control.</param>
/// <param name="MeasuredDecibels">How far the measured voltage lies from the target; null while none stands.</param>
/// <param name="Verdict">Whether it was measured and lies within the tolerance.</param>
public sealed record GainTableRow(
    string Channel,
    string Loudspeakers,
    string Coils,
    string FedBy,
    double LoadOhms,
    double? AmplifierWatts,
    double? LoudspeakerWatts,
    double? SetWatts,
    double? ToneHertz,
    double? ToneDecibelsFullScale,
    double? TargetVolts,
    double? LowestVolts,
    double? HighestVolts,
    double? ControlVolts,
    double? SignalToNoiseDecibels,
    double? MeasuredVolts,
    double? MeasuredDecibels,
    MeasuredVerdict Verdict,
    string MeasuredBy,
    DateTimeOffset? MeasuredAt);
