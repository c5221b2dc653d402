using CsCheck;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Conductors;
using ShopFloor.Engineering.Electrical.Sizing;

namespace ShopFloor.Engineering.Tests.Electrical.Sizing;

public class TreeSizingProperties
{
    private static readonly IReadOnlyList<CableOption> _gauges = CableOption.FromTable(PublishedTables.Cfr33Part183425);

    private static IReadOnlyList<CableOption> Five(params string[] labels) => [.. _gauges.Where(c => labels.Contains(c.Conductor.Label))];

    private static readonly IReadOnlyList<CableOption>[] _fives =
    [
        Five("14 AWG", "10 AWG", "6 AWG", "2 AWG", "3/0 AWG"),
        Five("12 AWG", "8 AWG", "4 AWG", "1/0 AWG", "4/0 AWG"),
        Five("16 AWG", "14 AWG", "12 AWG", "10 AWG", "8 AWG"),
        [
            .. Five("8 AWG", "4 AWG", "2 AWG"),
            .. CableOption.FromTable(AmpacityByArea.Match(PublishedTables.Cfr33Part183425, PublishedSizes.Vehicle).Table)
                .Where(c => c.Conductor.AreaSquareMillimeters is 10 or 25),
        ],
    ];

    private static readonly Gen<TreeSizingInput> _small = Gen.Int[0, 3].SelectMany(i => Trees.Random(7, _fives[i], 40));

    private static readonly Gen<TreeSizingInput> _large = Trees.Random(25, _gauges, 20);

    [Fact]
    public void The_set_is_as_light_as_the_lightest_of_all_sets_tried_one_by_one()
    {
        var feasible = 0;
        var infeasible = 0;
        _small.Sample(
            input =>
            {
                var expected = EverySet.LeastKilograms(input);
                var result = TreeSizing.Size(input);
                if (expected is null)
                {
                    Interlocked.Increment(ref infeasible);
                    return !result.IsFeasible && result.Blockers.Count > 0;
                }

                Interlocked.Increment(ref feasible);
                return result.IsFeasible && Math.Abs(result.Totals!.ConductorKilograms / expected.Value - 1) < 1e-9;
            },
            iter: 400);

        // The generator reaches both sides.
        Assert.True(feasible > 50, $"{feasible} feasible");
        Assert.True(infeasible > 10, $"{infeasible} infeasible");
    }

    [Fact]
    public void The_set_is_never_heavier_than_run_by_run_and_sometimes_lighter()
    {
        var lighter = 0;
        _large.Sample(
            input =>
            {
                var result = TreeSizing.Size(input);
                if (result.SavedKilograms > 1e-6)
                    Interlocked.Increment(ref lighter);
                return !result.IsFeasible || result.SavedKilograms >= -1e-9;
            },
            iter: 500);

        Assert.True(lighter > 20, $"{lighter} lighter");
    }

    [Fact]
    public void Every_limit_is_kept_by_every_set()
    {
        _large.Sample(
            input =>
            {
                var result = TreeSizing.Size(input);
                return result.Runs.All(r => r.Limits.All(l => l.Passed) && r.SlackAmperes >= -1e-9 * r.DeratedAmperes && (r.SlackVolts ?? 0) >= -1e-8)
                    && result.Loads.All(l => l.DropVolts <= l.LimitVolts + 1e-8);
            },
            iter: 300);
    }

    [Fact]
    public void No_conductor_carries_less_than_the_fuse_that_protects_it()
    {
        _large.Sample(
            input => TreeSizing.Size(input).Runs.All(r => r.ProtectedByAmperes is { } fuse && fuse <= r.DeratedAmperes * (1 + 1e-9)),
            iter: 300);
    }

    [Fact]
    public void No_run_alone_could_have_a_lighter_cable()
    {
        Gen.Select(_small, Gen.Int[0, 6]).Sample(
            (input, pick) =>
            {
                var result = TreeSizing.Size(input);
                if (!result.IsFeasible)
                    return true;
                var at = pick % input.Runs.Count;
                if (result.Runs[at].RefusedSize is not { } refused)
                    return true;
                // Every other run keeps what it has.
                var forced = input with
                {
                    Runs = [.. input.Runs.Select((r, i) => r.WithRoute(d => d with { ForcedSize = i == at ? refused : result.Runs[i].Conductor.Label }))],
                };
                var blockers = TreeSizing.Size(forced).Blockers;
                return blockers.Count > 0 && blockers[0].Limit == result.Runs[at].DecidedBy;
            },
            iter: 300);
    }

    [Fact]
    public void More_cables_to_choose_from_are_never_heavier()
    {
        Gen.Select(_large, Gen.Int[0, 14]).Sample(
            (input, without) =>
            {
                var fewer = input with { Cables = [.. input.Cables!.Where((_, i) => i != without)] };
                return Kilograms(input) <= Kilograms(fewer) * (1 + 1e-9);
            },
            iter: 200);
    }

    [Fact]
    public void More_load_is_never_lighter()
    {
        Gen.Select(_large, Gen.Double[1, 2], Gen.Int[0, 24]).Sample(
            (input, more, pick) =>
            {
                var at = pick % input.Loads.Count;
                var heavier = input with
                {
                    Loads = [.. input.Loads.Select((l, i) => i != at ? l : l with { RatedAmperes = l.RatedAmperes * more, MusicAmperes = l.MusicAmperes * more })],
                };
                return Kilograms(input) <= Kilograms(heavier) * (1 + 1e-9);
            },
            iter: 200);
    }

    [Fact]
    public void A_longer_run_is_never_lighter()
    {
        Gen.Select(_large, Gen.Double[0, 5], Gen.Int[0, 24]).Sample(
            (input, more, pick) => Kilograms(input) <= Kilograms(
                input.WithRun(pick % input.Runs.Count, r => r.WithRoute(d => d with { LengthMeters = d.LengthMeters + more }))) * (1 + 1e-9),
            iter: 200);
    }

    [Fact]
    public void A_tighter_drop_limit_is_never_lighter()
    {
        Gen.Select(_large, Gen.Double[0.3, 1], Gen.Int[0, 24]).Sample(
            (input, share, pick) =>
            {
                var at = pick % input.Loads.Count;
                var tighter = input with { Loads = [.. input.Loads.Select((l, i) => i != at ? l : l with { MaxDropVolts = l.MaxDropVolts * share })] };
                return Kilograms(input) <= Kilograms(tighter) * (1 + 1e-9);
            },
            iter: 200);
    }

    [Fact]
    public void The_order_of_the_runs_changes_nothing()
    {
        Gen.Select(_large, Gen.Int[1, 24]).Sample(
            (input, turn) =>
            {
                var turned = input with { Runs = [.. input.Runs.Skip(turn % input.Runs.Count), .. input.Runs.Take(turn % input.Runs.Count)] };
                var (a, b) = (Kilograms(input), Kilograms(turned));
                return a == b || Math.Abs(a / b - 1) < 1e-9;
            },
            iter: 100);
    }

    private static double Kilograms(TreeSizingInput input) => TreeSizing.Size(input).Totals?.ConductorKilograms ?? double.PositiveInfinity;
}
