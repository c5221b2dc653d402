using Microsoft.AspNetCore.Components;
using MudBlazor;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Web.Components;
using ShopFloor.Web.Layout;

namespace ShopFloor.Web.Settings;

public sealed partial class TablesPage : IDisposable
{
    private readonly CancellationTokenSource _ended = new();
    private readonly FormProblems _problems = new();
    private readonly FieldGate _gate = new();
    private IReadOnlyList<OwnTableRow>? _rows;
    private IReadOnlyList<OwnTableRow> _removed = [];
    private LoadedOwnTable? _editing;
    private OwnTableForm? _form;
    private Guid _version;
    private bool _busy;

    [CascadingParameter] private Viewer Viewer { get; set; } = default!; // The page is behind the sign-in.

    [Inject] private OwnTables Tables { get; set; } = default!; // Set by the framework before first use.

    [Inject] private IDialogService Dialogs { get; set; } = default!; // Set by the framework before first use.

    [Inject] private ISnackbar Snackbar { get; set; } = default!; // Set by the framework before first use.

    /// <summary>The cells as they are read so far; names and source do not matter to it.</summary>
    private AmpacityTable? Preview => _form is { } form && form.Cells.Length > 0
        ? OwnTableText.Read(form with { Name = "preview", Source = "preview" }).Table
        : null;

    protected override Task OnInitializedAsync() => LoadAsync();

    public void Dispose()
    {
        _ended.Cancel();
        _ended.Dispose();
    }

    private async Task LoadAsync()
    {
        _rows = await Tables.ListAsync(Viewer.Actor, _ended.Token);
        _removed = await Tables.RemovedAsync(Viewer.Actor, _ended.Token);
    }

    private void New(AmpacityTable? copied)
    {
        _problems.Clear();
        _editing = null;
        _form = copied is null ? new OwnTableForm() : OwnTableText.Write(copied);
    }

    private async Task EditAsync(Guid tableId)
    {
        _problems.Clear();
        _editing = await Tables.FindAsync(Viewer.Actor, tableId, _ended.Token);
        (_form, _version) = (_editing?.Form, _editing?.Version ?? default);
        if (_form is null)
        {
            _problems.Show([new Problem("", "That table is no longer there.")]);
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
        if (_form is not { } form || _problems.AnyUnreadable(_gate))
        {
            return;
        }

        _busy = true;
        var outcome = _editing is { } editing
            ? await ConflictAsking.SaveAsync(
                Dialogs,
                Viewer,
                form,
                _version,
                version => Tables.EditAsync(Viewer.Actor, editing.Id, _version = version, form, _ended.Token),
                async () => (await Tables.FindAsync(Viewer.Actor, editing.Id, _ended.Token))?.Form)
            : await Tables.AddAsync(Viewer.Actor, form, _ended.Token);
        _busy = false;
        _problems.Show(outcome.Problems);
        if (outcome.Succeeded)
        {
            Snackbar.Add("Table saved", MudBlazor.Severity.Normal);
            await CloseAsync();
        }
    }

    private async Task RemoveAsync(OwnTableRow row)
    {
        var outcome = await Tables.RemoveAsync(Viewer.Actor, row.Id, _ended.Token);
        _problems.Show(outcome.Problems);
        await LoadAsync();
        if (outcome.Succeeded)
        {
            UndoBar.Show(Snackbar, $"'{row.Name}' removed", () => InvokeAsync(() => BringBackAsync(row)));
        }
    }

    private async Task BringBackAsync(OwnTableRow row)
    {
        var outcome = await Tables.BringBackAsync(Viewer.Actor, row.Id, _ended.Token);
        _problems.Show(outcome.Problems);
        await LoadAsync();
        StateHasChanged();
    }
}
