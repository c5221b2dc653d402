using System.Globalization;

namespace ShopFloor.Shop.Jobs;

/// <summary>Where on the board to look.</summary>
public enum BoardPlace
{
    Anywhere,
    Stage,
    NotPlanned,
    AllStagesDone,
}

/// <summary>What of the board is wanted.</summary>
public sealed record BoardQuery
{
    public BoardPlace Place { get; init; }

    /// <summary>The stage, when <see cref="Place"/> is <see cref="BoardPlace.Stage"/>.</summary>
    public string StageName { get; init; } = "";

    /// <summary>Only jobs past their promised date.</summary>
    public bool Late { get; init; }

    /// <summary>Only jobs the asking person has ticked on or clocked time on.</summary>
    public bool Mine { get; init; }

    /// <summary>Only jobs with an open blocker.</summary>
    public bool Blocked { get; init; }

    public string Search { get; init; } = "";

    /// <summary>The last row of the page before; null for the first page.</summary>
    public BoardKey? After { get; init; }

    public int Size { get; init; } = 50;
}

/// <summary>Place of a row in the board's order.</summary>
public sealed record BoardKey(DateOnly? PromisedOn, int Number);

/// <param name="Rows">The rows, by promised date.</param>
/// <param name="Next">Key to read on from, or null at the end.</param>
/// <param name="Today">The shop's day the lateness was reckoned by.</param>
public sealed record BoardPage(IReadOnlyList<BoardRow> Rows, BoardKey? Next, DateOnly Today);

/// <summary>One job on the board.</summary>
public sealed record BoardRow(
    Guid JobId,
    int Number,
    string Title,
    string ClientName,
    int? ModelYear,
    string Make,
    string Model,
    string Plate,
    DateOnly? PromisedOn,
    string StageName,
    int StageOrder,
    int StagesDone,
    int StagesTotal,
    int OpenBlockers,
    string Track)
{
    public DateOnly Today { get; init; }

    /// <summary>Who has a clock running on it.</summary>
    public IReadOnlyList<string> Working { get; init; } = [];

    public string Reference => Job.ReferenceOf(Number);

    public BoardKey Key => new(PromisedOn, Number);

    public string VehicleTitle => string.Join(
        ' ', new[] { ModelYear?.ToString(CultureInfo.InvariantCulture), Make, Model }.Where(part => !string.IsNullOrWhiteSpace(part)));

    /// <summary>The stage in words, also when there is none.</summary>
    public string StageText => StageName.Length > 0 ? StageName : StagesTotal == 0 ? "Stages not planned" : "All stages done";

    public bool IsLate => Promise.DaysLate(PromisedOn, Today) > 0;

    public string PromiseText => Promise.Words(PromisedOn, Today);
}

public sealed record BoardCounts(int Jobs, int Late, int Blocked, IReadOnlyList<StageCount> Stages, int NotPlanned, int AllStagesDone);

public sealed record StageCount(string Name, int Jobs);
