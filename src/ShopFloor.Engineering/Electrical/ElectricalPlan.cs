using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>Computes the supply network of an added system as a tree.</summary>
/// <remarks>
/// Currents are taken at the battery voltage entered; the small rise of current of a regulated amplifier as its voltage falls is not
/// followed. The main run carries the sum of the loads at the distribution point. The voltage drop limit holds for main run and branch
/// together and is shared by length; what the main run does not use is left to the branches.
/// </remarks>
public static class ElectricalPlan
{
    /// <summary>Identifier of the main run in results and findings.</summary>
    public const string MainRunId = "main-run";

    // Smaller than any step between standard ratings: only asks for "larger than".
    private const double LeastRatingStepAmperes = 0.1;

    /// <summary>Computes the plan.</summary>
    /// <param name="input">The plan.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// <see cref="ElectricalPlanInput.Validate"/> finds a problem; the parameter name is the field.
    /// </exception>
    public static ElectricalPlanResult Compute(ElectricalPlanInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));

        var limit = input.Rules.MaxDropPercent / 100 * input.SupplyVolts;
        var loads = input.Loads.Select(l => LoadCurrents.Of(l, input.SupplyVolts, text)).ToList();
        var behindMain = loads.Where(l => l.Load.ConnectedTo == LoadConnection.Distribution && l.Rated is not null).ToList();
        var mainAmperes = MainAmperes(behindMain, input.MainDemandFactor);
        var main = SizeMain(input, behindMain, mainAmperes, limit, text);

        var planned = loads.Select(l => Plan(input, l, main, limit, text)).ToList();
        var runs = planned.Select(p => p.Branch).Prepend(main).OfType<RunSizingResult>().ToList();
        var totals = Totals(loads);
        var alternator = input.Alternator is { } data ? Compare(data, totals.Music.Amperes) : null;
        return new ElectricalPlanResult
        {
            Main = main,
            MainAmperes = mainAmperes,
            Loads = planned,
            Totals = totals,
            MaxDropVolts = limit,
            CopperKilograms = runs.Sum(r => r.CopperKilograms),
            CableKilograms = runs.Sum(r => r.CableKilograms),
            Alternator = alternator,
            Findings = PlanFindings.Find(input, planned, main, mainAmperes, totals, limit, alternator, text),
            Cautions = PlanCautions.For(input),
            ConductorsToBuy = BuyList.Conductors(input, main, planned),
            FusesToBuy = BuyList.Fuses(runs),
            Explanation = PlanExplanation.Make(input, planned, main, mainAmperes, totals, limit, text),
        };
    }

    private static double MainAmperes(List<LoadCurrents> loads, double demandFactor)
    {
        if (loads.Count == 0)
            return 0;
        var least = Math.Max(loads.Max(l => l.Rated!.Amperes), Math.Max(loads.Sum(l => l.Music!.Amperes), loads.Sum(l => l.Idle!.Amperes)));
        return Math.Max(demandFactor * loads.Sum(l => l.Rated!.Amperes), least);
    }

    private static RunSizingResult? SizeMain(ElectricalPlanInput input, List<LoadCurrents> loads, double amperes, double limit, UnitText text)
    {
        if (loads.Count == 0 || input.Main.LengthMeters is null)
            return null;
        var branches = loads.Where(l => l.Load.Branch.LengthMeters is not null).Select(l => Branch(input, l)).ToList();
        var run = new RunSizingInput
        {
            Id = MainRunId,
            Name = "Main run",
            ContinuousAmperes = amperes,
            MusicAmperes = loads.Sum(l => l.Music!.Amperes),
            IdleAmperes = loads.Sum(l => l.Idle!.Amperes),
            SupplyVolts = input.SupplyVolts,
            FedFromBattery = true,
            FuseNotBelowAmperes = FuseNotBelow(branches),
            Run = input.Main,
            Rules = input.Rules,
        };
        return RunSizing.Size(run, DropShare.ForMain(run, branches, limit, text), text);
    }

    /// <summary>
    /// One branch: its fuse and the main fuse guard the same load, so equal ratings do. Several: the main fuse has to be the larger, or a
    /// fault on one branch takes all of them down.
    /// </summary>
    private static double? FuseNotBelow(List<RunSizingInput> branches)
    {
        var largest = branches.Max(b => RunChoice.FuseOf(new RunCase(b, DropShare.Whole(0)))?.RatingAmperes);
        return branches.Count > 1 ? largest + LeastRatingStepAmperes : largest;
    }

    private static RunSizingInput Branch(ElectricalPlanInput input, LoadCurrents load) => new()
    {
        Id = load.Load.Id,
        Name = load.Load.Name,
        ContinuousAmperes = load.Rated!.Amperes,
        MusicAmperes = load.Music!.Amperes,
        IdleAmperes = load.Idle!.Amperes,
        SupplyVolts = input.SupplyVolts,
        FedFromBattery = load.Load.ConnectedTo == LoadConnection.Battery,
        MakerFuseAmperes = load.Load.MakerFuseAmperes,
        Run = load.Load.Branch,
        Rules = input.Rules,
    };

    private static PlannedLoad Plan(ElectricalPlanInput input, LoadCurrents load, RunSizingResult? main, double limit, UnitText text)
    {
        var atBattery = load.Load.ConnectedTo == LoadConnection.Battery;
        var known = load.Rated is not null && load.Load.Branch.LengthMeters is not null && (atBattery || main is not null);
        RunSizingResult? branch = null;
        if (known)
        {
            var budget = atBattery ? DropShare.Whole(limit) : DropShare.ForBranch(limit, main!.DropAt(input.Rules.DropBasis).Volts, text);
            branch = RunSizing.Size(Branch(input, load), budget, text);
        }

        LoadDrop? Drop(Func<RunSizingResult, RunDrop> at)
        {
            if (branch is null)
                return null;
            var mainVolts = atBattery ? 0 : at(main!).Volts;
            var total = mainVolts + at(branch).Volts;
            return new LoadDrop(mainVolts, at(branch).Volts, total, 100 * total / input.SupplyVolts, input.SupplyVolts - total);
        }

        return new PlannedLoad
        {
            LoadId = load.Load.Id,
            Name = load.Load.Name,
            ConnectedTo = load.Load.ConnectedTo,
            MissingData = load.Load.Branch.LengthMeters is null ? [.. load.Missing, "length of its run"] : load.Missing,
            Rated = load.Rated,
            Music = load.Music,
            Idle = load.Idle,
            Amplifier = load.Amplifier,
            Branch = branch,
            RatedDrop = Drop(r => r.RatedDrop),
            MusicDrop = Drop(r => r.MusicDrop),
        };
    }

    private static PlanTotals Totals(List<LoadCurrents> loads)
    {
        PlanLevel Sum(Func<LoadCurrents, PlanLevel?> level) =>
            loads.Select(level).OfType<PlanLevel>().Aggregate(PlanLevel.Zero, (sum, next) => sum.Plus(next));
        return new PlanTotals(Sum(l => l.Rated), Sum(l => l.Music), Sum(l => l.Idle), loads.All(l => l.Missing.Count == 0));
    }

    private static AlternatorComparison Compare(AlternatorData alternator, double musicAmperes)
    {
        var atIdle = alternator.RatedAmperes * alternator.IdleFraction;
        var atCruise = alternator.RatedAmperes * alternator.HotFraction;
        var vehicle = alternator.VehicleBaseAmperes ?? ElectricalDefaults.VehicleBaseAmperes;
        var origin = alternator.VehicleBaseAmperes is null ? $"default: {ElectricalDefaults.FromMemory}" : "entered";
        return new AlternatorComparison(
            atIdle, atCruise, vehicle, origin, musicAmperes, atIdle - vehicle - musicAmperes, atCruise - vehicle - musicAmperes);
    }
}
