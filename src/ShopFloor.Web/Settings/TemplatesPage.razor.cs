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
    private Guid _version;
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
        (_form, _version) = (_editing?.Form, _editing?.Version ?? default);
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
        var outcome = _editing is { } editing
            ? await ConflictAsking.SaveAsync(
                Dialogs,
                Viewer,
                _form,
                _version,
                version => Templates.EditAsync(Viewer.Actor, editing.Id, _version = version, _form, _ended.Token),
                async () => (await Templates.FindAsync(Viewer.Actor, editing.Id, _ended.Token))?.Form)
            : await Templates.AddAsync(Viewer.Actor, _form, _ended.Token);

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
