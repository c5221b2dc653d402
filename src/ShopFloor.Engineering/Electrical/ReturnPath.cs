namespace ShopFloor.Engineering.Electrical;

/// <summary>How the current gets back to the source.</summary>
public enum ReturnPath
{
    /// <summary>A second conductor of the same size and length.</summary>
    DedicatedConductor,

    /// <summary>The vehicle body with its bolted joints.</summary>
    VehicleBody,
}
