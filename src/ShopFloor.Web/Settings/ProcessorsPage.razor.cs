using System.Globalization;
using Microsoft.AspNetCore.Components;
using MudBlazor;
using ShopFloor.Engineering.Tuning.Processors;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Phases.Tuning.Presets;
using ShopFloor.Web.Components;
using ShopFloor.Web.Layout;

namespace ShopFloor.Web.Settings;

public sealed partial class ProcessorsPage : IDisposable
{
    private readonly CancellationTokenSource _ended = new();
    private readonly FormProblems _problems = new();
    private FieldGate _gate = new();
    private IReadOnlyList<ProcessorProfile>? _profiles;
    private TuningLimits? _limits;
    private List<ProcessorProfile> _removed = [];
    private ProcessorProfile? _was;
    private ProcessorForm? _form;
    private bool _busy;

    [CascadingParameter] private Viewer Viewer { get; set; } = default!; // The page is behind the sign-in.

    [Inject] private ProcessorProfiles Processors { get; set; } = default!; // Set by the framework before first use.

    [Inject] private IDialogService Dialogs { get; set; } = default!; // Set by the framework before first use.

    [Inject] private ISnackbar Snackbar { get; set; } = default!; // Set by the framework before first use.

    private UnitText Text => new(Viewer.Units, CultureInfo.CurrentCulture);

    protected override Task OnInitializedAsync() => LoadAsync();

    public void Dispose()
    {
        _ended.Cancel();
        _ended.Dispose();
    }

    private static string N(double value) => Quantity.FormatRounded(value, 3, CultureInfo.CurrentCulture);

    private static string Facts(ProcessorProfile profile) =>
        $"{N(profile.SampleRateHertz / 1e3)} kHz, {profile.Channels} channels of {profile.FiltersPerChannel} filters, delay to {N(profile.MaximumDelaySeconds * 1e3)} ms in steps of {N(profile.DelayStep * 1e6)} µs";

    // The generic one is copied to become a real one, which has a name of its own.
    private static string CopyName(ProcessorProfile profile) => ReferenceEquals(profile, ProcessorProfiles.Generic) ? "" : $"{profile.Name} (copy)";

    private async Task LoadAsync()
    {
        _profiles = await Processors.ListAsync(Viewer.Actor, _ended.Token);
        _limits = (await Processors.LimitsAsync(Viewer.Actor, _ended.Token)).Limits;
        _removed = [.. _removed.Where(gone => _profiles.All(profile => profile.Name != gone.Name))];
    }

    private async Task<(Guid Version, TuningLimits Details)> NewestLimitsAsync()
    {
        var draft = await Processors.LimitsAsync(Viewer.Actor, _ended.Token);
        return (draft.Version, draft.Limits);
    }

    private void Open(ProcessorProfile? was, ProcessorForm form)
    {
        _problems.Clear();
        _gate = new FieldGate();
        (_was, _form) = (was, form);
    }

    private Task CloseAsync()
    {
        (_was, _form) = (null, null);
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
        ProcessorProfile? newest = null;
        var outcome = await ConflictAsking.SaveAsync(
            Dialogs,
            Viewer,
            form,
            Guid.Empty,
            _ => Processors.SaveAsync(Viewer.Actor, _was = newest ?? _was, form.Profile(), Text, _ended.Token),
            async () => (newest = await NewestAsync()) is { } theirs ? ProcessorForm.Of(theirs) : null);
        _busy = false;
        _problems.Show(outcome.Problems);
        if (outcome.Succeeded)
        {
            Snackbar.Add("Processor saved", MudBlazor.Severity.Normal);
            await CloseAsync();
        }
        else if (outcome.Conflict is null && _was is not null && await NewestAsync() is null)
        {
            // Gone meanwhile: what was typed is kept, and saving it again adds it.
            _was = null;
        }
    }

    private async Task<ProcessorProfile?> NewestAsync() => (await Processors.ListAsync(Viewer.Actor, _ended.Token)).FirstOrDefault(profile => profile.Name == _was?.Name);

    private async Task RemoveAsync(ProcessorProfile profile)
    {
        _busy = true;
        var outcome = await Processors.RemoveAsync(Viewer.Actor, profile, _ended.Token);
        _busy = false;
        _problems.Show(outcome.Problems);
        if (outcome.Succeeded)
        {
            _removed.Add(profile);
            UndoBar.Show(Snackbar, $"'{profile.Name}' removed", () => InvokeAsync(() => BringBackAsync(profile)));
        }

        await LoadAsync();
    }

    private async Task BringBackAsync(ProcessorProfile profile)
    {
        // Asked from the strip as well, after the page is left.
        var outcome = await Processors.SaveAsync(Viewer.Actor, null, profile, Text, CancellationToken.None);
        if (_ended.IsCancellationRequested)
        {
            return;
        }

        _problems.Show(outcome.Problems);
        await LoadAsync();
        StateHasChanged();
    }
}
