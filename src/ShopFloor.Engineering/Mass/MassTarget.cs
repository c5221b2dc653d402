using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Mass;

/// <summary>What a build may add, and what it adds.</summary>
/// <param name="TargetKilograms">Mass the build may add, kg (0.1 to 2000).</param>
/// <param name="Items">What is put in and taken out.</param>
public sealed record MassTargetInput(double TargetKilograms, IReadOnlyList<AddedMassItem> Items)
{
    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(TargetKilograms), "Target of added mass", TargetKilograms, 0.1, 2_000, QuantityKind.Mass);
        checks.AddRange(new AddedMassInput { Items = Items, Label = new PayloadLabel() }.Validate(text));
        return checks.Problems;
    }
}

/// <summary>An item and its share of the target.</summary>
/// <param name="ItemId">Item.</param>
/// <param name="Name">Its name.</param>
/// <param name="Kilograms">Its mass, kg; negative when taken out.</param>
/// <param name="ShareOfTarget">Its share of the target, 1 being all of it.</param>
public sealed record MassShare(string ItemId, string Name, double Kilograms, double ShareOfTarget);

/// <summary>How a build stands against its target.</summary>
/// <param name="NetKilograms">Added mass so far, kg.</param>
/// <param name="LeftKilograms">What is left of the target, kg; negative when it is passed.</param>
/// <param name="UsedShare">Share of the target used.</param>
/// <param name="Heaviest">Items, heaviest first.</param>
/// <param name="Findings">What was found, gravest first.</param>
public sealed record MassTargetResult(double NetKilograms, double LeftKilograms, double UsedShare, IReadOnlyList<MassShare> Heaviest, IReadOnlyList<Finding> Findings);

/// <summary>A build by a budget of mass: target, sum and shares.</summary>
public static class MassTarget
{
    /// <summary>From this share of the target it is warned of. Common practice, no source.</summary>
    public const double CloseShare = 0.9;

    /// <summary>Compares the items with the target.</summary>
    /// <param name="input">Target and items.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="MassTargetInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static MassTargetResult Compute(MassTargetInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));
        MassShare[] shares = [.. input.Items.Where(item => item.UnitMassKilograms is not null)
            .Select(item => (item, Kilograms: (item.Change == MassChange.Removed ? -1 : 1) * item.Quantity * item.UnitMassKilograms!.Value)) // filtered
            .Select(pair => new MassShare(pair.item.Id, pair.item.Name, pair.Kilograms, pair.Kilograms / input.TargetKilograms))
            .OrderByDescending(share => share.Kilograms).ThenBy(share => share.Name, StringComparer.Ordinal)];
        var net = shares.Sum(share => share.Kilograms);
        var findings = new FindingList("mass-target", "Mass budget");
        var missing = input.Items.Count(item => item.UnitMassKilograms is null);
        if (net > input.TargetKilograms)
        {
            findings.Add("mass-target-passed", Severity.Warn, $"{text.Kilograms(net)} are {text.Kilograms(net - input.TargetKilograms)} above the target of {text.Kilograms(input.TargetKilograms)}.",
                shares.Length > 0 ? $"Look at the heaviest first: {shares[0].Name}, {text.Kilograms(shares[0].Kilograms)}." : "Take mass out.", "the job's own target");
        }
        else if (net > CloseShare * input.TargetKilograms)
        {
            findings.Add("mass-target-close", Severity.Note, $"{text.Percent(100 * net / input.TargetKilograms)} of the target are used; {text.Kilograms(input.TargetKilograms - net)} are left.", "Weigh what comes next before it is fitted.", "the job's own target");
        }

        if (missing > 0)
            findings.Add("mass-target-incomplete", Severity.Warn, $"{missing} {(missing == 1 ? "item is" : "items are")} without a mass and not in the sum.", "Weigh them and enter the mass.", "needed for the sum");
        return new MassTargetResult(net, input.TargetKilograms - net, net / input.TargetKilograms, shares, findings.Sorted);
    }
}
