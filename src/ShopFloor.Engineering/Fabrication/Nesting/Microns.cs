namespace ShopFloor.Engineering.Fabrication.Nesting;

/// <summary>Lengths as whole micrometres, so that what just fits is never a matter of rounding.</summary>
internal static class Microns
{
    public static long Of(double meters) => (long)Math.Round(meters * 1e6, MidpointRounding.AwayFromZero);

    public static double Meters(long microns) => microns / 1e6;
}
