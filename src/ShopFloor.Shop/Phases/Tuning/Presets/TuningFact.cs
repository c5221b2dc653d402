using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Verification;
using ShopFloor.Shop.Phases.Tuning.Factory;

namespace ShopFloor.Shop.Phases.Tuning.Presets;

/// <summary>How a car was tuned and what was measured after it, as the handover keeps it.</summary>
public sealed record TuningFact
{
    /// <summary>Name and version of the preset.</summary>
    public required string Label { get; init; }

    public required string Processor { get; init; }

    public required string Target { get; init; }

    public required IReadOnlyList<ChannelSetting> Channels { get; init; }

    /// <summary>What the factory signal came to, undone at the inputs; empty where the preset sets none.</summary>
    public IReadOnlyList<FactoryNote> Factory { get; init; } = [];

    /// <summary>Frequencies of the curves, Hz.</summary>
    public IReadOnlyList<double> Hertz { get; init; } = [];

    /// <summary>dB; empty while it was not measured.</summary>
    public IReadOnlyList<double> LeftBefore { get; init; } = [];

    public IReadOnlyList<double> RightBefore { get; init; } = [];

    public IReadOnlyList<double> Left { get; init; } = [];

    public IReadOnlyList<double> Right { get; init; } = [];

    /// <summary>Largest difference of left and right, dB; null while it was not measured.</summary>
    public double? LargestDecibels { get; init; }

    public double? LargestBeforeDecibels { get; init; }

    /// <summary>Difference of the arrivals of left and right, s.</summary>
    public double? ArrivalSeconds { get; init; }

    /// <summary>Band it was judged in, Hz.</summary>
    public double FromHertz { get; init; }

    public double ToHertz { get; init; }

    /// <summary>What was listened to.</summary>
    public IReadOnlyList<HeardFact> Heard { get; init; } = [];

    internal static TuningFact? Of(VerificationView view) => view.InCar is not { } inCar
        ? null
        : new TuningFact
        {
            Label = view.Label, Processor = inCar.Form.Profile.Name, Target = inCar.Form.Target.Name, Channels = inCar.Form.Channels, Factory = inCar.Form.Factory,
            // A paper shows no more than every second point and a hundredth of a decibel.
            Hertz = Thin(view.Hertz, 1), LeftBefore = Thin(view.LeftBefore, 2), RightBefore = Thin(view.RightBefore, 2), Left = Thin(view.Left, 2), Right = Thin(view.Right, 2),
            LargestDecibels = view.Result?.LargestDecibels, LargestBeforeDecibels = view.Result?.LargestBeforeDecibels, ArrivalSeconds = view.Result?.ArrivalSpreadSeconds,
            FromHertz = view.Limits.FromHertz, ToHertz = view.Limits.ToHertz,
            Heard =
            [
                .. from point in ListeningChecklist.Points
                   let heard = inCar.Form.Heard.FirstOrDefault(each => each.Answer.PointId == point.Id)
                   where heard is not null
                   select new HeardFact(point.Question, heard.Answer.Good, heard.Answer.Note),
            ],
        };

    private static IReadOnlyList<double> Thin(IReadOnlyList<double>? values, int digits) => values is null ? [] : [.. values.Where((_, at) => at % 2 == 0).Select(value => Math.Round(value, digits))];
}

/// <param name="Question">What was asked.</param>
/// <param name="Good">Whether it was as asked for.</param>
/// <param name="Note">What was heard.</param>
public sealed record HeardFact(string Question, bool Good, string Note);
