using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Accessories;
using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Electrical.Fusing;
using ShopFloor.Engineering.Electrical.Lighting;
using ShopFloor.Engineering.Electrical.Network;
using ShopFloor.Engineering.Electrical.Runs;
using ShopFloor.Engineering.Electrical.Sizing;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Fabrication.Laminates;
using ShopFloor.Engineering.Fabrication.Restraint;
using ShopFloor.Engineering.Fabrication.Treatment;
using ShopFloor.Engineering.Fabrication.Nesting;
using ShopFloor.Engineering.Fabrication.Templates;
using ShopFloor.Engineering.Fabrication.Volume;
using ShopFloor.Engineering.Mass;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Signal;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Presets;
using ShopFloor.Engineering.Tuning.Alignment;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Factory;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Verification;
using ShopFloor.Engineering.Tuning.Analysis;
using ShopFloor.Engineering.Tuning.Measurements;
using ShopFloor.Engineering.Tuning.Placement;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Web.Api;

/// <summary>The calculations of the screens, as they are: the same functions over the same records.</summary>
internal static class CalculationEndpoints
{
    public static void MapCalculations(this IEndpointRouteBuilder api)
    {
        var calculations = api.MapGroup("/calculations").WithTags("Calculations").Needs(Permission.SeeJobs);
        Map<AmplifierCurrentInput, AmplifierCurrentResult>(
            calculations, "amplifier-current", "Supply current and heat of an amplifier at rated output, on music and at idle.", input => input.Validate(), input => AmplifierCurrent.Compute(input));
        Map<RunSizingInput, RunSizingResult>(
            calculations, "run-sizing", "Conductor and fuse of one run by published ampacity, voltage drop and fuse rules.", input => input.Validate(), input => RunSizing.Size(input));
        Map<ElectricalPlanInput, ElectricalPlanResult>(
            calculations, "electrical-plan", "The whole supply network: main run, branches, fuses, drops, battery and alternator.", input => input.Validate(), input => ElectricalPlan.Compute(input));
        Map<FeedNetworkInput, NetworkResult>(
            calculations, "feed-network", "Steady state of a supply network of any shape: node voltages, currents, conductor temperatures, or the load at which the voltage collapses.", input => input.Validate(), input => NetworkSolver.Solve(input.Network, input.Scenario, input.SelfHeating));
        Map<FaultSweepInput, FaultSweepResult>(
            calculations, "feed-faults", "A short circuit to ground at every node of a supply network in turn: prospective current and the fuses that clear it.", input => input.Validate(), input => FaultSweep.Run(input.Network, input.Scenario, input.FaultOhms));
        Map<TreeSizingInput, TreeSizingResult>(
            calculations, "tree-sizing", "The lightest or cheapest conductors of a whole supply tree that keep every limit, with the run-by-run choice beside it.", input => input.Validate(), input => TreeSizing.Size(input));
        Map<FuseDutyInput, FuseDutyResult>(
            calculations, "fuse-duty", "One fuse against its load, its surroundings, its conductors and the short-circuit current.", input => input.Validate(), input => FuseDuty.Check(input));
        Map<AlternatorBudgetInput, AlternatorBudgetResult>(
            calculations, "alternator-budget", "What the alternator has left at idle and at cruise with music playing.", input => input.Validate(), input => AlternatorBudget.Compute(input));
        Map<BatteryTimeInput, BatteryTimeResult>(
            calculations, "battery-time", "How long a battery lasts with the engine off, by Peukert's law in its H-hour form.", input => input.Validate(), input => BatteryTime.Compute(input));
        Map<KeyOffDrainInput, KeyOffDrainResult>(
            calculations, "key-off-drain", "Current of everything with the key out, and days until the car may not start.", input => input.Validate(), input => KeyOffDrain.Compute(input));
        Map<PeakSupportInput, PeakSupportResult>(
            calculations, "peak-support", "How far the voltage sags in a burst, with a capacitor or a second battery.", input => input.Validate(), input => PeakSupport.Compute(input));
        Map<CompartmentHeatInput, CompartmentHeatResult>(
            calculations, "compartment-heat", "Temperature rise of a closed compartment and the airflow that holds it down.", input => input.Validate(), input => CompartmentHeat.Compute(input));
        Map<LedStripInput, LedStripResult>(
            calculations, "led-strip", "Light strips: current, drop along the strip, feed points, supply and fuse.", input => input.Validate(), input => LedStrip.Compute(input));
        Map<SpeakerRunInput, SpeakerRunResult>(
            calculations, "speaker-run", "Loudspeaker cable by loss and damping.", input => input.Validate(), input => SpeakerRun.Compute(input));
        Map<SignalRunInput, SignalRunResult>(
            calculations, "signal-run", "Loss of a signal cable by its capacitance.", input => input.Validate(), input => SignalRun.Compute(input));
        Map<TurnOnInput, TurnOnResult>(
            calculations, "turn-on-chain", "Remote turn-on: current of the chain, relay, and an order of switching without a pop.", input => input.Validate(), input => TurnOnChain.Compute(input));
        Map<SignalPathInput, SignalPathResult>(
            calculations, "signal-path", "The signal path from sources to drivers: loads, gains, levels, noise, formats and what is wrong.", input => input.Validate(), input => SignalPath.Compute(input));
        Map<ConnectionComparisonInput, ConnectionComparisonResult>(
            calculations, "signal-comparison", "Two ways to connect the same source: level, clipping, noise at the ear, conversions, format, delay, ground, volume and cable.", input => input.Validate(), input => ConnectionComparison.Compute(input));
        Map<EnclosureInput, EnclosureResult>(
            calculations, "enclosure", "A driver in a closed, vented, passive-radiator or band-pass box: level, phase, impedance, excursion, air speed and the largest level.", input => input.Validate(), input => EnclosureSimulation.Compute(input));
        Map<EnclosureGoalInput, EnclosureGoalResult>(
            calculations, "enclosure-goal", "The box that reaches a goal within the room there is: a Q, a corner, the flattest response in the cabin, or the largest volume the excursion allows.", input => input.Validate(), input => EnclosureGoalSearch.Compute(input));
        Map<EnclosureComparisonInput, EnclosureComparisonResult>(
            calculations, "enclosure-comparison", "Several boxes side by side: corner, peak, evenness in the cabin, excursion, air speed and largest levels.", input => input.Validate(), input => new EnclosureComparisonResult(EnclosureComparison.Compute(input)));
        Map<DriverMeasurementInput, DriverMeasurementResult>(
            calculations, "driver-from-measurement", "A driver's parameters from impedance sweeps or resonances in free air, with an added mass and on a known volume.", input => input.Validate(), input => DriverMeasurement.Compute(input));
        Map<DriverSheet, CompletedDriver>(
            calculations, "driver-data", "A driver's data sheet completed: what follows from the rest, what is missing, and what contradicts by how much.", input => input.Validate(), input => DriverCompletion.Complete(input, Air.Standard));
        Map<LaminateInput, LaminateResult>(
            calculations, "laminate", "A laminate of cloth, core and resin: thickness, mass, stiffness, resin in cups, materials and cautions.", input => input.Validate(), input => Laminate.Compute(input));
        Map<RestraintInput, RestraintResult>(
            calculations, "restraint", "What holds an enclosure, rack or floor at stated decelerations: bolts, magnets or rated fasteners with their margins.", input => input.Validate(), input => ItemRestraint.Compute(input));
        Map<SoundTreatmentInput, SoundTreatmentResult>(
            calculations, "sound-treatment", "Mass and sheets of damping, barrier and absorber by panel area and coverage.", input => input.Validate(), input => SoundTreatment.Compute(input));
        Map<CornerLoadsInput, CornerLoadsResult>(
            calculations, "corner-loads", "Four corner scales before and after a build against what the masses predict.", input => input.Validate(), input => CornerLoads.Compute(input));
        Map<LighterPanelsInput, LighterPanelsResult>(
            calculations, "lighter-panels", "Materials and thicknesses that make a panel of the same stiffness lighter.", input => input.Validate(), input => LighterPanels.Compute(input));
        Map<FilterChainInput, FilterChainResult>(
            calculations, "biquad-chain", "Coefficients and response of a processor's channel: crossover halves, bells, shelves, all-passes, delay and polarity.", input => input.Validate(), input => FilterChain.Compute(input));
        Map<CrossoverSumInput, CrossoverSumResult>(
            calculations, "crossover", "Both halves of a crossover, Butterworth, Linkwitz-Riley or Bessel of 6 to 48 dB per octave, and their sum.", input => input.Validate(), input => CrossoverSum.Compute(input));
        Map<DelayInput, DelayResult>(
            calculations, "delays", "Delays by distance or by measured arrival, on the processor's steps, with rear fill.", input => input.Validate(), input => Delays.Compute(input));
        Map<EqualiserFitInput, EqualiserFitResult>(
            calculations, "equaliser-fit", "Bells and shelves that bring a response to a target within limits of gain, Q and level.", EqualiserProblems, input => EqualiserFit.Compute(input));
        Map<FactorySignalInput, FactorySignalResult>(
            calculations, "factory-signal", "Outputs of a factory amplifier measured at their wires: band, delay, polarity and all-passes of each, their sum as it comes and joined, and the filters that undo the factory equaliser.", input => input.Validate(), input => FactorySignal.Compute(input));
        Map<TuningVerificationInput, TuningVerificationResult>(
            calculations, "tuning-verification", "Left and right, target and arrivals after a tuning against their limits.", input => input.Validate(), input => TuningVerification.Compute(input));
        Map<PortFitInput, PortFitResult>(
            calculations, "port-fit", "Whether a straight, bent or slot port finds room in a box, and where it sounds by itself.", input => input.Validate(), input => PortFit.Check(input));
        Map<PortedChamberInput, PortedChamberResult>(
            calculations, "ported-chamber", "Net volume of a vented box, or of the front chamber of a band-pass, together with the length of the port that stands in it.", input => input.Validate(), input => PortedChamber.Compute(input));
        Map<BoxVolumeInput, BoxVolumeResult>(
            calculations, "box-volume", "Net volume of an enclosure from boards and bodies, or from what fills it; boards to cut, area and centre of mass.", input => input.Validate(), input => BoxVolume.Compute(input));
        Map<NestingInput, NestingResult>(
            calculations, "nesting", "A cut list laid out on sheets and offcuts by cuts from edge to edge, with the least number of sheets possible and the order of cuts.", input => input.Validate(), input => SheetNesting.Compute(input));
        Map<TemplateInput, TemplateResult>(
            calculations, "template", "Holes, areas and checks of a ring or adapter template.", input => input.Validate(), input => RingTemplate.Compute(input));
        Map<ImpulseMeasurementInput, ImpulseMeasurementResult>(
            calculations, "impulse-response", "Impulse response, harmonics, noise and arrival time from the sound file of an exponential sweep.", input => input.Validate(), input => ImpulseMeasurement.Compute(input));
        Map<ResponseAnalysisInput, ResponseAnalysisResult>(
            calculations, "response-analysis", "A response from numbers, a table or an impulse response: smoothed, in bands, minimum and excess phase, usable band, arrival.", input => input.Validate(), input => ResponseAnalysis.Compute(input));
        Map<PlacementInput, PlacementResult>(
            calculations, "placement", "Drivers, ears and panes: distances, delays, directivity off the axis and first reflections.", input => input.Validate(), input => PlacementStudy.Compute(input));
        Map<AxleLoadsInput, AxleLoadsResult>(
            calculations, "axle-loads", "Axle and side loads and the centre of mass by moments.", input => input.Validate(), input => AxleLoads.Compute(input));
        Map<AddedMassInput, AddedMassResult>(
            calculations, "added-mass", "Mass put in and taken out, by place, against the vehicle's labels.", input => input.Validate(), input => AddedMass.Compute(input));
        Map<VinCheckInput, VinCheckResult>(
            calculations, "vin-check", "A vehicle identification number by 49 CFR 565.15: alphabet, check digit, model year.", input => input.Validate(), VinCheckResult.Of);
    }

