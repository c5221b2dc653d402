using System.Globalization;
using Microsoft.AspNetCore.Components;
using MudBlazor;
using ShopFloor.Engineering.Fabrication.Nesting;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Components;
using ShopFloor.Web.Layout;

namespace ShopFloor.Web.Catalogue;

/// <summary>The shop's rack of offcuts.</summary>
public sealed partial class OffcutsPage : IDisposable
{
    private readonly CancellationTokenSource _ended = new();
    private readonly FormProblems _problems = new();
    private readonly FieldGate _gate = new();
    private List<OffcutRow>? _rows;
    private List<OffcutRow> _removed = [];
    private List<ShelfMaterial> _materials = [];
    private OffcutRow? _editing;
    private OffcutForm? _form;
    private Guid _version;
    private int _round;
    private bool _busy;

    [CascadingParameter] private Viewer Viewer { get; set; } = default!; // The page is behind the sign-in.

    [Inject] private OffcutRack Rack { get; set; } = default!; // Set by the framework before first use.

    [Inject] private IDialogService Dialogs { get; set; } = default!; // Set by the framework before first use.

    [Inject] private ISnackbar Snackbar { get; set; } = default!; // Set by the framework before first use.

    private bool MayWork => Viewer.May(Permission.WorkOnJobs);

    private UnitText Text => new(Viewer.Units, CultureInfo.CurrentCulture);

    private List<string> Names => ["", .. _materials.Select(material => material.Name)];

    // The sheet of the catalogue that is meant; empty for one that is typed.
    private string Known => _form is { } form ? _materials.FirstOrDefault(form.IsOf)?.Name ?? "" : "";

    protected override Task OnInitializedAsync() => LoadAsync();

    public void Dispose()
    {
        _ended.Cancel();
        _ended.Dispose();
    }

    private static string GrainWords(SheetGrain grain) => grain switch
    {
        SheetGrain.Along => "along its length",
        SheetGrain.Across => "across its length",
        _ => "none",
    };

    private string Size(double? meters) => meters is { } known ? Text.Of(known, QuantityKind.SmallLength, 5) : "–";

    private async Task LoadAsync()
    {
        _materials = await Rack.MaterialsAsync(Viewer.Actor, _ended.Token);
        _rows = await Rack.ListAsync(Viewer.Actor, _ended.Token);
        _removed = await Rack.RemovedAsync(Viewer.Actor, _ended.Token);
    }

    private void New() => Open(null, _materials.Count > 0 ? new OffcutForm { Material = _materials[0].Name, ThicknessMeters = _materials[0].ThicknessMeters } : new OffcutForm());

    private void Edit(OffcutRow row) => Open(row, row.Form with { });

    private void Open(OffcutRow? row, OffcutForm form)
    {
        _problems.Clear();
        (_editing, _form, _version) = (row, form, row?.Version ?? Guid.Empty);
        _round++;
    }

    private void TakeMaterial(string name)
    {
        if (_form is { } form)
        {
            var known = _materials.FirstOrDefault(material => material.Name == name);
            (form.Material, form.ThicknessMeters) = (known?.Name ?? "", known?.ThicknessMeters);
        }
    }

    private async Task SaveAsync()
    {
        if (_form is not { } form || _problems.AnyUnreadable(_gate))
        {
            return;
        }

        _busy = true;
        var outcome = _editing is { } row
            ? await ConflictAsking.SaveAsync(Dialogs, Viewer, form, _version, version => Rack.EditAsync(Viewer.Actor, row.Id, _version = version, form, _ended.Token), async () => (await Rack.ListAsync(Viewer.Actor, _ended.Token)).Find(each => each.Id == row.Id)?.Form)
            : await Rack.AddAsync(Viewer.Actor, form, _ended.Token);
        _busy = false;
        _problems.Show(outcome.Problems);
        if (outcome.Succeeded)
        {
            _form = null;
            await LoadAsync();
        }
    }

    private Task<bool> FreeAsync(OffcutRow row) => DoAsync(Rack.GiveBackAsync(Viewer.Actor, row.Id, _ended.Token));

    private Task<bool> BringBackAsync(OffcutRow row) => DoAsync(Rack.BringBackAsync(Viewer.Actor, row.Id, _ended.Token));

    private async Task ThrowAwayAsync(OffcutRow row)
    {
        var (rack, actor) = (Rack, Viewer.Actor);
        if (await DoAsync(Rack.ThrowAwayAsync(Viewer.Actor, row.Id, _ended.Token)))
        {
            UndoBar.Show(Snackbar, "Thrown away", () => InvokeAsync(async () =>
            {
                // Works after the page was left too; then there is no list to show it in.
                await rack.BringBackAsync(actor, row.Id, CancellationToken.None);
                if (!_ended.IsCancellationRequested)
                {
                    await LoadAsync();
                    StateHasChanged();
                }
            }));
        }
    }

    private async Task<bool> DoAsync(Task<Outcome<Done>> work)
    {
        var outcome = await work;
        if (!outcome.Succeeded)
        {
            Snackbar.Add(outcome.Message, MudBlazor.Severity.Error);
        }

        await LoadAsync();
        return outcome.Succeeded;
    }
}
