using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Documents.Diagrams;

/// <summary>The turn-on lines of a job as boxes and lines.</summary>
public static class TurnOnGraph
{
    /// <summary>What was decided, each device with its delay; empty while nothing was.</summary>
    public static SignalGraph Of(LightingPlanView view, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(text);
        var rows = view.TurnOn.Where(row => row.Link is not null).ToList();
        var givers = rows.Select(row => KeyOf(row.Link!.FromPartId)).ToHashSet(); // filtered
        List<SignalNode> nodes =
        [
            .. view.Triggers.Where(trigger => givers.Contains(KeyOf(trigger.PartId)) && rows.TrueForAll(row => row.PartId != trigger.PartId))
                .Select(trigger => new SignalNode(KeyOf(trigger.PartId), trigger.Name, [], [], ["turn-on"])),
            .. rows.Select(row => new SignalNode(
                KeyOf(row.PartId), row.Name,
                [row.Link!.DelaySeconds is > 0 and { } delay ? $"{text.With(delay, "s")} later" : "at once"], // filtered
                [""], givers.Contains(KeyOf(row.PartId)) ? ["turn-on"] : [])),
        ];
        var known = nodes.Select(node => node.Key).ToHashSet();
        return new SignalGraph(nodes, [.. rows.Where(row => known.Contains(KeyOf(row.Link!.FromPartId))).Select(row => new SignalEdge(KeyOf(row.Link!.FromPartId), 0, KeyOf(row.PartId), 0))]); // filtered
    }

    private static string KeyOf(Guid? part) => part?.ToString() ?? "car";
}
