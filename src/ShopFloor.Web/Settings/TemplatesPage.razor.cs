using Microsoft.AspNetCore.Components;
using MudBlazor;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Web.Components;
using ShopFloor.Web.Layout;

namespace ShopFloor.Web.Settings;

public sealed partial class TemplatesPage : IDisposable
{
    private readonly CancellationTokenSource _ended = new();
    private readonly FormProblems _problems = new();
    private IReadOnlyList<TemplateRow>? _rows;
    private IReadOnlyList<TemplateRow> _removed = [];
    private LoadedTemplate? _editing;
    private TemplateForm? _form;
    private bool _busy;

    [CascadingParameter] private Viewer Viewer { get; set; } = default!; // The page is behind the sign-in.

    [Inject] private StageTemplates Templates { get; set; } = default!; // Set by the framework before first use.

    [Inject] private IDialogService Dialogs { get; set; } = default!; // Set by the framework before first use.

    [Inject] private ISnackbar Snackbar { get; set; } = default!; // Set by the framework before first use.

    protected override Task OnInitializedAsync() => LoadAsync();

    public void Dispose()
    {
        _ended.Cancel();
        _ended.Dispose();
    }

    private async Task LoadAsync()
    {
        _rows = await Templates.ListAsync(Viewer.Actor, _ended.Token);
        _removed = await Templates.RemovedAsync(Viewer.Actor, _ended.Token);
    }

    private void NewFromUsual()
    {
        _problems.Clear();
        _editing = null;
        _form = TemplateForm.OfUsual();
        _form.IsDefault = _rows is { Count: 0 };
    }

    private async Task EditAsync(Guid templateId)
    {
        _problems.Clear();
        _editing = await Templates.FindAsync(Viewer.Actor, templateId, _ended.Token);
        _form = _editing?.Form;
        if (_form is null)
        {
            _problems.Show([new Problem("", "That template is no longer there.")]);
            await LoadAsync();
        }
    }

    private Task CloseAsync()
    {
        _form = null;
        _editing = null;
        _problems.Clear();
        return LoadAsync();
    }

    private async Task SaveAsync()
    {
        if (_form is null)
        {
            return;
        }

        _busy = true;
        var outcome = _editing is null
            ? await Templates.AddAsync(Viewer.Actor, _form, _ended.Token)
            : await Templates.EditAsync(Viewer.Actor, _editing.Id, _editing.Version, _form, _ended.Token);
        while (outcome.Conflict is { } conflict && _editing is not null && await Templates.FindAsync(Viewer.Actor, _editing.Id, _ended.Token) is { } theirs)
        {
            if (!await ConflictAsking.ResolveAsync(Dialogs, conflict, _form, theirs.Form, Viewer))
            {
                break;
            }

            _editing = theirs;
            outcome = await Templates.EditAsync(Viewer.Actor, theirs.Id, theirs.Version, _form, _ended.Token);
        }

        _busy = false;
        _problems.Show(outcome.Problems);
        if (outcome.Succeeded)
        {
            Snackbar.Add("Template saved", MudBlazor.Severity.Normal);
            await CloseAsync();
        }
    }

    private async Task DuplicateAsync(TemplateRow row) => await ShowAsync(await Templates.DuplicateAsync(Viewer.Actor, row.Id, _ended.Token));

    private async Task RemoveAsync(TemplateRow row)
    {
        var outcome = await Templates.RemoveAsync(Viewer.Actor, row.Id, _ended.Token);
        await ShowAsync(outcome);
        if (outcome.Succeeded)
        {
            UndoBar.Show(Snackbar, $"'{row.Name}' removed", () => InvokeAsync(() => BringBackAsync(row)));
        }
    }

    private async Task BringBackAsync(TemplateRow row)
    {
        await ShowAsync(await Templates.BringBackAsync(Viewer.Actor, row.Id, _ended.Token));
        StateHasChanged();
    }

    private async Task ShowAsync<T>(Outcome<T> outcome)
    {
        _problems.Show(outcome.Problems);
        await LoadAsync();
    }

    private void AddStage() => _form?.Stages.Add(new StageForm { Name = "New stage" });

    private void MoveStage(int at, int places)
    {
        if (_form is { } form && at + places >= 0 && at + places < form.Stages.Count)
        {
            (form.Stages[at], form.Stages[at + places]) = (form.Stages[at + places], form.Stages[at]);
        }
    }

    private void RemoveStage(StageForm stage)
    {
        if (_form is not { } form)
        {
            return;
        }

        var at = form.Stages.IndexOf(stage);
        form.Stages.RemoveAt(at);
        UndoBar.Show(Snackbar, $"'{stage.Name}' taken out", () => InvokeAsync(() =>
        {
            form.Stages.Insert(Math.Min(at, form.Stages.Count), stage);
            StateHasChanged();
        }));
    }
}
