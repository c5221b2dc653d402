using ShopFloor.Engineering.Tuning.Alignment;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Shop.Phases.Tuning.Measurements;

/// <summary>A channel that is tuned: what one output of the processor, or one amplifier channel without a processor, plays.</summary>
public sealed record TuningChannel
{
    /// <summary>Stays the same while its output is the same.</summary>
    public required string Id { get; init; }

    /// <summary>For example "Tweeter, left".</summary>
    public required string Name { get; init; }

    public required StageSide Side { get; init; }

    public required DriverRole Role { get; init; }

    /// <summary>The same role on the other side; null when there is none or several.</summary>
    public string? PairId { get; init; }

    /// <summary>Part of the processor; null when the amplifier is fed without one.</summary>
    public Guid? ProcessorPartId { get; init; }

    /// <summary>Output of the processor from 0, counted over all units of its line; null without one.</summary>
    public int? ProcessorOutput { get; init; }

    /// <summary>The output in words: of the processor, else of the amplifier.</summary>
    public required string OutputName { get; init; }

    /// <summary>Loudspeakers in words.</summary>
    public required string Drivers { get; init; }

    public required IReadOnlyList<Guid> LoudspeakerPartIds { get; init; }

    /// <summary>Place of the first loudspeaker; empty while it is not set.</summary>
    public required string Zone { get; init; }

    /// <summary>Lowest frequency its loudspeakers may be driven at, Hz; null while no part says.</summary>
    public double? LowestHertz { get; init; }

    /// <summary>High-pass set on the parts, Hz.</summary>
    public double? HighPassHertz { get; init; }

    /// <summary>Low-pass set on the parts, Hz.</summary>
    public double? LowPassHertz { get; init; }

    /// <summary>Band it can be used in before it is measured, Hz: the parts' lowest frequency, else what is usual for its role.</summary>
    public required double BandFromHertz { get; init; }

    public required double BandToHertz { get; init; }

    /// <summary>Radius of the cone, m: of the piston area, else of four fifths of the nominal size; null while neither is known.</summary>
    public double? PistonRadiusMeters { get; init; }

    /// <summary>Lowest frequency a test signal for it begins at, Hz: never below what its loudspeakers bear.</summary>
    public double TestFromHertz => Math.Max(10, LowestHertz ?? BandFromHertz);
}
