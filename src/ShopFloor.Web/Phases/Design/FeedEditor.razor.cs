using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.JSInterop;
using ShopFloor.Documents.Diagrams;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Layout;

namespace ShopFloor.Web.Phases.Design;

/// <summary>Outline and drawing of the feed with one selection, edited by dragging, by keys and by buttons.</summary>
public sealed partial class FeedEditor : IDisposable
{
    private readonly CancellationTokenSource _ended = new();
    private IReadOnlyList<FeedRow> _rows = [];
    private IReadOnlyList<FeedNode> _roots = [];
    private ElectricalPlanView? _shown;
    private PlanSteps _steps = new(null, null, 0);
    private FeedTree? _tree;
    private (string RunId, string Done, ElectricalPlanView Before)? _awaited;
    private string? _selected;
    private string? _cut;
    private string _told = "";
    private string _preview = "";
    private string _previewOf = "";
    private string _target = "";
    private string _name = "";
    private Guid _nameVersion;
    private ElementReference _chosen;
    private bool _toField;
    private bool _moving;
    private bool _renaming;
    private bool _refused;
    private bool _busy;

    /// <summary>The job.</summary>
    [Parameter, EditorRequired] public Guid JobId { get; set; }

    /// <summary>The plan as it stands.</summary>
    [Parameter, EditorRequired] public ElectricalPlanView Plan { get; set; } = default!; // EditorRequired: the compiler asks for it.

    /// <summary>Raised after something was saved; the page reads again.</summary>
    [Parameter] public EventCallback Changed { get; set; }

    /// <summary>Raised with the run to open.</summary>
    [Parameter] public EventCallback<PlanRun> Open { get; set; }

    /// <summary>Raised with the kind of part to add.</summary>
    [Parameter] public EventCallback<PartKind> AddPart { get; set; }

    [CascadingParameter] private Viewer Viewer { get; set; } = default!; // Panels are behind the sign-in.

    [Inject] private FeedEditing Editing { get; set; } = default!; // Injected.

    [Inject] private IJSRuntime Js { get; set; } = default!; // Injected.

    [Inject] private PartsList Parts { get; set; } = default!; // Injected.

    private bool MayEdit => Viewer.May(Permission.DesignJobs);

    private UnitText Text => new(Viewer.Units, CultureInfo.CurrentCulture);

    private FeedRow? Row => _rows.FirstOrDefault(row => row.Id == _selected);

    /// <summary>Tells what an edit made elsewhere on the page did, as soon as the new plan is here.</summary>
    public void Await(string runId, string done) => _awaited = (runId, done, Plan);

    /// <summary>Chooses a part that was just added.</summary>
    public void ChoosePart(Guid partId) => _selected = Plan.Sources.MainPartId == partId ? ElectricalPlanBuilder.MainRunId : partId.ToString();

    /// <summary>Chooses a line.</summary>
    public void Select(string id)
    {
        if (_selected != id)
        {
            StopAsking();
        }

        _selected = id;
    }

    public void Dispose()
    {
        _ended.Cancel();
        _ended.Dispose();
    }

    protected override void OnParametersSet()
    {
        if (!ReferenceEquals(_shown, Plan))
        {
            _shown = Plan;
            _rows = FeedOutline.Of(Plan, Text);
            _roots = PlanDiagram.ForEditing(Plan, Text);
            if (_awaited is { } awaited && !ReferenceEquals(awaited.Before, Plan))
            {
                _awaited = null;
                Tell($"{awaited.Done}: {PlanEffect.Between(awaited.Before, Plan, awaited.RunId, Text).Text}");
            }
        }

        _steps = MayEdit ? Editing.Steps(Viewer.Actor, JobId) : _steps;
    }

