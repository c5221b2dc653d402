namespace ShopFloor.Engineering.Electrical;

/// <summary>Cautions that belong beside every electrical plan.</summary>
internal static class PlanCautions
{
    public static IReadOnlyList<string> For(ElectricalPlanInput input)
    {
        var cautions = new List<string>
        {
            "The vehicle maker's instructions and local codes come first; have work you are not trained for done by licensed people.",
            "Disconnect the battery's negative terminal before any work and connect it last. Wait as long as the vehicle maker says before going near airbags or belt tensioners.",
            "A battery can deliver thousands of amperes into a short circuit: no rings or watches, cover the terminals, wear eye protection, keep sparks and flames away.",
            "Fuse each feed close to its source. Fit the fuse last, after checking the run for shorts to the body.",
            "Keep conductors off airbag and belt-tensioner wiring and out of the way of airbags, seat rails, pedals, steering, hot and moving parts; use grommets through metal.",
            $"{input.Rules.Table.Name}: {input.Rules.Table.Statement}",
            "Efficiencies, idle currents, ambient and fuse forms marked \u201ccommon practice\u201d or \u201cfrom memory\u201d are starting values: read the marking and the maker's data.",
        };
        if (input.HybridOrElectric)
        {
            cautions.Insert(0,
                "High-voltage vehicle: orange cables and anything they run to can kill. Do not touch, cut, move or route along them. "
                + "Have the system made safe by a person qualified for high-voltage vehicles, and follow the vehicle maker on where 12 V loads may be connected.");
        }

        return cautions;
    }
}
