namespace ShopFloor.Engineering.Electrical;

/// <summary>A run being sized: the values every size is judged with.</summary>
internal sealed class RunCase
{
    public RunCase(RunSizingInput input, RunBudget budget)
    {
        Input = input;
        Budget = budget;
        var run = input.Run;
        var table = input.Rules.Table;
        Length = run.LengthMeters!.Value; // validated, or checked by the plan
        ColumnCelsius = table.ColumnCelsius(run.InsulationCelsius);
        AmbientFactor = table.AmbientFactor(run.InsulationCelsius, run.AmbientCelsius, run.EngineSpace);
        BundlingFactor = table.BundlingFactor(run.BundledConductors);
        EffectiveAmbient = run.EngineSpace ? Math.Max(run.AmbientCelsius, table.EngineSpaceAmbientCelsius) : run.AmbientCelsius;
        Music = input.MusicAmperes ?? input.ContinuousAmperes;
        MinimumFuse = FuseRatings.MinimumRating(
            input.ContinuousAmperes, input.Rules.ContinuousLoading, Math.Max(25, run.AmbientCelsius), input.Rules.FuseDeratingPerCelsius);
        Series = input.FedFromBattery ? input.Rules.BatteryFuses : input.Rules.Fuses;
        MinimumArea = run.SheathedWholeWay ? table.MinimumSheathedAreaSquareMillimeters : table.MinimumAreaSquareMillimeters;
        BodyOhms = run.ReturnPath == ReturnPath.VehicleBody ? run.BodyReturnOhms ?? ElectricalDefaults.BodyReturnOhms : 0;
        TerminationOhms = run.TerminationOhms;
        ConductorMeters = run.ReturnPath == ReturnPath.DedicatedConductor ? 2 * Length : Length;
        Sizes = [.. table.Rows.Where(r => input.Rules.AvailableSizes.Contains(r.Conductor.Label))];
    }

    public RunSizingInput Input { get; }

    public RunBudget Budget { get; }

    public double Length { get; }

    public double ColumnCelsius { get; }

    public double AmbientFactor { get; }

    public double BundlingFactor { get; }

    public double EffectiveAmbient { get; }

    public double Music { get; }

    /// <summary>The current the drop limit is kept at, A.</summary>
    public double DropAmperes => Input.Rules.DropBasis == DropBasis.MusicCurrent ? Music : Input.ContinuousAmperes;

    public double MinimumFuse { get; }

    public IReadOnlyList<FuseSeries> Series { get; }

    public double MinimumArea { get; }

    public double BodyOhms { get; }

    public double TerminationOhms { get; }

    /// <summary>What no thicker conductor lessens, Ω.</summary>
    public double FixedOhms => BodyOhms + TerminationOhms;

    public double ConductorMeters { get; }

    /// <summary>Sizes that may be chosen, thinnest first.</summary>
    public IReadOnlyList<AmpacityRow> Sizes { get; }

    public double TableAmperes(AmpacityRow row) => row.Amperes[Input.Rules.Table.Column(Input.Run.InsulationCelsius)];

    public double Derated(AmpacityRow row) => TableAmperes(row) * AmbientFactor * BundlingFactor;

    public bool Carries(AmpacityRow row) => FuseRatings.AtLeast(Derated(row), Input.ContinuousAmperes);

    public bool IsThickEnough(AmpacityRow row) => FuseRatings.AtLeast(row.Conductor.AreaSquareMillimeters, MinimumArea);

    public RunDrop Drop(AmpacityRow row, double amperes)
    {
        var celsius = VoltageDrop.ConductorCelsius(EffectiveAmbient, ColumnCelsius, amperes, Derated(row));
        var ohms = row.Conductor.OhmsPerMeter(celsius) * ConductorMeters;
        var volts = amperes * (ohms + FixedOhms);
        return new RunDrop(amperes, celsius, ohms, BodyOhms, volts, 100 * volts / Input.SupplyVolts, TerminationOhms);
    }

    public FuseChoice? SmallestFuse(double least, double most) => FuseRatings.Smallest(Series, least, most, Input.SupplyVolts);

    public FuseChoice? LargestFuse(double least, double most) => FuseRatings.Largest(Series, least, most, Input.SupplyVolts);
}
