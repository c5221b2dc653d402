using ShopFloor.Engineering.Electrical.Commissioning;
using ShopFloor.Engineering.Signal.Levels;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>What is to be measured on a job, what was, and what holds its commissioning.</summary>
/// <param name="Rows">In the order they are measured; empty when no part takes current.</param>
/// <param name="Design">Stops of the plan and the network: they hold the start.</param>
/// <param name="Values">Missing values and values outside their limits: they hold the end.</param>
/// <param name="Releasers">Who may sign a finding off.</param>
/// <param name="Safety">What the job's facts say about working safely on its supply.</param>
public sealed record MeasuredSheet(
    Guid JobId, IReadOnlyList<MeasuredRow> Rows, IReadOnlyList<GatedFinding> Design, IReadOnlyList<GatedFinding> Values, IReadOnlyList<string> Releasers, SupplySafety Safety)
{
    /// <summary>Whether the new wiring may be switched on.</summary>
    public bool MayStart => !Design.Any(gated => gated.Stands);

    /// <summary>Whether commissioning may be finished.</summary>
    public bool MayFinish => MayStart && !Values.Any(gated => gated.Stands);
}

/// <summary>One value to measure with everything measured for it.</summary>
/// <param name="Point">What is expected and accepted now.</param>
/// <param name="Entries">Newest first, those taken back among them.</param>
public sealed record MeasuredRow(CommissioningPoint Point, IReadOnlyList<MeasuredEntry> Entries)
{
    /// <summary>The value that counts; null while none stands.</summary>
    public MeasuredEntry? Current => Entries.FirstOrDefault(entry => entry.WithdrawnAt is null);

    /// <summary>By how much the value that counts lies outside; 0 within, null while none stands.</summary>
    public double? Outside => Current is { } current ? Point.Outside(current.Value) : null;

    public MeasuredVerdict Verdict => Outside switch
    {
        null => MeasuredVerdict.Missing,
        0 => MeasuredVerdict.Within,
        _ => MeasuredVerdict.Outside,
    };

    /// <summary>The step of the gain sheet it belongs to; null for values of the supply.</summary>
    public GainPoint? Gain { get; init; }

    /// <summary>Whether today's prediction differs from the one at the measurement by more than a meter shows.</summary>
    public bool PredictionMoved => Current is { Predicted: { } then } && Point.Predicted is { } now && Math.Abs(then - now) >= (Point.Unit == "V" ? 0.05 : 1);
}

public enum MeasuredVerdict
{
    Missing,
    Within,
    Outside,
}

/// <param name="Predicted">What was predicted when it was measured.</param>
public sealed record MeasuredEntry(
    Guid Id, double Value, double? Predicted, double? Lowest, double? Highest, Guid? ById, string By, DateTimeOffset At, DateTimeOffset? WithdrawnAt, string WithdrawnBy)
{
    internal static MeasuredEntry Of(MeasuredValue value) => new(
        value.Id, value.Value, value.Predicted, value.Lowest, value.Highest, value.ById, value.By, value.At, value.WithdrawnAt, value.WithdrawnBy);
}
