namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>What an element is in the eyes of the solver.</summary>
internal static class FeedElements
{
    public static bool IsLoad(FeedElement element) => element is ConstantPowerLoad or ConstantCurrentLoad or ResistiveLoad or VehicleBaseLoad;

    public static double? MinimumWorkingVolts(FeedElement element) => element switch
    {
        ConstantPowerLoad p => p.MinimumWorkingVolts,
        ConstantCurrentLoad c => c.MinimumWorkingVolts,
        ResistiveLoad r => r.MinimumWorkingVolts,
        _ => null,
    };

    /// <summary>How an element behaves in a scenario, with the loads at a common factor.</summary>
    public static BranchLaw LawOf(FeedElement element, Scenario scenario, bool selfHeating) => element switch
    {
        Battery { InternalOhms: > 0 } b => BranchLaw.Source(b.OpenCircuitVolts, b.InternalOhms, b.ChargingOhms ?? b.InternalOhms),
        Alternator a when scenario.Engine != EngineState.Off =>
            BranchLaw.Regulated(a.SetPointVolts, a.SlopeOhms, a.LimitAmperes(scenario.EngineRpm * a.PulleyRatio)),
        Conductor c => BranchLaw.Resistor(c.OhmsAt(c.AmbientCelsius), selfHeating ? c.OhmsPerKelvin * c.KelvinPerSquareAmpere : 0),
        LumpedResistance { Ohms: > 0 } r => BranchLaw.Resistor(r.Ohms),
        FuseElement { IsBlown: false, Ohms: > 0 } f => BranchLaw.Resistor(f.Ohms),
        FeedSwitch { IsClosed: true, ClosedOhms: > 0 } s => BranchLaw.Resistor(s.ClosedOhms),
        ConstantPowerLoad p => BranchLaw.Power(At(scenario.Level, p.IdleWatts, p.MusicWatts, p.FullWatts)),
        ConstantCurrentLoad c => BranchLaw.Current(At(scenario.Level, c.IdleAmperes, c.MusicAmperes, c.FullAmperes)),
        VehicleBaseLoad v => BranchLaw.Current(scenario.Engine == EngineState.Off ? v.EngineOffAmperes : v.EngineRunningAmperes),
        ResistiveLoad r when At(scenario.Level, r.IdleOhms, r.MusicOhms, r.FullOhms) is { } ohms => BranchLaw.Drawing(ohms),
        _ => BranchLaw.Open,
    };

    private static T At<T>(LoadLevel level, T idle, T music, T full) => level switch
    {
        LoadLevel.Idle => idle,
        LoadLevel.Music => music,
        _ => full,
    };
}
