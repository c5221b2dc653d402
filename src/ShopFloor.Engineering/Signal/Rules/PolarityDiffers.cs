using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>Coils and twins move the same way</summary>
public sealed class PolarityDiffers : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "polarity-differs";

    /// <inheritdoc/>
    public override string Title => "Coils and twins move the same way";

    /// <inheritdoc/>
    public override string Why => "Two coils against each other cancel; two drivers of a pair against each other lose the bass and the centre.";

    /// <inheritdoc/>
    public override string Remedy => "Connect both the same way; turn the polarity in the processor when tuning asks for it.";

    /// <inheritdoc/>
    public override string Example => "Plus and minus of the left midbass are changed over: voices wander and the bass is gone in the middle.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        var shares = state.Channels.SelectMany(levels => levels.Channel.Drivers).ToList();
        foreach (var driver in shares.GroupBy(share => share.Driver.Id).Where(group => group.Any(share => share.Inverted is null) || group.Select(share => share.Inverted).Distinct().Count() > 1))
            yield return Stop(driver.Key, driver.First().Driver.Name, "Its coils are connected against each other.", "Change over plus and minus of one of them.");
        foreach (var twins in shares.Where(share => share.Driver.Model.Length > 0 && share.Inverted is not null).GroupBy(share => share.Driver.Model))
        {
            if (twins.Select(share => share.Inverted).Distinct().Count() > 1)
            {
                var odd = twins.First(share => share.Inverted == true).Driver;
                yield return Warn(odd.Id, odd.Name, $"It is changed over against its twin ({string.Join(", ", twins.Select(share => share.Driver.Name).Distinct().Where(name => name != odd.Name))}).", Remedy);
            }
        }
    }
}