    // A request holds a core until it is answered; this much takes some ten seconds.
    private const double MostFitWork = 1e8;

    private static IReadOnlyList<InputProblem> EqualiserProblems(EqualiserFitInput input)
    {
        var problems = input.Validate();
        var work = (double)Math.Max(1, input.Starts) * input.Limits.Filters * input.Limits.Filters * input.Hertz.Count;
        return problems.Count > 0 || work <= MostFitWork
            ? problems
            : [new InputProblem(nameof(input.Starts), $"Starts: {input.Starts} with {input.Limits.Filters} filters and {input.Hertz.Count} frequencies take too long for one request; starts × filters² × frequencies may be {MostFitWork:0} at most.")];
    }

    private static void Map<TInput, TResult>(
        IEndpointRouteBuilder calculations, string name, string summary, Func<TInput, IReadOnlyList<InputProblem>> validate, Func<TInput, TResult> compute)
        where TInput : notnull =>
        calculations
            .MapPost("/" + name, (Delegate)((HttpContext context) => ApiJson.WithBodyAsync<TInput>(context, (input, body) =>
            {
                var problems = validate(input);
                return Task.FromResult(problems.Count > 0
                    ? ApiJson.Refused(problems.Select(problem => new Problem(problem.Field, problem.Message)), body)
                    : Results.Ok(compute(input)));
            }, ApiJson.MostCalculationBytes)))
            .WithName(name)
            .WithSummary(summary)
            .Accepts<TInput>("application/json")
            .Produces<TResult>()
            .ProducesProblem(StatusCodes.Status413PayloadTooLarge)
            .ProducesProblem(StatusCodes.Status422UnprocessableEntity);
}