    // What M and F2 ask for is answered in a field: keys typed on the outline would mean something else.
    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (_toField && (_moving || _renaming))
        {
            _toField = false;
            try
            {
                await Js.InvokeVoidAsync("feedAsk", _chosen);
            }
            catch (JSDisconnectedException)
            {
                // The page was left meanwhile.
            }
        }
    }

    private Task LeaveAsync(KeyboardEventArgs key) => key.Key == "Escape" && (_moving || _renaming) ? DoAsync(FeedCommand.Cancel) : Task.CompletedTask;

    private static string Capital(string words) => words.Length == 0 ? words : char.ToUpper(words[0], CultureInfo.CurrentCulture) + words[1..];

    private void Tell(string words, bool refused = false) => (_told, _refused) = (words, refused);

    private void StopAsking() => (_moving, _renaming, _target, _preview, _previewOf) = (false, false, "", "", "");

    private List<string> Targets(FeedRow row)
    {
        var runs = Plan.Runs.Select(run => run.Place).ToList();
        var now = row.Run?.Place.SourceId;
        return ["", .. new[] { FeedSources.Battery }.Concat(Plan.Sources.Points.Select(point => point.Id)).Append(FeedSources.VehicleCircuit)
            .Where(source => source != now && PlanMoves.Refusal(Plan.Sources, runs, row.Id, source) is null)];
    }

    // feed.js writes what a drag, a tap in the drawing or a key meant.
    private async Task MeantAsync(ChangeEventArgs change)
    {
        var words = (change.Value as string ?? "").Split('|');
        switch (words)
        {
            case ["select", var id] when _rows.Any(row => row.Id == id):
                Select(id);
                break;
            case ["preview", var run, var source] when MayEdit:
                _preview = await PreviewAsync(run, source);
                _previewOf = $"{run}|{source}";
                break;
            case ["move", var run, var source] when MayEdit:
                await MoveAsync(run, source);
                break;
            case ["undo"] when MayEdit:
                await TurnAsync(true);
                break;
            case ["redo"] when MayEdit:
                await TurnAsync(false);
                break;
        }
    }

    private async Task<string> PreviewAsync(string runId, string source)
    {
        if (Plan.Runs.FirstOrDefault(run => run.Place.RunId == runId)?.Place.SourceId == source)
        {
            return "It hangs there now.";
        }

        var outcome = await Editing.PreviewMoveAsync(Viewer.Actor, JobId, runId, source, Text, _ended.Token);
        return outcome.Succeeded ? outcome.Value.Text : outcome.Message;
    }

    private async Task TargetAsync(string source)
    {
        (_target, _preview) = (source, "");
        var words = source.Length > 0 && Row is { } row ? await PreviewAsync(row.Id, source) : "";
        if (_target == source)
        {
            _preview = words; // else something else was chosen meanwhile
        }
    }

    private async Task DoAsync(FeedCommand command)
    {
        if (command == FeedCommand.Cancel)
        {
            _cut = null;
            StopAsking();
            _tree?.FocusChosen();
            return;
        }

        if (Row is not { } row || !MayEdit)
        {
            return;
        }

        switch (command)
        {
            case FeedCommand.Open when row.Run is { } run:
                await Open.InvokeAsync(run);
                break;
            case FeedCommand.Move when row.Moves:
                StopAsking();
                _moving = _toField = true;
                break;
            case FeedCommand.Cut when row.Moves:
                _cut = row.Id;
                Tell($"{row.Name} is cut. Choose where it goes, then Ctrl+V or Hang it here.");
                break;
            case FeedCommand.Paste when _cut is { } cut:
                await MoveAsync(cut, row.Id);
                break;
            case FeedCommand.Usual when row.Run is { } run:
                if (run.Place.Choice.From.Length > 0)
                {
                    await MoveAsync(row.Id, "");
                }
                else
                {
                    Tell($"{row.Name} is where such parts usually hang.");
                }

                break;
            case FeedCommand.Rename when row.PartId is { } part:
                await StartRenamingAsync(part);
                break;
            case FeedCommand.Move or FeedCommand.Cut:
                Tell(row.Run is null && row.Kind == FeedRowKind.Point ? $"Nothing hangs on {row.Name} yet, so it has no cable to move." : $"{row.Name} cannot be moved.", refused: true);
                break;
        }
    }

    private async Task MoveAsync(string runId, string source)
    {
        var run = Plan.Runs.FirstOrDefault(found => found.Place.RunId == runId);
        if (_busy || (run is not null && run.Place.SourceId == source))
        {
            return;
        }

        _busy = true;
        var name = _rows.FirstOrDefault(row => row.Id == runId)?.Name ?? "That part";
        var outcome = await Editing.MoveAsync(Viewer.Actor, JobId, runId, run?.ChoiceVersion ?? Guid.Empty, source, Text, _ended.Token);
        _busy = false;
        if (!outcome.Succeeded)
        {
            Tell($"Not moved. {outcome.Message}", refused: true);
            await ShowTheirsAsync(outcome);
            return;
        }

        var letGo = run is { Place.LengthMeasured: true } ? " The measured length was for the old way; measure again." : "";
        _cut = null;
        StopAsking();
        _selected = runId;
        _tree?.FocusChosen();
        Tell($"{name} moved to {(source.Length > 0 ? PlanMoves.SourceName(Plan.Sources, source) : "where such parts usually hang")}. {outcome.Value.Text}{letGo}");
        await Changed.InvokeAsync();
    }

    private async Task TurnAsync(bool undo)
    {
        if (_busy)
        {
            return;
        }

        _busy = true;
        var outcome = undo ? await Editing.UndoAsync(Viewer.Actor, JobId, _ended.Token) : await Editing.RedoAsync(Viewer.Actor, JobId, _ended.Token);
        _busy = false;
        if (outcome.Succeeded)
        {
            _awaited = ("", $"{(undo ? "Undone" : "Done again")}: {outcome.Value}", Plan);
        }
        else
        {
            Tell(outcome.Message, refused: true);
        }

        await Changed.InvokeAsync();
    }

    private async Task StartRenamingAsync(Guid part)
    {
        StopAsking();
        if (await Parts.ForEditAsync(Viewer.Actor, part, _ended.Token) is { } form)
        {
            (_renaming, _toField, _name, _nameVersion) = (true, true, form.Details.Name, form.Version);
        }
    }

    private async Task RenameAsync(FeedRow row)
    {
        _busy = true;
        Outcome<Guid> outcome = row.PartId is { } part ? await Editing.RenameAsync(Viewer.Actor, JobId, part, _nameVersion, _name, _ended.Token) : new Problem("", "It is no part of the list.");
        _busy = false;
        Tell(outcome.Succeeded ? $"{row.Name} is now {_name.Trim()} on the parts list." : $"Not renamed. {outcome.Message}", !outcome.Succeeded);
        if (outcome.Succeeded)
        {
            StopAsking();
            _tree?.FocusChosen();
            await Changed.InvokeAsync();
        }
        else
        {
            await ShowTheirsAsync(outcome);
        }
    }

    private async Task RemoveAsync(FeedRow row, Guid part)
    {
        _busy = true;
        var outcome = await Editing.RemoveAsync(Viewer.Actor, JobId, part, Plan.PartVersions.GetValueOrDefault(part), _ended.Token);
        _busy = false;
        if (!outcome.Succeeded)
        {
            Tell($"Not removed. {outcome.Message}", refused: true);
            await ShowTheirsAsync(outcome);
            return;
        }

        _awaited = (row.Id, $"{row.Name} taken off the parts list, Undo brings it back", Plan);
        _selected = row.Parent;
        _tree?.FocusChosen();
        await Changed.InvokeAsync();
    }

    // After somebody else's edit was met: what is there now.
    private Task ShowTheirsAsync<T>(Outcome<T> outcome)
    {
        if (outcome.Conflict is null)
        {
            return Task.CompletedTask;
        }

        StopAsking();
        _told += " What is there now is shown.";
        return Changed.InvokeAsync();
    }
}
