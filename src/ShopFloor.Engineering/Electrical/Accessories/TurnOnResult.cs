using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical.Accessories;

/// <summary>When one device is switched.</summary>
/// <param name="DeviceId">Identifier.</param>
/// <param name="Name">Name.</param>
/// <param name="Stage">Place in the order.</param>
/// <param name="DelaySeconds">Delay from the start of the sequence, s.</param>
/// <param name="SteadySeconds">When it is steady (switching on) or quiet (switching off), s.</param>
public sealed record SequenceStep(string DeviceId, string Name, TurnOnStage Stage, double DelaySeconds, double SteadySeconds);

/// <summary>Load of the turn-on line and the order of switching.</summary>
public sealed record TurnOnResult
{
    /// <summary>Known current of all devices, A.</summary>
    public required double TotalAmperes { get; init; }

    /// <summary>Identifiers of devices whose turn-on current is not known.</summary>
    public required IReadOnlyList<string> MissingCurrentIds { get; init; }

    /// <summary>Whether a relay is needed: the known sum is above the limit, or it comes so near that a missing current may break it; null when the limit is not known.</summary>
    public required bool? RelayNeeded { get; init; }

    /// <summary>Switching on, first to last.</summary>
    public required IReadOnlyList<SequenceStep> PowerUp { get; init; }

    /// <summary>When everything is on and steady, s.</summary>
    public required double PowerUpSeconds { get; init; }

    /// <summary>Switching off, first to last.</summary>
    public required IReadOnlyList<SequenceStep> PowerDown { get; init; }

    /// <summary>When the last device may be switched off, s.</summary>
    public required double PowerDownSeconds { get; init; }

    /// <summary>What was found, gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}
