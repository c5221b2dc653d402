using System.Globalization;
using ShopFloor.Documents.Diagrams;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Tuning.Analysis;

namespace ShopFloor.Documents.Tuning;

/// <summary>Draws an impulse response over time with the arrival by each method.</summary>
public static class ImpulseDrawing
{
    private const double Width = 480;
    private const double Height = 290;
    private const double Left = 46;
    private const double Right = Width - 14;
    private const double Top = 16;
    private const double Bottom = Height - 74;
    private const double Size = 12;
    private const double BeforeSeconds = 0.002;
    private const double RowHeight = 11;

    /// <param name="shownSeconds">How much after the arrival is shown, s.</param>
    public static string Draw(ImpulseResponse impulse, ArrivalResult arrival, double shownSeconds = 0.008)
    {
        ArgumentNullException.ThrowIfNull(impulse);
        ArgumentNullException.ThrowIfNull(arrival);
        var (from, to) = (arrival.Seconds - BeforeSeconds, arrival.Seconds + shownSeconds);
        var first = Math.Clamp((int)Math.Floor(impulse.IndexAt(from)), 0, impulse.Samples.Length - 2);
        var last = Math.Clamp((int)Math.Ceiling(impulse.IndexAt(to)), first + 1, impulse.Samples.Length - 1);
        var peak = Enumerable.Range(first, last - first + 1).Max(n => Math.Abs(impulse.Samples[n]));
        var scale = peak > 0 ? peak : 1;
        double X(double seconds) => Left + (Right - Left) * (seconds - from) / (to - from);
        double Y(double value) => (Top + Bottom) / 2 - (Bottom - Top) / 2 * 0.95 * value / scale;

        var svg = new SvgWriter(Width, Height, "Impulse response", string.Create(CultureInfo.CurrentCulture, $"Arrival {arrival.Seconds * 1e3:0.###} ms by {MethodWords(arrival.Method)}."));
        svg.Rectangle(0, 0, Width, Height, new SvgPaint(Look.Paper));
        for (var tick = Math.Ceiling(from * 1e3); tick <= to * 1e3; tick++)
        {
            svg.Line(X(tick / 1e3), Top, X(tick / 1e3), Bottom, new SvgPaint("none", Look.Hairline, 0.9));
            svg.Text(X(tick / 1e3), Bottom + 14, tick.ToString("0", CultureInfo.CurrentCulture), new SvgTextStyle(Size, Look.Secondary, Anchor: SvgAnchor.Middle));
        }

        svg.Line(Left, Y(0), Right, Y(0), new SvgPaint("none", Look.Hairline, 1.1));
        svg.Polyline(new SvgPaint("none", Look.Accent, 1.8), [.. Enumerable.Range(first, last - first + 1).Select(n => (X(impulse.SecondsAt(n)), Y(impulse.Samples[n]))).Where(point => point.Item1 >= Left && point.Item1 <= Right)]);
        svg.Rectangle(Left, Top, Right - Left, Bottom - Top, new SvgPaint("none", Look.Secondary, 1.1));
        svg.Text(Left - 6, Y(scale) + 4, "1", new SvgTextStyle(Size, Look.Secondary, Anchor: SvgAnchor.End));
        svg.Text(Left - 6, Y(-scale) + 4, "−1", new SvgTextStyle(Size, Look.Secondary, Anchor: SvgAnchor.End));
        svg.Text(Right, Bottom + 29, "Time, ms", new SvgTextStyle(Size, Look.Secondary, Anchor: SvgAnchor.End));
        Marks(svg, arrival, from, to, X);
        return svg.Finish();
    }

    public static string MethodWords(ArrivalMethod method) => method switch
    {
        ArrivalMethod.Peak => "strongest place",
        ArrivalMethod.Threshold => "first rise",
        ArrivalMethod.Energy => "tenth of the energy",
        ArrivalMethod.Correlation => "correlation",
        ArrivalMethod.ExcessPhase => "excess phase",
        _ => "reference",
    };

    // Each method's place is a numbered line; the numbers are told in the table beside.
    private static void Marks(SvgWriter svg, ArrivalResult arrival, double from, double to, Func<double, double> x)
    {
        var shown = arrival.Estimates.Where(one => one.Method != ArrivalMethod.Reference).Select((one, n) => (One: one, Number: n + 1)).Where(one => one.One.Seconds > from && one.One.Seconds < to).ToList();
        for (var n = 0; n < shown.Count; n++)
        {
            var (one, number) = shown[n];
            var chosen = one.Method == arrival.Method;
            var at = x(one.Seconds);
            svg.Line(at, Top, at, Bottom, new SvgPaint("none", Look.Ink, chosen ? 2 : 1) { Dash = chosen ? "" : "3 3" });
            svg.Text(at + 2, Top + RowHeight * (n + 1), number.ToString(CultureInfo.InvariantCulture), new SvgTextStyle(Size - 1, Heavy: chosen));
        }
    }
}
