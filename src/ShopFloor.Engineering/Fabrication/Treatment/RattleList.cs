using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication.Treatment;

/// <summary>A rattle found by a slow or stepped sine.</summary>
/// <param name="Id">Identifier, unique in the list.</param>
/// <param name="Place">Where, such as "rear shelf, left clip".</param>
/// <param name="Hertz">Frequency it was found at, Hz (5 to 2000).</param>
/// <param name="LevelDecibels">Level it began at, dB at the seat (40 to 150); null when not noted.</param>
/// <param name="Remedy">What was done; null while nothing was.</param>
/// <param name="StillHeard">Whether it was heard when the same tone was played again; null until it was.</param>
public sealed record Rattle(string Id, string Place, double Hertz, double? LevelDecibels = null, string? Remedy = null, bool? StillHeard = null);

/// <summary>How a rattle stands.</summary>
public enum RattleState
{
    /// <summary>Found.</summary>
    Found,

    /// <summary>Something was done; not played again.</summary>
    Treated,

    /// <summary>Played again and heard again.</summary>
    Returned,

    /// <summary>Played again and gone.</summary>
    Gone,
}

/// <summary>The list of rattles and what is left to do.</summary>
public static class RattleList
{
    /// <summary>What is wrong with a list; empty when it is sound.</summary>
    /// <param name="rattles">The list, up to 200.</param>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public static IReadOnlyList<InputProblem> Validate(IReadOnlyList<Rattle> rattles, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(rattles);
        var checks = new InputChecks(text ?? UnitText.Invariant);
        if (rattles.Count > 200)
            checks.Add("Rattles", $"Rattles: {rattles.Count} are not accepted; enter at most 200.");
        checks.Distinct("Rattles", "Rattles", rattles.Select(rattle => rattle.Id));
        for (var n = 0; n < rattles.Count; n++)
        {
            checks.Named($"Rattles[{n}].Place", "Place of the rattle", rattles[n].Place);
            checks.InRange($"Rattles[{n}].Hertz", $"{rattles[n].Place}, frequency in Hz", rattles[n].Hertz, 5, 2_000);
            checks.InRange($"Rattles[{n}].LevelDecibels", $"{rattles[n].Place}, level in dB", rattles[n].LevelDecibels, 40, 150);
            if (rattles[n].StillHeard is not null && string.IsNullOrWhiteSpace(rattles[n].Remedy))
                checks.Add($"Rattles[{n}].Remedy", $"{rattles[n].Place}: it was played again, but no remedy was entered.");
        }

        return checks.Problems;
    }

    /// <summary>How a rattle stands.</summary>
    /// <param name="rattle">The rattle.</param>
    public static RattleState StateOf(Rattle rattle)
    {
        ArgumentNullException.ThrowIfNull(rattle);
        return rattle.StillHeard switch
        {
            true => RattleState.Returned,
            false => RattleState.Gone,
            null => string.IsNullOrWhiteSpace(rattle.Remedy) ? RattleState.Found : RattleState.Treated,
        };
    }

    /// <summary>A warning for each that is not gone, lowest frequency first.</summary>
    /// <param name="rattles">The list.</param>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="Validate"/> finds a problem; the parameter name is the field.</exception>
    public static IReadOnlyList<Finding> Open(IReadOnlyList<Rattle> rattles, UnitText? text = null)
    {
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(Validate(rattles, text));
        return [.. rattles.Where(rattle => StateOf(rattle) != RattleState.Gone).OrderBy(rattle => rattle.Hertz).Select(rattle =>
        {
            var (what, remedy) = StateOf(rattle) switch
            {
                RattleState.Found => ("rattles", "Find what touches, fix, felt or damp it."),
                RattleState.Treated => ($"was treated ({rattle.Remedy})", "Play the same tone again at the same level."),
                _ => ($"rattles again after: {rattle.Remedy}", "Look for a second place that touches."),
            };
            return new Finding("rattle-open", Severity.Warn, rattle.Id, rattle.Place, $"At {text.Number(rattle.Hertz)} Hz it {what}.", remedy, "stepped sine");
        })];
    }
}
