using CsCheck;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Tests.Electrical;

public class RunSizingProperties
{
    private static readonly double[] _classes = [60, 75, 80, 90, 105, 125, 200];

    private static readonly Gen<RunSizingInput> _runs =
        from amperes in Gen.Double[0.1, 350]
        from meters in Gen.Double[0.1, 12]
        from insulation in Gen.Int[0, _classes.Length - 1]
        from ambient in Gen.Double[-20, 95]
        from engine in Gen.Bool
        from bundled in Gen.Int[1, 30]
        from body in Gen.Bool
        from battery in Gen.Bool
        from maker in Gen.Double[1, 400]
        from hasMaker in Gen.Bool
        from stocked in Gen.Bool
        from basis in Gen.Enum<DropBasis>()
        from music in Gen.Double[0, 1]
        select new RunSizingInput
        {
            Id = "run",
            Name = "Run",
            ContinuousAmperes = amperes,
            MusicAmperes = amperes * music,
            FedFromBattery = battery,
            MakerFuseAmperes = hasMaker ? maker : null,
            Run = new RunData
            {
                LengthMeters = meters,
                InsulationCelsius = _classes[insulation],
                AmbientCelsius = ambient,
                EngineSpace = engine,
                BundledConductors = bundled,
                ReturnPath = body ? ReturnPath.VehicleBody : ReturnPath.DedicatedConductor,
                SourceToFuseMeters = 0,
            },
            Rules = (stocked ? new SizingRules() : Runs.EverySize) with { DropBasis = basis },
        };

    [Fact]
    public void A_fuse_never_exceeds_its_conductors_derated_ampacity_unless_someone_chose_it()
    {
        _runs.Sample(input =>
        {
            var r = RunSizing.Size(input);
            return r.Fuse is null || r.Fuse.RatingAmperes <= r.DeratedAmperes * (1 + 1e-9);
        });
    }

    [Fact]
    public void A_fuse_is_never_below_the_load_over_the_loading_unless_a_size_was_chosen()
    {
        _runs.Sample(input =>
        {
            var r = RunSizing.Size(input);
            return r.Fuse is null || r.Fuse.RatingAmperes >= input.ContinuousAmperes / 0.8 * (1 - 1e-9);
        });
    }

    [Fact]
    public void No_stop_finding_means_every_limit_is_kept_and_the_other_way_round()
    {
        _runs.Sample(input =>
        {
            var r = RunSizing.Size(input);
            return r.KeepsAllLimits == r.Findings.All(f => f.Severity != Severity.Stop);
        });
    }

    [Fact]
    public void A_size_is_only_chosen_when_the_next_thinner_one_breaks_a_limit()
    {
        _runs.Sample(input =>
        {
            var r = RunSizing.Size(input);
            var sizes = input.Rules.AvailableSizes.ToList();
            var at = sizes.IndexOf(r.Conductor.Label);
            if (at == 0 || r.DecidedBy == SizeDecision.NoneFits)
                return true;
            var thinner = RunSizing.Size(input.WithRun(d => d with { ForcedSize = sizes[at - 1], ForcedFuseAmperes = r.Fuse!.RatingAmperes }));
            return !thinner.KeepsAllLimits;
        });
    }

    [Fact]
    public void More_load_never_means_a_thinner_conductor()
    {
        Gen.Select(_runs, Gen.Double[1, 2]).Sample((input, more) =>
            Area(input) <= Area(input with { ContinuousAmperes = input.ContinuousAmperes * more, MusicAmperes = input.MusicAmperes * more }));
    }

    [Fact]
    public void A_longer_run_never_means_a_thinner_conductor()
    {
        Gen.Select(_runs, Gen.Double[0, 10]).Sample((input, more) =>
            Area(input) <= Area(input.WithRun(r => r with { LengthMeters = r.LengthMeters + more })));
    }

    [Fact]
    public void Warmer_surroundings_never_mean_a_thinner_conductor()
    {
        Gen.Select(_runs, Gen.Double[0, 50]).Sample((input, more) =>
            Area(input) <= Area(input.WithRun(r => r with { AmbientCelsius = r.AmbientCelsius + more })));
    }

    [Fact]
    public void More_conductors_in_the_bundle_never_mean_a_thinner_conductor()
    {
        Gen.Select(_runs, Gen.Int[0, 30]).Sample((input, more) =>
            Area(input) <= Area(input.WithRun(r => r with { BundledConductors = r.BundledConductors + more })));
    }

    [Fact]
    public void A_tighter_drop_limit_never_means_a_thinner_conductor()
    {
        Gen.Select(_runs, Gen.Double[0.02, 1], Gen.Double[0, 1]).Sample((input, volts, more) =>
            Area(input with { MaxDropVolts = volts + more }) <= Area(input with { MaxDropVolts = volts }));
    }

    private static double Area(RunSizingInput input) => RunSizing.Size(input).Conductor.AreaSquareMillimeters;
}
