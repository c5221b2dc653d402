using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication.Service;

/// <summary>What has to be reached later.</summary>
public enum ServiceKind
{
    /// <summary>A fuse or breaker.</summary>
    Fuse,

    /// <summary>A battery or its switch.</summary>
    Battery,

    /// <summary>A knob or port for tuning.</summary>
    Adjustment,

    /// <summary>Something of the vehicle: spare wheel, jack, tow eye, lamp.</summary>
    VehicleItem,

    /// <summary>Any other part.</summary>
    Part,
}

/// <summary>How something is reached.</summary>
/// <param name="Id">Identifier, unique in the input.</param>
/// <param name="Name">Name for texts.</param>
/// <param name="Kind">What it is.</param>
/// <param name="Steps">What is done until a hand is on it, in order, up to 30: lids, screws, panels.</param>
/// <param name="Tools">Tools it takes, up to 20; empty for hands alone.</param>
/// <param name="Destroys">Whether something is cut, unglued or broken on the way.</param>
public sealed record ServiceItem(string Id, string Name, ServiceKind Kind, IReadOnlyList<string> Steps, IReadOnlyList<string> Tools, bool Destroys = false);

/// <summary>Most steps and tools. Common practice, no source; a shop sets its own.</summary>
/// <param name="FuseSteps">Steps to a fuse or battery (0 to 30).</param>
/// <param name="FuseTools">Tools to a fuse or battery (0 to 20).</param>
/// <param name="OtherSteps">Steps to anything else (0 to 30).</param>
/// <param name="OtherTools">Tools to anything else (0 to 20).</param>
public sealed record ServiceLimits(int FuseSteps = 2, int FuseTools = 0, int OtherSteps = 5, int OtherTools = 2);

/// <summary>What has to be reached, against the limits.</summary>
/// <param name="Items">Items, up to 200.</param>
/// <param name="Limits">Limits.</param>
public sealed record ServiceAccessInput(IReadOnlyList<ServiceItem> Items, ServiceLimits Limits)
{
    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        if (Items.Count > 200)
            checks.Add(nameof(Items), $"Items: {Items.Count} are not accepted; enter at most 200.");
        checks.Distinct(nameof(Items), "Items", Items.Select(item => item.Id));
        for (var n = 0; n < Items.Count; n++)
        {
            checks.Named($"{nameof(Items)}[{n}].Name", "Name of the item", Items[n].Name);
            checks.Known($"{nameof(Items)}[{n}].Kind", $"{Items[n].Name}, kind", Items[n].Kind);
            checks.InRange($"{nameof(Items)}[{n}].Steps", $"{Items[n].Name}, steps", Items[n].Steps.Count, 0, 30);
            checks.InRange($"{nameof(Items)}[{n}].Tools", $"{Items[n].Name}, tools", Items[n].Tools.Count, 0, 20);
        }

        checks.InRange($"{nameof(Limits)}.FuseSteps", "Steps to a fuse", Limits.FuseSteps, 0, 30);
        checks.InRange($"{nameof(Limits)}.FuseTools", "Tools to a fuse", Limits.FuseTools, 0, 20);
        checks.InRange($"{nameof(Limits)}.OtherSteps", "Steps to a part", Limits.OtherSteps, 0, 30);
        checks.InRange($"{nameof(Limits)}.OtherTools", "Tools to a part", Limits.OtherTools, 0, 20);
        return checks.Problems;
    }
}

/// <summary>Checks that everything that has to be reached later can be.</summary>
public static class ServiceAccess
{
    private const string Practice = Unsourced.CommonPractice;

    /// <summary>Findings, gravest first: a stop where something is destroyed on the way to a fuse, battery or item of the vehicle, else a warning.</summary>
    /// <param name="input">Items and limits.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="ServiceAccessInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static IReadOnlyList<Finding> Check(ServiceAccessInput input)
    {
        ArgumentNullException.ThrowIfNull(input);
        InputChecks.ThrowIfAny(input.Validate());
        var findings = new List<Finding>();
        foreach (var item in input.Items)
        {
            var urgent = item.Kind is ServiceKind.Fuse or ServiceKind.Battery;
            var (steps, tools) = urgent ? (input.Limits.FuseSteps, input.Limits.FuseTools) : (input.Limits.OtherSteps, input.Limits.OtherTools);
            if (item.Destroys)
            {
                findings.Add(new Finding("service-destroys", urgent || item.Kind == ServiceKind.VehicleItem ? Severity.Stop : Severity.Warn, item.Id, item.Name,
                    "Something has to be cut or broken to reach it.", "Make a lid, or move it.", Practice));
            }

            if (item.Steps.Count > steps || item.Tools.Count > tools)
            {
                findings.Add(new Finding("service-far", Severity.Warn, item.Id, item.Name,
                    $"{Count(item.Steps.Count, "step")} and {Count(item.Tools.Count, "tool")} to reach it; {Count(steps, "step")} and {Count(tools, "tool")} are the limit.",
                    urgent ? "Move it behind one lid without tools, and note the place in the handover." : "Fewer panels in the way, or screws of one kind.", Practice));
            }
        }

        return [.. findings.OrderByDescending(finding => finding.Severity)];
    }

    private static string Count(int number, string what) => $"{number} {what}{(number == 1 ? "" : "s")}";
}
