using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Sizing;

namespace ShopFloor.Engineering.Tests.Electrical.Sizing;

/// <summary>Finds the least mass of a tree by trying every set of cables, with its own arithmetic from the public tables and formulas.</summary>
internal sealed class EverySet
{
    private readonly TreeSizingInput _input;
    private readonly int[] _parents;
    private readonly double[] _current;
    private readonly double[] _rated;
    private readonly double?[] _fuse;

    private EverySet(TreeSizingInput input)
    {
        _input = input;
        _parents = [.. input.Runs.Select(r => r.ParentId is null ? -1 : input.Runs.ToList().FindIndex(p => p.Id == r.ParentId))];
        _current = [.. input.Runs.Select((_, i) => Continuous(i))];
        _rated = [.. input.Runs.Select((_, i) => input.Rules.DropBasis == DropBasis.MusicCurrent ? Behind(i).Sum(l => l.MusicAmperes!.Value) : _current[i])];
        _fuse = [.. input.Runs.Select((_, i) => OwnFuse(i))];
    }

    /// <summary>Least mass of metal, kg, or null when no set keeps every limit.</summary>
    public static double? LeastKilograms(TreeSizingInput input) => new EverySet(input).Search();

    private IEnumerable<int> Below(int run) =>
        Enumerable.Range(0, _parents.Length).Where(i => _parents[i] == run).SelectMany(c => Below(c).Prepend(c));

    private IEnumerable<TreeLoad> Behind(int run)
    {
        var ids = Below(run).Prepend(run).Select(i => _input.Runs[i].Id).ToHashSet();
        return _input.Loads.Where(l => ids.Contains(l.RunId));
    }

    private double Continuous(int run)
    {
        var loads = Behind(run).ToList();
        var children = Enumerable.Range(0, _parents.Length).Where(i => _parents[i] == run).Select(Continuous);
        var single = loads.Where(l => l.RunId == _input.Runs[run].Id).Select(l => l.RatedAmperes);
        return new[] { _input.Runs[run].DemandFactor * loads.Sum(l => l.RatedAmperes), loads.Sum(l => l.MusicAmperes!.Value) }
            .Concat(children).Concat(single).Max();
    }

    private double? OwnFuse(int run)
    {
        if (!_input.Runs[run].HasFuse)
            return null;
        // Above the largest of several fuses next behind, not below a single one.
        var next = NextFuses(run).ToList();
        return Rating(run, Math.Max(_current[run] / 0.8, next.Count switch { 0 => 0, 1 => next[0], _ => next.Max() + 0.1 }));
    }

    private IEnumerable<double> NextFuses(int run) => Enumerable.Range(0, _parents.Length).Where(i => _parents[i] == run)
        .SelectMany(child => OwnFuse(child) is { } fuse ? [fuse] : NextFuses(child));

    private double Derated(int run, CableOption cable)
    {
        var route = _input.Runs[run].Route;
        return cable.Table.Amperes(cable.Conductor.Label, route.InsulationCelsius)
            * cable.Table.AmbientFactor(route.InsulationCelsius, route.AmbientCelsius, route.EngineSpace)
            * cable.Table.BundlingFactor(route.BundledConductors);
    }

    private double Rating(int run, double least)
    {
        var series = _parents[run] < 0 ? _input.Rules.BatteryFuses : _input.Rules.Fuses;
        var ratings = series.SelectMany(s => s.RatingsAmperes).Where(r => r >= least * (1 - 1e-9)).ToList();
        return ratings.Count == 0 ? double.PositiveInfinity : ratings.Min();
    }

    private double? Protecting(int run) => _input.Runs[run].HasFuse ? _fuse[run] : _parents[run] < 0 ? null : Protecting(_parents[run]);

    private double? Search()
    {
        var perRun = _input.Runs.Select((_, i) => Usable(i)).ToList();
        if (perRun.Any(u => u.Count == 0))
            return null;
        double? best = null;
        var at = new int[perRun.Count];
        while (true)
        {
            var kilograms = at.Select((c, i) => perRun[i][c].Kilograms).Sum();
            if ((best is null || kilograms < best) && KeepsDrops(at.Select((c, i) => perRun[i][c].Volts).ToArray()))
                best = kilograms;
            var digit = 0;
            while (digit < at.Length && ++at[digit] == perRun[digit].Count)
                at[digit++] = 0;
            if (digit == at.Length)
                return best;
        }
    }

    private bool KeepsDrops(double[] volts)
    {
        foreach (var load in _input.Loads)
        {
            var total = 0.0;
            for (var i = _input.Runs.ToList().FindIndex(r => r.Id == load.RunId); i >= 0; i = _parents[i])
                total += volts[i];
            if (total > load.MaxDropVolts!.Value + 1e-9)
                return false;
        }

        return true;
    }

    private List<(double Kilograms, double Volts)> Usable(int run)
    {
        var route = _input.Runs[run].Route;
        var usable = new List<(double, double)>();
        foreach (var cable in _input.Cables!)
        {
            var amperes = Derated(run, cable);
            if (amperes < Math.Max(_current[run], Protecting(run) ?? 0) * (1 - 1e-9) || cable.Conductor.AreaSquareMillimeters < cable.Table.MinimumAreaSquareMillimeters - 1e-9)
                continue;
            var body = route.ReturnPath == ReturnPath.VehicleBody;
            var meters = route.LengthMeters!.Value * (body ? 1 : 2);
            var celsius = VoltageDrop.ConductorCelsius(route.EngineSpace ? 50 : route.AmbientCelsius, route.InsulationCelsius, _rated[run], amperes);
            var volts = _rated[run] * (cable.Conductor.OhmsPerMeter(celsius) * meters + (body ? ElectricalDefaults.BodyReturnOhms : 0));
            usable.Add((cable.Conductor.CopperKilogramsPerMeter * meters, volts));
        }

        return usable;
    }
}
