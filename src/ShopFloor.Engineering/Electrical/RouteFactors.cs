namespace ShopFloor.Engineering.Electrical;

/// <summary>What a table and a route make of every cable laid there. The one place a cable is judged, for single runs, plans and trees.</summary>
internal sealed class RouteFactors
{
    private readonly int _column;

    /// <exception cref="ArgumentOutOfRangeException">The insulation class is below the coolest column of the table.</exception>
    public RouteFactors(AmpacityTable table, RunData route)
    {
        _column = table.Column(route.InsulationCelsius);
        ColumnCelsius = table.InsulationCelsius[_column];
        Ambient = table.AmbientFactor(route.InsulationCelsius, route.AmbientCelsius, route.EngineSpace);
        Bundling = table.BundlingFactor(route.BundledConductors);
        EffectiveAmbient = route.EngineSpace ? Math.Max(route.AmbientCelsius, table.EngineSpaceAmbientCelsius) : route.AmbientCelsius;
        MinimumArea = route.SheathedWholeWay ? table.MinimumSheathedAreaSquareMillimeters : table.MinimumAreaSquareMillimeters;
        ConductorMeters = MetersOf(route);
        TerminationOhms = route.TerminationOhms;
        BodyOhms = BodyOhmsOf(route);
        FixedOhms = FixedOhmsOf(route);
    }

    public double ColumnCelsius { get; }

    public double Ambient { get; }

    public double Bundling { get; }

    public double EffectiveAmbient { get; }

    public double MinimumArea { get; }

    /// <summary>Length of conductor there and back, m.</summary>
    public double ConductorMeters { get; }

    public double BodyOhms { get; }

    /// <summary>Both ends together, Ω.</summary>
    public double TerminationOhms { get; }

    /// <summary>What no thicker conductor lessens, Ω.</summary>
    public double FixedOhms { get; }

    /// <summary>Length of conductor a route takes there and back, m; its length must be known.</summary>
    public static double MetersOf(RunData route) => (route.ReturnPath == ReturnPath.DedicatedConductor ? 2 : 1) * route.LengthMeters!.Value; // validated, or checked by the plan

    /// <summary>Resistance of a return through the body, Ω; 0 for a conductor.</summary>
    public static double BodyOhmsOf(RunData route) => route.ReturnPath == ReturnPath.VehicleBody ? route.BodyReturnOhms ?? ElectricalDefaults.BodyReturnOhms : 0;

    /// <summary>What no thicker conductor lessens of a route: body return and terminations, Ω.</summary>
    public static double FixedOhmsOf(RunData route) => BodyOhmsOf(route) + route.TerminationOhms;

    public double TableAmperes(AmpacityRow row) => row.Amperes[_column];

    public double Derated(AmpacityRow row) => TableAmperes(row) * Ambient * Bundling;

    public bool IsThickEnough(AmpacityRow row) => FuseRatings.AtLeast(row.Conductor.AreaSquareMillimeters, MinimumArea);

    public RunDrop Drop(AmpacityRow row, double amperes, double supplyVolts)
    {
        var celsius = VoltageDrop.ConductorCelsius(EffectiveAmbient, ColumnCelsius, amperes, Derated(row));
        var ohms = row.Conductor.OhmsPerMeter(celsius) * ConductorMeters;
        var volts = amperes * (ohms + FixedOhms);
        return new RunDrop(amperes, celsius, ohms, BodyOhms, volts, 100 * volts / supplyVolts, TerminationOhms);
    }
}