/// <summary>Boxes side by side.</summary>
/// <param name="Enclosures">The boxes in the order given.</param>
public sealed record EnclosureComparisonResult(IReadOnlyList<ComparedEnclosure> Enclosures);

/// <summary>A vehicle identification number to check.</summary>
public sealed record VinCheckInput
{
    /// <summary>The number; spaces and dashes are left out.</summary>
    public required string Vin { get; init; }

    /// <summary>Whether the vehicle was built for a market that demands the check digit.</summary>
    public bool CheckDigitApplies { get; init; } = true;

    /// <summary>Whether it is a passenger car, or weighs 4,536 kg or less: position 7 then tells the cycle of the year code.</summary>
    public bool LightVehicle { get; init; } = true;

    internal IReadOnlyList<InputProblem> Validate() =>
        ShopFloor.Shop.Vehicles.Identification.Vin.TryCreate(Vin, CheckDigitApplies, out _, out var problem) ? [] : [new InputProblem(nameof(Vin), problem)];
}

/// <summary>What the number says.</summary>
/// <param name="Vin">The number in capitals.</param>
/// <param name="CheckDigitMatches">Whether position 9 carries the computed digit.</param>
/// <param name="ModelYearCandidates">Years position 10 may stand for.</param>
public sealed record VinCheckResult(string Vin, bool CheckDigitMatches, IReadOnlyList<int> ModelYearCandidates)
{
    internal static VinCheckResult Of(VinCheckInput input) =>
        ShopFloor.Shop.Vehicles.Identification.Vin.TryCreate(input.Vin, input.CheckDigitApplies, out var vin, out var problem)
            ? new VinCheckResult(vin.Value, vin.CheckDigitMatches, vin.ModelYearCandidates(input.LightVehicle))
            : throw new ArgumentException(problem, nameof(input));
}
