using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Levels;
using ShopFloor.Shop.Money;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>The signal path of a job as its parts and links stand now.</summary>
public sealed record SignalPathView
{
    public required Guid JobId { get; init; }

    /// <summary>What was computed; null while nothing is linked.</summary>
    public required SignalPathInput? Input { get; init; }

    /// <summary>Null while nothing is linked or a figure is refused; the findings say which.</summary>
    public required SignalPathResult? Result { get; init; }

    /// <summary>One row for each amplifier channel or bridged pair with a load.</summary>
    public required IReadOnlyList<PathChannel> Channels { get; init; }

    /// <summary>Amplifier channels that drive nothing.</summary>
    public required IReadOnlyList<string> Unused { get; init; }

    /// <summary>Gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>Every cable with its ends; empty while nothing is linked.</summary>
    public IReadOnlyList<ConnectionRow> Connections { get; init; } = [];

    /// <summary>How far a measured gain may lie from its target, dB.</summary>
    public double GainToleranceDecibels { get; init; } = SignalDefaults.GainToleranceDecibels;

    public string NameOf(string deviceId) => Input?.Devices.FirstOrDefault(device => device.Id == deviceId)?.Name ?? "";
}

/// <param name="Drivers">Loudspeakers on it.</param>
/// <param name="Coils">How their coils are joined, in plain words.</param>
/// <param name="FedBy">Output whose cable ends at its input; empty when none does.</param>
/// <param name="OutputId">What findings about its output are about.</param>
public sealed record PathChannel(string Drivers, string Coils, string FedBy, string OutputId, ChannelLevels Levels);

/// <summary>The signal path as a paper of the shop.</summary>
public sealed record SignalSheet(Letterhead Letterhead, string JobReference, string JobTitle, string Vehicle, SignalPathView View);
