using System.Globalization;
using Microsoft.AspNetCore.Components;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Tuning.Factory;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Processors;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Tuning.Factory;
using ShopFloor.Shop.Phases.Tuning.Measurements;
using ShopFloor.Shop.Phases.Tuning.Presets;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Layout;

namespace ShopFloor.Web.Phases.Tuning;

public sealed partial class FactorySignalPanel(FactorySignals signals, TuningPresets presets, TuningBench facts) : IDisposable
{
    private static readonly Components.UnitScale Number = Scales.Count("filters");
    private readonly CancellationTokenSource _ended = new();
    private CancellationTokenSource? _run;
    private FactorySignalView? _view;
    private FactorySignalForm _choice = new();
    private List<FactorySideView> _sides = [];
    private IReadOnlyList<ChannelSetting> _inputs = [];
    private IReadOnlyList<string> _refusals = [];
    private string _problem = "";
    private string _putProblem = "";
    private string _said = "";
    private int _read = -1;

    /// <summary>The job.</summary>
    [Parameter, EditorRequired] public Guid JobId { get; set; }

    /// <summary>Counts the changes of the job; a new one is a reason to read again.</summary>
    [Parameter, EditorRequired] public int Round { get; set; }

    /// <summary>What is on the bench.</summary>
    [Parameter, EditorRequired] public PresetBench Bench { get; set; } = default!; // EditorRequired: the compiler asks for it.

    /// <summary>Raised to show where measurements are brought.</summary>
    [Parameter] public EventCallback Measure { get; set; }

    [CascadingParameter] private Viewer Viewer { get; set; } = default!; // Pages of jobs are behind the sign-in.

    private bool MayWork => Viewer.May(Permission.WorkOnJobs);

    private UnitText Text => new(Viewer.Units, CultureInfo.CurrentCulture);

    // The bench may hold another processor than the preset in the car.
    private ProcessorProfile Profile => Bench.Draft?.Profile ?? _view!.Profile; // asked with a view only

    private bool IsPut => Bench.Draft is { } draft && Equal(draft.Inputs, _inputs);

    protected override async Task OnParametersSetAsync()
    {
        if (_read != Round)
        {
            _read = Round;
            Bench.OpenAny(await presets.GetAsync(Viewer.Actor, JobId, _ended.Token));
            _view = await signals.GetAsync(Viewer.Actor, JobId, _ended.Token);
            _choice = _view.Choice;
            if (_view.Outputs.Count > 0)
            {
                StateHasChanged();
                await WorkAsync();
            }
        }
    }

    public void Dispose()
    {
        _run?.Cancel();
        _ended.Cancel();
        _ended.Dispose();
    }

    private static bool Equal(IReadOnlyList<ChannelSetting> one, IReadOnlyList<ChannelSetting> other) =>
        one.Count == other.Count && one.Zip(other).All(pair => pair.First with { Filters = [] } == pair.Second with { Filters = [] } && pair.First.Filters.SequenceEqual(pair.Second.Filters));

    private Task ChooseAsync(string key, bool added) => SetAsync(_choice with { LeftOut = [.. _choice.LeftOut.Where(each => each != key), .. added ? Array.Empty<string>() : [key]] });

    private async Task SetAsync(FactorySignalForm choice)
    {
        _choice = choice;
        if (choice.Problems() is [var wrong, ..])
        {
            _problem = wrong.Message;
            return;
        }

        var kept = await signals.ChooseAsync(Viewer.Actor, JobId, _view!, choice, _ended.Token); // chosen with a view only
        _view = await signals.GetAsync(Viewer.Actor, JobId, _ended.Token);
        _choice = _view.Choice;
        await WorkAsync();
        if (!kept.Succeeded)
        {
            _problem = $"{kept.Message} What is shown is the other choice.";
        }
    }

    private void Stop() => _run?.Cancel();

    private async Task WorkAsync()
    {
        _run?.Cancel();
        using var run = CancellationTokenSource.CreateLinkedTokenSource(_ended.Token);
        _run = run;
        (_problem, _putProblem, _said) = ("", "", "Taking the outputs apart and fitting filters …");
        StateHasChanged();
        try
        {
            var outcome = await signals.ComputeAsync(Viewer.Actor, _view!, _choice, Profile, Text, new Told(this), run.Token); // asked with a view only
            if (_run == run)
            {
                Show(outcome.Value ?? [], outcome.Succeeded ? "" : outcome.Message);
            }
        }
        catch (OperationCanceledException)
        {
            if (_run == run)
            {
                Show([], "Stopped.");
            }
        }
        finally
        {
            if (_run == run)
            {
                _run = null;
            }
        }
    }

    private void Show(List<FactorySideView> sides, string problem)
    {
        (_sides, _problem) = (sides, problem);
        // On the processor's steps, as they will be kept.
        _inputs = sides.Count == 0 ? [] : FactorySideView.Inputs(sides);
        _refusals = FactoryInputs.Refusals(_inputs, Profile);
        if (_inputs.Count > 0 && _refusals.Count == 0)
        {
            _inputs = SettingQuantiser.Fit(new ProcessorPreset("inputs", [new ChannelSetting { Id = "none", Name = "none" }]) { Inputs = _inputs }, Profile, Text).Preset.Inputs;
        }
    }

    private async Task PutAsync()
    {
        if (Bench.Draft is null)
        {
            var known = await facts.GetAsync(Viewer.Actor, JobId, ListeningSeat.Driver, _ended.Token);
            if (known.Channels.Count == 0)
            {
                _putProblem = "A preset needs a channel to begin with: link the loudspeakers to their amplifiers and the amplifiers to the processor.";
                return;
            }

            Bench.Open(known.Begin(Profile));
        }

        Bench.Set(Bench.Draft! with { Inputs = _inputs, Factory = [.. _sides.Select(side => side.Note)] }); // opened above
    }

    private void Tell(ImageSide side)
    {
        _said = $"{FactoryWords.Side(side)} is done …";
        _ = InvokeAsync(StateHasChanged);
    }

    private sealed class Told(FactorySignalPanel panel) : IProgress<ImageSide>
    {
        public void Report(ImageSide value) => panel.Tell(value);
    }
}
