using ShopFloor.Engineering.Electrical.Network;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Solves the plan of a job as a network: nine states of engine and music, and a short circuit at every place in turn.</summary>
public sealed class FeedStates(ShopStore store)
{
    /// <returns>Null while no run is sized.</returns>
    public Task<FeedStatesView?> GetAsync(Actor actor, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(async db => (await SupplyPlan.ReadAsync(db, jobId, text, cancellationToken)).Feed, cancellationToken);
    }

    public static FeedStatesView Solve(ElectricalPlanView plan, FeedNetwork network, UnitText text)
    {
        var problems = network.Validate(text);
        if (problems.Count > 0)
        {
            return new FeedStatesView(network, [], null, [.. problems.Select(problem => new Finding(
                "network-refused", Severity.Stop, problem.Field, "The feed as a network", problem.Message, "Correct it; until then it is not solved.", "limits of the calculation"))]);
        }

        var states = NetworkSolver.SolveAll(network, AlternatorSource.States(plan), text: text);
        // Both batteries and, with the engine running, the alternator feed a fault: the largest current.
        var faults = FaultSweep.Run(network, AlternatorSource.At(plan, new Scenario(EngineState.Cruise, LoadLevel.Idle)), clearing: FeedNetworkBuilder.Clearing(plan), text: text);
        return new FeedStatesView(
            network,
            states,
            faults,
            [.. states.SelectMany(state => state.Findings).Concat(faults.Findings).DistinctBy(finding => (finding.Code, finding.SubjectId)).OrderByDescending(finding => finding.Severity)])
        {
            Orders = FuseOrders.Of(plan, faults, text),
        };
    }
}

/// <summary>The feed solved as a network.</summary>
/// <param name="States">Nine states, engine off to cruise, no signal to full output; empty when the network was refused.</param>
/// <param name="Faults">Null when the network was refused.</param>
/// <param name="Findings">Gravest first; each kind once a place.</param>
public sealed record FeedStatesView(
    FeedNetwork Network, IReadOnlyList<NetworkResult> States, FaultSweepResult? Faults, IReadOnlyList<Finding> Findings)
{
    /// <summary>Each fuse that has another before it; empty when the network was refused.</summary>
    public IReadOnlyList<FuseOrder> Orders { get; init; } = [];
}
