using ShopFloor.Engineering.Signal.Loads;

namespace ShopFloor.Engineering.Signal.Chain;

/// <summary>A cable, fibre or radio link from an output to an input.</summary>
public sealed record SignalLink
{
    /// <summary>Identifier, unique in the path.</summary>
    public required string Id { get; init; }

    /// <summary>Device it starts at.</summary>
    public required string FromDevice { get; init; }

    /// <summary>Output it starts at.</summary>
    public required string FromPort { get; init; }

    /// <summary>Device it ends at.</summary>
    public required string ToDevice { get; init; }

    /// <summary>Input it ends at.</summary>
    public required string ToPort { get; init; }

    /// <summary>Length, m (0 to 50); null when not known.</summary>
    public double? LengthMeters { get; init; }

    /// <summary>Whether it lies beside supply cables.</summary>
    public bool BesideSupplyCable { get; init; }

    /// <summary>Whether it is made inside the device it ends at, by an input switch, and has no cable.</summary>
    public bool IsInternal { get; init; }
}

/// <summary>The whole path from sources to drivers.</summary>
public sealed record SignalPathInput
{
    /// <summary>Everything the signal passes.</summary>
    public required IReadOnlyList<SignalDevice> Devices { get; init; }

    /// <summary>Cables, fibres and radio links between devices, amplifier outputs excepted.</summary>
    public required IReadOnlyList<SignalLink> Links { get; init; }

    /// <summary>What each amplifier channel or bridged pair drives.</summary>
    public IReadOnlyList<ChannelLoad> Loads { get; init; } = [];

    /// <summary>How far below full scale the music's loudest usual passages lie, so that the amplifier just reaches full output there, dB (0 to 20).</summary>
    public double GainOverlapDecibels { get; init; } = SignalDefaults.GainOverlapDecibels;

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<Explained.InputProblem> Validate(Units.UnitText? text = null) => SignalPathChecks.Find(this, text ?? Units.UnitText.Invariant);
}
