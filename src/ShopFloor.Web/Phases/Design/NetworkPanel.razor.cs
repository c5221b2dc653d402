using System.Globalization;
using Microsoft.AspNetCore.Components;
using ShopFloor.Engineering.Electrical.Network;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Web.Layout;

namespace ShopFloor.Web.Phases.Design;

/// <summary>The plan solved as a network: nine states of engine and music, and a short circuit at every place.</summary>
public sealed partial class NetworkPanel : IDisposable
{
    private readonly CancellationTokenSource _ended = new();
    private FeedStatesView? _view;
    private NetworkResult? _chosen;
    private ElectricalPlanView? _solved;
    private bool _loaded;

    /// <summary>The job.</summary>
    [Parameter, EditorRequired] public Guid JobId { get; set; }

    /// <summary>The plan that is solved.</summary>
    [Parameter, EditorRequired] public ElectricalPlanView Plan { get; set; } = default!; // EditorRequired: the compiler asks for it.

    [Inject] private FeedStates Feed { get; set; } = default!; // Set by the framework before first use.

    [CascadingParameter] private Viewer Viewer { get; set; } = default!; // Pages of jobs are behind the sign-in.

    private UnitText Text => new(Viewer.Units, CultureInfo.CurrentCulture);

    protected override async Task OnParametersSetAsync()
    {
        if (_solved == Plan)
        {
            return;
        }

        _solved = Plan;
        var scenario = _chosen?.Scenario;
        _view = await Feed.GetAsync(Viewer.Actor, JobId, Text, _ended.Token);
        _chosen = _view?.States.FirstOrDefault(state => state.Scenario == scenario) ?? _view?.States.FirstOrDefault(state => state.Scenario is { Engine: EngineState.Idle, Level: LoadLevel.Music });
        _loaded = true;
    }

    public void Dispose()
    {
        _ended.Cancel();
        _ended.Dispose();
    }

    private static string EngineWords(EngineState engine) => engine switch { EngineState.Off => "Off", EngineState.Idle => "Idling", _ => "Cruising" };

    private static ElementState? Element(NetworkResult state, string id) => state.Elements.FirstOrDefault(element => element.ElementId == id);

    private static (double? Volts, string Name) Lowest(NetworkResult state) => state.Elements
        .Where(element => element.ElementId.StartsWith("load:", StringComparison.Ordinal) && element.TerminalVolts is not null)
        .OrderBy(element => element.TerminalVolts)
        .Select(element => (element.TerminalVolts, element.Name))
        .FirstOrDefault();

    private static string Grade(NetworkResult state) =>
        !state.IsSolved || state.Findings.Any(finding => finding.Severity == Severity.Stop) ? "state-stop" : state.Findings.Any(finding => finding.Severity == Severity.Warn) ? "state-warn" : "";

    private static double? End(NetworkResult state, PlanRun run)
    {
        double? At(string id) => state.Nodes.FirstOrDefault(node => node.NodeId == id)?.Volts;
        return At(run.Place.RunId) - At($"return:{run.Place.RunId}");
    }

    private string Source(NetworkResult state) => Element(state, FeedNetworkBuilder.BatteryId) is { } battery
        ? battery.Amperes > 0.05 ? $"battery gives {Text.Amperes(battery.Amperes)}" : battery.Amperes < -0.05 ? $"battery charges, {Text.Amperes(-battery.Amperes)}" : "battery rests"
        : "";

    // Two decimals: what a meter at the terminals shows, and what a cable takes.
    private static string Volts(double volts) => string.Create(CultureInfo.CurrentCulture, $"{volts:0.00}\u00a0V");

    private string Watts(double watts) => $"{Text.Number(watts, 3)} W";

    private string Seconds(double seconds) => seconds < 120 ? $"{Text.Number(seconds, 2)} s" : $"{Text.Number(seconds / 60, 2)} min";
}
