using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>The filters of a channel as a version of a preset sets them: taken over once, and told when the car holds others.</summary>
public sealed record TunedFilters
{
    /// <summary>The version of the preset.</summary>
    public required Guid VersionId { get; init; }

    /// <summary>Preset and version in words.</summary>
    public required string Label { get; init; }

    /// <summary>The channel, in words.</summary>
    public required string Channel { get; init; }

    /// <summary>Corner of its high-pass, Hz; null for none.</summary>
    public double? HighPassHertz { get; init; }

    public double? LowPassHertz { get; init; }

    public IReadOnlyList<FilterSection> HighPass { get; init; } = [];

    public IReadOnlyList<FilterSection> LowPass { get; init; } = [];

    /// <summary>Bells, shelves and whatever else is set.</summary>
    public IReadOnlyList<FilterSection> Others { get; init; } = [];

    /// <summary>All of it in words.</summary>
    public required string Words { get; init; }

    /// <summary>Whether they do the same to the sound, whatever they are called.</summary>
    public bool ActsLike(TunedFilters other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return HighPass.SequenceEqual(other.HighPass) && LowPass.SequenceEqual(other.LowPass) && Others.SequenceEqual(other.Others);
    }

    public override string ToString() => $"{Label}, {Channel}: {Words}";
}

/// <summary>The filters a channel has in the car.</summary>
/// <param name="LoudspeakerPartIds">Loudspeakers it plays.</param>
public sealed record ChannelInCar(IReadOnlyList<Guid> LoudspeakerPartIds, TunedFilters Filters);

/// <summary>Knows what a later phase has set for the channels of a job.</summary>
public interface ITunedChannels
{
    /// <returns>Channels of the preset the car holds; none while nobody said which it is.</returns>
    Task<IReadOnlyList<ChannelInCar>> InCarAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken);
}
