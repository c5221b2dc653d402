using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>Findings that a single run, a plan and a tree share, worded once.</summary>
internal static class ConductorFindings
{
    /// <summary>Null for copper.</summary>
    public static Finding? Clad(string id, string name, ConductorSize conductor, UnitText text) => conductor.Material is not { IsCopperClad: true } clad ? null : new Finding(
        "copper-clad-conductor", Severity.Warn, id, name,
        $"{conductor.Label} has {text.Number(1 / clad.ShareOfCopperConductivity)} times the resistance of copper of the same size and is allowed the current of a thinner copper conductor.",
        "Use terminals and crimps made for it, do not nick the skin or bend it to and fro, and check the ends for heat after the first hours; where a terminal's maker does not allow it, use copper.",
        $"{clad.Source}; terminations and fatigue: {Unsourced.CommonPractice}");

    /// <summary>Null when the return is measured or a conductor of its own.</summary>
    public static Finding? ReturnNotMeasured(string id, string name, RunData route, double bodyOhms, UnitText text) => route is not { ReturnPath: ReturnPath.VehicleBody, BodyReturnOhms: null } ? null : new Finding(
        "return-not-measured", Severity.Note, id, name,
        $"The body return is taken as {text.Number(bodyOhms * 1000)} mΩ.",
        "Measure the drop from the load's negative terminal to the battery's negative post under load, and enter the resistance.",
        ElectricalDefaults.FromMemory);

    /// <summary>A fuse below what the load asks for; a stop when it would open on the load itself. Null when it is large enough.</summary>
    public static Finding? FuseBelowLoad(string id, string name, double ratingAmperes, double continuousAmperes, double minimumAmperes, UnitText text) =>
        FuseRatings.AtLeast(ratingAmperes, minimumAmperes) ? null : new Finding(
            "fuse-below-load", ratingAmperes < continuousAmperes ? Severity.Stop : Severity.Warn, id, name,
            $"A {text.Amperes(ratingAmperes)} fuse is small for {text.Amperes(continuousAmperes)}; at least {text.Amperes(minimumAmperes)} is asked for.",
            "Use a larger fuse on a conductor that allows it.", RunFindings.FuseSource);
}
