using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.Data.Sqlite;
using ShopFloor.Shop.Jobs;
using ShopFloor.Web.Layout;
using ShopFloor.Web.Live;

namespace ShopFloor.Web.Board;

public sealed partial class BoardPage : IDisposable
{
    private static readonly TimeSpan TypingPause = TimeSpan.FromMilliseconds(200);
    private readonly CancellationTokenSource _ended = new();
    private readonly Stack<BoardKey?> _before = new();
    private JobWatch? _watch;
    private BoardQuery _query = new();
    private Shop.Jobs.BoardPage? _page;
    private BoardCounts? _counts;
    private HashSet<Guid> _visible = [];
    private DateTimeOffset _countedAt;
    private string _text = "";
    private int _typed;
    private bool _failed;

    [CascadingParameter] private Viewer Viewer { get; set; } = default!; // The page is behind the sign-in.

    private bool NarrowedBeyondStage => _query.Late || _query.Blocked || _query.Mine || _query.Search.Length > 0;

    private bool Narrowed => _query.Place != BoardPlace.Anywhere || NarrowedBeyondStage;

    private int From => (_before.Count * _query.Size) + 1;

    /// <summary>Jobs of the stage chosen, or of all.</summary>
    private int Shown => _counts is not { } counts ? 0 : _query.Place switch
    {
        BoardPlace.Anywhere => counts.Jobs,
        BoardPlace.Stage => counts.Stages.Where(stage => stage.Name == _query.StageName).Sum(stage => stage.Jobs),
        BoardPlace.NotPlanned => counts.NotPlanned,
        BoardPlace.AllStagesDone => counts.AllStagesDone,
        _ => throw new InvalidOperationException($"Unknown place on the board: {_query.Place}."),
    };

    private string Lead => _counts is not { } counts ? "Every open job by promised date"
        : string.Create(CultureInfo.CurrentCulture, $"{counts.Jobs} {(NarrowedBeyondStage ? "found" : "open")}, {counts.Late} late, {counts.Blocked} blocked, by promised date");

    /// <summary>The stage chosen stays in the strip when its last job has left it, or there would be no way to see why the list is empty.</summary>
    private IEnumerable<StageCount> Stages => _counts is not { } counts ? []
        : _query.Place == BoardPlace.Stage && counts.Stages.All(stage => stage.Name != _query.StageName)
            ? counts.Stages.Append(new StageCount(_query.StageName, 0))
            : counts.Stages;

    protected override async Task OnInitializedAsync()
    {
        _watch = new JobWatch(Feed, WaitFor, () => InvokeAsync(RefreshAsync), Time);
        await ReloadAsync();
    }

    public void Dispose()
    {
        _watch?.Dispose();
        _ended.Cancel();
        _ended.Dispose();
    }

    // A row in sight changes at once; other jobs only move counts and may wait, so that fifty open boards cost little.
    private TimeSpan? WaitFor(JobsChanged change) =>
        change.JobIds.Count == 0 ? null : _visible.Overlaps(change.JobIds) ? JobWatch.Soon : JobWatch.Calm;

    private async Task ReloadAsync()
    {
        try
        {
            _counts = await Jobs.CountsAsync(Viewer.Actor, _query, _ended.Token);
            _countedAt = Time.GetUtcNow();
            await ReadPageAsync();
            _failed = false;
        }
        catch (SqliteException)
        {
            _failed = true;
        }
    }

    private async Task RefreshAsync()
    {
        if (Time.GetUtcNow() - _countedAt >= JobWatch.Calm)
        {
            await ReloadAsync();
        }
        else
        {
            await ReadPageAsync();
        }

        StateHasChanged();
    }

    private async Task ReadPageAsync()
    {
        _page = await Jobs.PageAsync(Viewer.Actor, _query, _ended.Token);
        _visible = [.. _page.Rows.Select(row => row.JobId)];
    }

    private Task ShowAsync(BoardQuery query)
    {
        _before.Clear();
        _query = query with { After = null };
        return ReloadAsync();
    }

    private Task ShowAllAsync()
    {
        _text = "";
        return ShowAsync(new BoardQuery());
    }

    private async Task TypedAsync(string? text)
    {
        var typed = ++_typed;
        _text = text ?? "";
        await Task.Delay(TypingPause, Time, _ended.Token);
        if (typed == _typed)
        {
            await ShowAsync(_query with { Search = _text });
        }
    }

    private Task OnAsync()
    {
        _before.Push(_query.After);
        _query = _query with { After = _page?.Next };
        return ReadPageAsync();
    }

    private Task BackAsync()
    {
        _query = _query with { After = _before.Pop() };
        return ReadPageAsync();
    }
}
