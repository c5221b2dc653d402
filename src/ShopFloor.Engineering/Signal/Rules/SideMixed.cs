using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>Left stays left and right stays right</summary>
public sealed class SideMixed : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "side-mixed";

    /// <inheritdoc/>
    public override string Title => "Left stays left and right stays right";

    /// <inheritdoc/>
    public override string Why => "A driver on the wrong side breaks the image, and no tuning mends it.";

    /// <inheritdoc/>
    public override string Remedy => "Change over the two signal cables or the two loudspeaker cables, not both.";

    /// <inheritdoc/>
    public override string Example => "The processor's output 1 is made of the left signal; its cable ends at the channel of the right tweeter.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        foreach (var levels in state.Channels)
        {
            foreach (var side in levels.Routes.Select(way => SideOf(way.Route)).Distinct().Where(side => side is ImageSide.Left or ImageSide.Right))
            {
                foreach (var driver in levels.Channel.Drivers.Select(share => share.Driver).Where(driver => driver.Side is ImageSide.Left or ImageSide.Right && driver.Side != side))
                    yield return Stop(driver.Id, driver.Name, $"It sits on the {Words(driver.Side)} and is fed with the {Words(side)} signal.", Remedy);
            }
        }

        static ImageSide SideOf(SignalRoute route) => route.Hops.Select(hop => hop.Output?.Side ?? ImageSide.Both).LastOrDefault(side => side != ImageSide.Both);
        static string Words(ImageSide side) => side == ImageSide.Left ? "left" : "right";
    }
}
