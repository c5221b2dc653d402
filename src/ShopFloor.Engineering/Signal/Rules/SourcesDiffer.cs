using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Levels;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>Sources play about equally loud</summary>
public sealed class SourcesDiffer : SignalRule
{
    /// <inheritdoc/>
    public override string Code => "sources-differ";

    /// <inheritdoc/>
    public override string Title => "Sources play about equally loud";

    /// <inheritdoc/>
    public override string Why => "Changing the source should not make the client jump.";

    /// <inheritdoc/>
    public override string Remedy => "Trim the inputs of the processor.";

    /// <inheritdoc/>
    public override string Example => "A player with 4 V and a radio with 0.5 V: 18 dB between them when the source is changed.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        foreach (var levels in state.Channels)
        {
            // A source may come by several ways; its loudest is what is heard of it.
            var known = levels.Routes.Where(way => way.InputVolts > 0).GroupBy(way => way.Route.Source.Id).Select(ways => ways.MaxBy(way => way.InputVolts)!).ToList(); // a group has one at least
            if (known.Count < 2)
                continue;
            var (loud, soft) = (known.MaxBy(way => way.InputVolts)!, known.MinBy(way => way.InputVolts)!); // at least two
            var difference = DecibelLevels.OfRatio(loud.InputVolts!.Value / soft.InputVolts!.Value); // filtered above
            if (difference > 6)
                yield return Note(levels.Channel.Load.Id, levels.Channel.Name, $"{loud.Route.Source.Name} is {state.Text.With(difference, "dB")} louder than {soft.Route.Source.Name} at full scale.", Remedy);
        }
    }
}
