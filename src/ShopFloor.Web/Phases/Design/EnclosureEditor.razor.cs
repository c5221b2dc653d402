using System.Globalization;
using Microsoft.AspNetCore.Components;
using MudBlazor;
using ShopFloor.Documents.Enclosures;
using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Components;
using ShopFloor.Web.Layout;
using Severity = ShopFloor.Engineering.Explained.Severity;

namespace ShopFloor.Web.Phases.Design;

/// <summary>One enclosure: its alternatives in one plot, dragged and typed; worked out anew at every change, stored when asked to.</summary>
public sealed partial class EnclosureEditor : IDisposable
{
    private static readonly bool[] Joinings = [false, true];
    private static readonly string[] CoilChoices = ["", .. Enum.GetNames<CoilUse>()];
    private readonly CancellationTokenSource _ended = new();
    private readonly FormProblems _problems = new();
    private readonly Dictionary<Guid, CabinTransfer> _taken = [];
    private readonly FieldGate _gate = new();
    private EnclosureForm _draft = new();
    private EnclosureView _view = default!; // set with the first parameters
    private EnclosureFacts? _facts;
    private UnitSystem _units;
    private string _name = "";
    private string _second = EnclosurePlots.Excursion;
    private Guid _version;
    private int _shown;
    private int _round;
    private bool _dirty;
    private bool _busy;
    private bool _entering;

    /// <summary>The job.</summary>
    [Parameter, EditorRequired] public Guid JobId { get; set; }

    /// <summary>The enclosure as stored.</summary>
    [Parameter, EditorRequired] public LoadedDesign<EnclosureForm> Design { get; set; } = default!; // EditorRequired: the compiler asks for it.

    /// <summary>What the rest of the job says about it.</summary>
    [Parameter, EditorRequired] public EnclosureFacts Facts { get; set; } = default!; // EditorRequired: the compiler asks for it.

    /// <summary>Raised after saving.</summary>
    [Parameter] public EventCallback Saved { get; set; }

    /// <summary>Raised with its id after it was taken away.</summary>
    [Parameter] public EventCallback<Guid> Removed { get; set; }

    [CascadingParameter] private Viewer Viewer { get; set; } = default!; // Pages of jobs are behind the sign-in.

    [Inject] private JobDesigns Designs { get; set; } = default!; // Set by the framework before first use.

    [Inject] private Enclosures Boxes { get; set; } = default!; // Set by the framework before first use.

    [Inject] private IDialogService Dialogs { get; set; } = default!; // Set by the framework before first use.

    [Inject] private ISnackbar Snackbar { get; set; } = default!; // Set by the framework before first use.

    private bool MayDesign => Viewer.May(Permission.DesignJobs);

    private UnitText Text => new(Viewer.Units, CultureInfo.CurrentCulture);

    private StudiedAlternative Shown => _view.Alternatives[_shown];

    private BoxAlternative Box => _draft.Alternatives[_shown];

    private IReadOnlyList<Guid> Loudspeakers =>
        [.. Facts.Loudspeakers.Select(driver => driver.PartId), .. Facts.Find(_draft.LoudspeakerPartId) is null ? new[] { _draft.LoudspeakerPartId ?? Guid.Empty } : []];

    private string PowerHelp => _view.Driver?.Drive is { } drive ? $"Empty takes the {Text.Watts(drive.Watts)} of {drive.Channel}." : "Nothing feeds it yet; link it to an amplifier, or enter the power.";

    protected override void OnParametersSet()
    {
        // What is being edited stays; what it is worked out from may have changed.
        if (!_dirty && _version != Design.Version)
        {
            (_draft, _name, _version) = (Design.Form.Copy(), Design.Name, Design.Version);
            _shown = Math.Min(_facts is null ? _draft.Chosen : _shown, _draft.Alternatives.Count - 1);
            _round++;
            _facts = null;
        }

        if (!ReferenceEquals(_facts, Facts) || _units != Viewer.Units)
        {
            (_facts, _units) = (Facts, Viewer.Units);
            Compute();
        }
    }

    public void Dispose()
    {
        _ended.Cancel();
        _ended.Dispose();
    }

    private static string CoilWords(string choice) => choice switch
    {
        "" => "as linked",
        nameof(CoilUse.AllInParallel) => "all in parallel",
        nameof(CoilUse.AllInSeries) => "all in series",
        _ => "one coil alone",
    };

    private string NameOf(Guid id) => Facts.Find(id)?.Name ?? "no longer on the list";

    private Severity? Grave(params string[] codes) =>
        Shown.Result?.Findings.Where(finding => codes.Contains(finding.Code)).Select(finding => (Severity?)finding.Severity).Max();

