using System.Globalization;
using Microsoft.AspNetCore.Components;
using MudBlazor;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Catalogue;
using ShopFloor.Web.Components;
using ShopFloor.Web.Layout;

namespace ShopFloor.Web.Phases.Design;

/// <summary>A loudspeaker measured: sweeps dropped in, worked out at every change, kept and written to its part.</summary>
public sealed partial class DriverMeasuring : IDisposable
{
    private static readonly UnitScale Ohms = new("Ω", "ohms", 1, 3);
    // Kept in the part's units.
    private static readonly UnitScale Grams = new("g", "grams", 1, 2);
    private static readonly UnitScale Ounces = new("oz", "ounces", 1000 * ExactFactors.KilogramsPerOunce, 3);
    private static readonly UnitScale Millimeters = new("mm", "millimetres", 1, 1);
    private static readonly UnitScale Inches = new("in", "inches", 1000 * ExactFactors.MetersPerInch, 3);
    private readonly CancellationTokenSource _ended = new();
    private readonly FormProblems _problems = new();
    private readonly FieldGate _gate = new();
    private MeasuredDriver? _driver;
    private DriverMeasurementForm _form = new();
    private DriverStudy? _study;
    private int _asked;
    private bool _editing;
    private bool _busy;
    private bool _gone;

    /// <summary>The job.</summary>
    [Parameter, EditorRequired] public Guid JobId { get; set; }

    /// <summary>The loudspeaker.</summary>
    [Parameter, EditorRequired] public Guid PartId { get; set; }

    /// <summary>Raised after a measurement was kept, written or taken back.</summary>
    [Parameter] public EventCallback Kept { get; set; }

    [CascadingParameter] private Viewer Viewer { get; set; } = default!; // Pages of jobs are behind the sign-in.

    [Inject] private DriverMeasurements Measurements { get; set; } = default!; // Set by the framework before first use.

    [Inject] private ISnackbar Snackbar { get; set; } = default!; // Set by the framework before first use.

    [Inject] private NavigationManager Navigation { get; set; } = default!; // Set by the framework before first use.

    private bool MayDesign => Viewer.May(Permission.DesignJobs);

    private bool MayMeasure => Viewer.May(Permission.WorkOnJobs);

    private UnitText Text => new(Viewer.Units, CultureInfo.CurrentCulture);

    private IReadOnlyList<ShopFloor.Shop.Common.Problem> OtherProblems =>
        [.. (_study?.Problems ?? []).Where(problem => problem.Field is not (nameof(DriverMeasurementForm.FreeAir) or nameof(DriverMeasurementForm.Again)))];

    protected override async Task OnInitializedAsync()
    {
        await LoadAsync();
        if (_driver is { Kept.Count: 0 } && MayMeasure)
        {
            Begin();
        }
    }

    public void Dispose()
    {
        _gone = true;
        _ended.Cancel();
        _ended.Dispose();
    }

    private static string SecondName(SecondSweep second) => second switch
    {
        SecondSweep.AddedMass => "With added mass",
        SecondSweep.KnownBox => "On a known box",
        _ => "Not measured again",
    };

    private static string SecondWords(DriverMeasurementForm form) =>
        $"{(form.FreeAir is null ? "Resonance" : "Sweep")} in free air{(form.Second == SecondSweep.None ? "" : form.Second == SecondSweep.AddedMass ? " and with added mass" : " and on a known box")}";

    private static PartField FieldOf(string name) => PartKinds.Of(PartKind.Loudspeaker).Fields.First(field => field.Name == name);

    // What is wrong with a file stands beside it.
    private string? ProblemOf(string field)
    {
        var said = (_study?.Problems ?? []).Where(problem => problem.Field == field).Select(problem => problem.Message).ToList();
        return said.Count > 0 && (field == nameof(_form.FreeAir) ? _form.FreeAir : _form.Again) is not null ? string.Join(" ", said) : null;
    }

    private string Shown(string name, double? value)
    {
        var data = new LoudspeakerData();
        FieldOf(name).Set(data, value);
        return FieldScales.Text(FieldOf(name), data, Viewer.Units == UnitSystem.Us) is { Length: > 0 } text ? text : "–";
    }

    private async Task LoadAsync()
    {
        if (await Measurements.GetAsync(Viewer.Actor, PartId, Text, _ended.Token) is { } driver && driver.JobId == JobId)
        {
            _driver = driver;
        }
        else
        {
            Navigation.NavigateTo($"/jobs/{JobId}/parts");
        }
    }

    private void Begin()
    {
        _form = new DriverMeasurementForm { PartId = PartId, Coils = _driver?.Data.CoilsStated ?? CoilsStated.CoilsInParallel };
        (_study, _editing) = (null, true);
        _problems.Clear();
    }

    // A later change goes before an earlier one that is still being worked out.
    private async Task ChangeAsync(DriverMeasurementForm form)
    {
        _form = form;
        _problems.Clear();
        var asked = ++_asked;
        _busy = true;
        StateHasChanged();
        // What is measured again may come later; what there is, is shown.
        var whole = form.SecondNeeds.Length > 0 ? form with { Second = SecondSweep.None } : form;
        var study = await Task.Run(() => Measurements.StudyAsync(Viewer.Actor, whole, Text, _ended.Token));
        if (asked == _asked)
        {
            (_study, _busy) = (study, false);
        }
    }

    private Task SetSecondAsync(SecondSweep second) => second == _form.Second ? Task.CompletedTask : ChangeAsync(_form with { Second = second, Again = null, AgainHertz = null });

    private async Task KeepAsync()
    {
        if (_driver is null || _problems.AnyUnreadable(_gate))
        {
            return;
        }

        _busy = true;
        var outcome = await Measurements.KeepAsync(Viewer.Actor, _driver.PartVersion, _form, _ended.Token);
        _busy = false;
        _problems.Show(outcome.Problems);
        await LoadAsync();
        if (outcome.Succeeded)
        {
            _editing = false;
            var (actor, id) = (Viewer.Actor, outcome.Value);
            UndoBar.Show(Snackbar, MayDesign ? "Measured and written to the part" : "Measurement kept", () => UndoAsync(actor, id));
            await Kept.InvokeAsync();
        }
        else
        {
            await ChangeAgainAsync(outcome.Problems);
        }
    }

    // The strip outlives the panel.
    private async Task UndoAsync(Actor actor, Guid id)
    {
        await Measurements.TakeBackAsync(actor, id, CancellationToken.None);
        if (!_gone)
        {
            await InvokeAsync(async () =>
            {
                await LoadAsync();
                await Kept.InvokeAsync();
                StateHasChanged();
            });
        }
    }

    // The part changed under the figures: they are worked out beside what stands there now, with the words kept in sight.
    private async Task ChangeAgainAsync(IReadOnlyList<ShopFloor.Shop.Common.Problem> problems)
    {
        await ChangeAsync(_form);
        _problems.Show(problems);
    }

    private async Task PutAsync(Guid id) => await ShowAsync(await Measurements.PutOnPartAsync(Viewer.Actor, id, _ended.Token), "Written to the part");

    private async Task TakeBackAsync(Guid id) => await ShowAsync(await Measurements.TakeBackAsync(Viewer.Actor, id, _ended.Token), "Taken back; the part says what it said before");

    private async Task ShowAsync(ShopFloor.Shop.Common.Outcome<ShopFloor.Shop.Common.Done> outcome, string done)
    {
        _problems.Show(outcome.Problems);
        if (outcome.Succeeded)
        {
            Snackbar.Add(done, MudBlazor.Severity.Normal);
            await LoadAsync();
            await Kept.InvokeAsync();
        }
    }
}
