namespace ShopFloor.Engineering.Acoustics.Enclosures;

/// <summary>A Butterworth high-pass as sections (S. Butterworth, Wireless Engineer 7, 1930).</summary>
public static class ButterworthHighPass
{
    /// <summary>Its sections: one of second order for each pair of poles, and one of first order when the order is odd.</summary>
    /// <param name="hertz">Corner, 3 dB down, Hz.</param>
    /// <param name="order">Order, 1 to 8: 6 dB an octave each.</param>
    /// <exception cref="ArgumentOutOfRangeException">The order is outside its range.</exception>
    public static IReadOnlyList<FilterSection> Sections(double hertz, int order)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(order, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(order, 8);
        // Poles lie evenly on the unit circle; the Q of a pair is 1/(2·sin θ), θ from the upright axis.
        List<FilterSection> sections = [.. Enumerable.Range(1, order / 2).Select(pair => new FilterSection(FilterKind.HighPass, hertz, 1 / (2 * Math.Sin((2 * pair - 1) * Math.PI / (2 * order)))))];
        if (order % 2 == 1)
            sections.Add(new FilterSection(FilterKind.HighPassFirst, hertz));
        return sections;
    }
}

/// <summary>A Butterworth low-pass as sections: the mirror of the high-pass.</summary>
public static class ButterworthLowPass
{
    /// <summary>Its sections.</summary>
    /// <param name="hertz">Corner, 3 dB down, Hz.</param>
    /// <param name="order">Order, 1 to 8: 6 dB an octave each.</param>
    /// <exception cref="ArgumentOutOfRangeException">The order is outside its range.</exception>
    public static IReadOnlyList<FilterSection> Sections(double hertz, int order) =>
        [.. ButterworthHighPass.Sections(hertz, order).Select(section => section with { Kind = section.Kind == FilterKind.HighPass ? FilterKind.LowPass : FilterKind.LowPassFirst })];
}