    // Air, room and the pipe's own note, of what is known of them.
    private string PortDetail(EnclosureStudyResult result) => string.Join(", ", new[]
    {
        result.WorstPort?.PortMetersPerSecond is { } air ? $"air {Text.With(air, "m/s")} at {Text.With(result.WorstPort.Hertz, "Hz")}" : null,
        Shown.Room is { } room ? room.Fits ? room.Words : $"no room: {Text.Millimeters(room.LongestMeters)} at most" : null,
        PortRoom.PipeHertz(Box, result.PortMeters) is { } pipe ? $"sounds as a pipe at {Text.With(pipe, "Hz")}" : null,
    }.OfType<string>());

    // A file taken in and not yet saved is read here; saved ones come with the facts.
    private async Task TakeTransferAsync(Guid? file)
    {
        if (file is { } taken && !Facts.Transfers.ContainsKey(taken))
        {
            _taken[taken] = await Boxes.TransferAsync(Viewer.Actor, taken, _ended.Token);
        }

        _draft.TransferFileId = file;
        Changed();
    }

    private void Compute()
    {
        var facts = _taken.Count == 0 ? Facts : Facts with { Transfers = new Dictionary<Guid, CabinTransfer>([.. _taken.Where(each => !Facts.Transfers.ContainsKey(each.Key)), .. Facts.Transfers]) };
        _view = EnclosureStudies.Of(_draft, facts, Design.Id, _name, Text);
        if (EnclosurePlots.Kinds(_view).All(kind => kind.Key != _second))
        {
            _second = EnclosurePlots.Excursion;
        }
    }

    private void Changed()
    {
        _dirty = true;
        Compute();
    }

    // The value is set by the caller.
    private void Set<TValue>(TValue _) => Changed();

    private void SetCoils(string choice)
    {
        _draft.Coils = Enum.TryParse<CoilUse>(choice, out var use) ? use : null;
        Changed();
    }

    private void Rename(string name)
    {
        _name = name;
        Changed();
    }

    private void Show(int index) => _shown = index;

    private void MovedAsync((double CubicMeters, double? Hertz) to)
    {
        Box.NetCubicMeters = Digits(Math.Clamp(to.CubicMeters, 0.0001, 2));
        if (to.Hertz is { } hertz)
        {
            EnclosureStudies.Tune(Box, Math.Round(Math.Clamp(hertz, 10, 200), 1));
        }

        Changed();
    }

    private void TakeBox(BoxAlternative box)
    {
        _draft.Alternatives[_shown] = box with { NetCubicMeters = Digits(box.NetCubicMeters), TuningHertz = Math.Round(box.TuningHertz, 1) };
        _round++;
        Changed();
    }

    private void TakeVolume(double cubicMeters)
    {
        Box.NetCubicMeters = Digits(cubicMeters);
        _round++;
        Changed();
    }

    private void TakeFrontVolume(double cubicMeters)
    {
        Box.FrontCubicMeters = Digits(cubicMeters);
        _round++;
        Changed();
    }

    private void AddAlternative()
    {
        _draft.Alternatives.Add(Box.Copy());
        _shown = _draft.Alternatives.Count - 1;
        Changed();
    }

    private void DropAlternative()
    {
        _draft.Alternatives.RemoveAt(_shown);
        _draft.Chosen = _draft.Chosen > _shown ? _draft.Chosen - 1 : Math.Min(_draft.Chosen, _draft.Alternatives.Count - 1);
        _shown = Math.Min(_shown, _draft.Alternatives.Count - 1);
        _round++;
        Changed();
    }

    private void Build()
    {
        _draft.Chosen = _shown;
        Changed();
    }

    private void Discard()
    {
        (_draft, _name, _version, _dirty) = (Design.Form.Copy(), Design.Name, Design.Version, false);
        _shown = Math.Min(_shown, _draft.Alternatives.Count - 1);
        _round++;
        _problems.Clear();
        Compute();
    }

    private async Task SaveAsync()
    {
        if (_problems.AnyUnreadable(_gate))
        {
            return;
        }

        _busy = true;
        var outcome = await ConflictAsking.SaveAsync(Dialogs, Viewer, _draft, _version, StoreAsync, StoredAsync);
        _busy = false;
        _problems.Show(outcome.Problems);
        if (outcome.Succeeded)
        {
            _dirty = false;
            Snackbar.Add("Saved", MudBlazor.Severity.Normal);
            await Saved.InvokeAsync();
        }
    }

    private Task<Outcome<Guid>> StoreAsync(Guid version) => Designs.EditAsync(Viewer.Actor, Design.Id, _version = version, _name, _draft, _ended.Token);

    private async Task<EnclosureForm?> StoredAsync() => (await Designs.FindAsync<EnclosureForm>(Viewer.Actor, Design.Id, _ended.Token))?.Form;

    private async Task RemoveAsync()
    {
        var outcome = await Designs.RemoveAsync<EnclosureForm>(Viewer.Actor, Design.Id, _ended.Token);
        if (outcome.Succeeded)
        {
            await Removed.InvokeAsync(Design.Id);
        }
        else
        {
            _problems.Show(outcome.Problems);
        }
    }

    // Four digits: what a saw can keep, and what the field shows.
    private static double Digits(double cubicMeters) => double.Parse(cubicMeters.ToString("G4", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
}
