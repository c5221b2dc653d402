using System.Globalization;
using Microsoft.AspNetCore.Components;
using MudBlazor;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Layout;

namespace ShopFloor.Web.Phases.Build;

public sealed partial class BuildPage : IDisposable
{
    private readonly CancellationTokenSource _ended = new();
    private readonly FormProblems _problems = new();
    private WorkSheet? _sheet;
    private IReadOnlyList<PersonHours> _people = [];
    private IReadOnlyList<TimeRow> _entries = [];
    private IReadOnlyList<PhotoRow> _photos = [];
    private IReadOnlyList<TemplateChoice> _templates = [];
    private TemplateChoice _template = TemplateChoice.Usual;
    private StageForm _newStage = new();
    private Guid _loaded;
    private bool _planning;
    private bool _busy;

    /// <summary>The job.</summary>
    [Parameter] public Guid JobId { get; set; }

    [CascadingParameter] private Viewer Viewer { get; set; } = default!; // The page is behind the sign-in.

    [Inject] private WorkSheets Sheets { get; set; } = default!; // Set by the framework before first use.

    [Inject] private TimeClock Clock { get; set; } = default!; // Set by the framework before first use.

    [Inject] private JobPhotos Photos { get; set; } = default!; // Set by the framework before first use.

    [Inject] private StagePlan Plan { get; set; } = default!; // Set by the framework before first use.

    [Inject] private StageTemplates Templates { get; set; } = default!; // Set by the framework before first use.

    [Inject] private ISnackbar Snackbar { get; set; } = default!; // Set by the framework before first use.

    private bool MayWork => _sheet?.State == JobState.Open && Viewer.May(Permission.WorkOnJobs);

    private bool MayPlan => _sheet?.State == JobState.Open && Viewer.May(Permission.EditJobCards);

    protected override async Task OnParametersSetAsync()
    {
        if (_loaded != JobId)
        {
            _loaded = JobId;
            await LoadAsync();
        }
    }

    public void Dispose()
    {
        _ended.Cancel();
        _ended.Dispose();
    }

    private async Task LoadAsync()
    {
        _sheet = await Sheets.SheetAsync(Viewer.Actor, JobId, _ended.Token);
        _people = await Sheets.HoursByPersonAsync(Viewer.Actor, JobId, _ended.Token);
        _entries = await Clock.EntriesAsync(Viewer.Actor, JobId, _ended.Token);
        _photos = await Photos.ListAsync(Viewer.Actor, JobId, null, null, _ended.Token);
    }

    private async Task TogglePlanningAsync()
    {
        _planning = !_planning;
        if (_planning)
        {
            var rows = await Templates.ListAsync(Viewer.Actor, _ended.Token);
            _templates = rows.Count == 0 ? [TemplateChoice.Usual] : [.. rows.Select(TemplateChoice.Of)];
            _template = _templates[0];
        }
    }

    private async Task PlanAsync()
    {
        _busy = true;
        var outcome = await Plan.PlanAsync(Viewer.Actor, JobId, _template.Id, _ended.Token);
        _busy = false;
        if (await ShowAsync(outcome))
        {
            _planning = false;
            Snackbar.Add(string.Create(CultureInfo.CurrentCulture, $"{outcome.Value} stages planned"), MudBlazor.Severity.Normal);
        }
    }

    private async Task AddStageAsync()
    {
        if (await ShowAsync(await Plan.AddStageAsync(Viewer.Actor, JobId, null, _newStage, _ended.Token)))
        {
            _newStage = new StageForm();
        }
    }

    /// <summary>Runs what a stage's buttons ask for and shows what came of it.</summary>
    private async Task DoAsync(Func<StagePlan, Actor, CancellationToken, Task<Outcome<Done>>> act) =>
        await ShowAsync(await act(Plan, Viewer.Actor, _ended.Token));

    private async Task<bool> ShowAsync<T>(Outcome<T> outcome)
    {
        _problems.Show(outcome.Conflict is null ? outcome.Problems : [new Problem("", outcome.Message + " The page shows how it stands now.")]);
        await LoadAsync();
        return outcome.Succeeded;
    }

    /// <param name="Id">The template, or null for the usual stages.</param>
    /// <param name="Text">How it is offered.</param>
    private sealed record TemplateChoice(Guid? Id, string Text)
    {
        public static TemplateChoice Usual { get; } = new(null, $"{UsualStages.Name} ({UsualStages.Stages.Count} stages)");

        public static TemplateChoice Of(TemplateRow row) => new(
            row.Id, string.Create(CultureInfo.CurrentCulture, $"{row.Name} ({row.Stages} stages, {row.Steps} steps{(row.IsDefault ? ", default" : "")})"));
    }
}
