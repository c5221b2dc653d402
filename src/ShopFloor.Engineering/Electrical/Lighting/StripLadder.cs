namespace ShopFloor.Engineering.Electrical.Lighting;

/// <summary>A strip as a ladder of cells between feed points, solved for its voltages.</summary>
/// <remarks>
/// Each cell draws at its middle. Kirchhoff's current law at every cell gives a tridiagonal system; where resistors set the current it is
/// solved again with the slope of the cells until nothing moves (Newton on a piecewise linear curve, which ends after few rounds).
/// </remarks>
internal sealed class StripLadder(
    double supplyVolts, double forwardVolts, LedSegment segment, double totalAmperes, double lengthMeters, int cells, double loopOhmsPerMeter, double feederOhms)
{
    // Stands for a wire of no resistance; far below anything that matters in volts.
    private const double NoOhms = 1e-9;
    private const int MostRounds = 100;

    public int Cells => cells;

    public double Position(int cell) => (cell + 0.5) * lengthMeters / cells;

    /// <summary>Current of a cell over its nominal current at a voltage.</summary>
    public double Share(double volts) => segment == LedSegment.ConstantCurrent ? 1
        : Math.Max(0, (volts - forwardVolts) / (supplyVolts - forwardVolts));

    /// <summary>Voltages of the cells with so many feed points.</summary>
    public double[] Solve(int feedPoints)
    {
        var link = cells / (loopOhmsPerMeter * lengthMeters); // conductance from cell to cell, S
        var feeds = Feeds(feedPoints, link);
        var nominal = totalAmperes / cells;
        var volts = new double[cells];
        Array.Fill(volts, supplyVolts);
        for (var round = 0; round < MostRounds; round++)
        {
            var next = SolveLinear(volts, link, feeds, nominal);
            var moved = 0.0;
            for (var i = 0; i < cells; i++)
                moved = Math.Max(moved, Math.Abs(next[i] - volts[i]));
            volts = next;
            if (moved < 1e-10 * supplyVolts || segment == LedSegment.ConstantCurrent)
                break;
        }

        return volts;
    }

    private double[] Feeds(int feedPoints, double link)
    {
        var feeds = new double[cells];
        var wire = Math.Max(feederOhms, NoOhms);
        // From the end of the strip to the middle of the first cell is half a cell.
        var end = 1 / (wire + 0.5 / link);
        feeds[0] += end;
        if (feedPoints >= 2)
            feeds[^1] += end;
        for (var j = 1; j < feedPoints - 1; j++)
            feeds[Math.Min(cells - 1, (int)((double)cells * j / (feedPoints - 1)))] += 1 / wire;
        return feeds;
    }

    private double[] SolveLinear(double[] at, double link, double[] feeds, double nominal)
    {
        var slope = segment == LedSegment.ConstantCurrent ? 0 : nominal / (supplyVolts - forwardVolts);
        var upper = new double[cells];
        var right = new double[cells];
        for (var i = 0; i < cells; i++)
        {
            var conducting = segment == LedSegment.ResistorLimited && at[i] > forwardVolts;
            var own = conducting ? slope : 0;
            var drawn = segment == LedSegment.ConstantCurrent ? nominal : 0;
            var diagonal = feeds[i] + own + (i > 0 ? link : 0) + (i < cells - 1 ? link : 0);
            var known = feeds[i] * supplyVolts + own * forwardVolts - drawn;
            if (i > 0)
            {
                diagonal -= link * upper[i - 1];
                known += link * right[i - 1];
            }

            upper[i] = i < cells - 1 ? link / diagonal : 0;
            right[i] = known / diagonal;
        }

        for (var i = cells - 2; i >= 0; i--)
            right[i] += upper[i] * right[i + 1];
        return right;
    }
}
