namespace ShopFloor.Engineering.Electrical.Fusing;

/// <summary>A spare fuse to leave in the car.</summary>
/// <param name="RatingAmperes">Rating, A.</param>
/// <param name="Form">Form.</param>
/// <param name="FormName">Plain name of the form.</param>
/// <param name="Fitted">How many of it are fitted.</param>
public sealed record SpareFuse(double RatingAmperes, FuseForm Form, string FormName, int Fitted);

/// <summary>Which spare fuses to leave in the car: one of each rating that its owner can change by hand. Common practice, no source.</summary>
public static class SpareFuses
{
    /// <summary>One of each plug-in rating fitted, smallest first. Bolted fuses are left out: a blown one needs a look at its cause and a tool.</summary>
    /// <param name="fitted">Every fuse fitted.</param>
    public static IReadOnlyList<SpareFuse> For(IEnumerable<FuseChoice> fitted)
    {
        ArgumentNullException.ThrowIfNull(fitted);
        return
        [
            .. from fuse in fitted
               where fuse.Form is FuseForm.MiniBlade or FuseForm.Blade or FuseForm.HighCurrentBlade or FuseForm.FemaleBlock
               group fuse by (fuse.RatingAmperes, Form: fuse.Form!.Value, fuse.FormName) into same
               orderby same.Key.RatingAmperes, same.Key.Form
               select new SpareFuse(same.Key.RatingAmperes, same.Key.Form, same.Key.FormName, same.Count()),
        ];
    }
}
