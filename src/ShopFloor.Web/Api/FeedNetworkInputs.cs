using ShopFloor.Engineering.Electrical.Network;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Web.Api;

/// <summary>A supply network in one state.</summary>
public sealed record FeedNetworkInput
{
    /// <summary>The network.</summary>
    public required FeedNetwork Network { get; init; }

    /// <summary>What engine and loads do.</summary>
    public Scenario Scenario { get; init; } = new(EngineState.Off, LoadLevel.Full);

    /// <summary>Whether conductors warm up with their current; otherwise they stay at ambient temperature.</summary>
    public bool SelfHeating { get; init; } = true;

    internal IReadOnlyList<InputProblem> Validate() => [.. Network.Validate().Select(problem => problem with { Field = $"{nameof(Network)}.{problem.Field}" })];
}

/// <summary>A supply network to be shorted at every node in turn.</summary>
public sealed record FaultSweepInput
{
    /// <summary>The most nodes one request may sweep: the work grows faster than their number.</summary>
    private const int MostNodes = 1000;

    /// <summary>The network.</summary>
    public required FeedNetwork Network { get; init; }

    /// <summary>Whether the engine, and with it the alternator, runs.</summary>
    public Scenario Scenario { get; init; } = new(EngineState.Cruise, LoadLevel.Idle);

    /// <summary>Resistance of the fault, Ω.</summary>
    public double FaultOhms { get; init; }

    internal IReadOnlyList<InputProblem> Validate()
    {
        List<InputProblem> problems = [.. Network.Validate().Select(problem => problem with { Field = $"{nameof(Network)}.{problem.Field}" })];
        if (Network.Nodes.Count > MostNodes)
            problems.Add(new InputProblem($"{nameof(Network)}.{nameof(Network.Nodes)}", $"Nodes: {Network.Nodes.Count} are entered; one request sweeps up to {MostNodes}."));
        if (!(FaultOhms is >= 0 and <= 1000))
            problems.Add(new InputProblem(nameof(FaultOhms), $"Fault resistance: {FaultOhms} Ω is not accepted; enter 0 Ω to 1000 Ω."));
        return problems;
    }
}
