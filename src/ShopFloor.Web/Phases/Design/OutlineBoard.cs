using ShopFloor.Engineering.Geometry;

namespace ShopFloor.Web.Phases.Design;

/// <summary>An outline while it is drawn: a view of a grid, corners on its steps, and what was there before each change.</summary>
public sealed class OutlineBoard
{
    /// <summary>Height of the view over its width.</summary>
    public const double Shape = 0.75;

    private const int MostUndo = 100;
    private const double Narrowest = 0.05;
    private const double Widest = 40; // corners are accepted up to 10 m out
    private readonly Stack<List<Point2>> _before = new();

    /// <summary>Corners in order, m.</summary>
    public List<Point2> Corners { get; private set; } = [];

    /// <summary>Step of the grid, m.</summary>
    public double StepMeters { get; set; } = 0.01;

    /// <summary>Lower left of the view, m.</summary>
    public Point2 Low { get; private set; }

    /// <summary>Width of the view, m.</summary>
    public double Width { get; private set; } = 0.6;

    public double Height => Width * Shape;

    public bool CanUndo => _before.Count > 0;

    /// <summary>Takes corners that came from elsewhere, without a way back to what was drawn.</summary>
    public void Show(List<Point2> corners)
    {
        ArgumentNullException.ThrowIfNull(corners);
        if (ReferenceEquals(corners, Corners))
            return;
        Corners = corners;
        if (corners.Exists(corner => corner.X < Low.X || corner.X > Low.X + Width || corner.Y < Low.Y || corner.Y > Low.Y + Height))
            Fit();
    }

    /// <summary>The view that holds all corners with room to go on.</summary>
    public void Fit()
    {
        if (Corners.Count == 0)
        {
            (Low, Width) = (default, 0.6);
            return;
        }

        var (left, right, foot, head) = (Corners.Min(c => c.X), Corners.Max(c => c.X), Corners.Min(c => c.Y), Corners.Max(c => c.Y));
        Width = Math.Clamp(Math.Max(right - left, (head - foot) / Shape) * 1.3, Narrowest, Widest);
        Low = Snapped(new Point2((left + right - Width) / 2, (foot + head - Height) / 2));
    }

    /// <summary>Widens or narrows the view about its middle.</summary>
    public void Zoom(double factor)
    {
        var (x, y) = (Low.X + Width / 2, Low.Y + Height / 2);
        Width = Math.Clamp(Width * factor, Narrowest, Widest);
        Low = Snapped(new Point2(x - Width / 2, y - Height / 2));
    }

    /// <summary>A corner where the view was tapped: into the side it lies on, else behind the last one.</summary>
    /// <param name="right">Share of the width of the view.</param>
    /// <param name="up">Share of its height.</param>
    public int Add(double right, double up)
    {
        var at = At(right, up);
        var side = SideAt(at);
        Remember();
        var index = side is { } after ? after + 1 : Corners.Count;
        Corners = [.. Corners[..index], at, .. Corners[index..]];
        return index;
    }

    /// <param name="begins">Whether a drag begins, so that all of it is one step back.</param>
    public void Move(int index, double right, double up, bool begins) => Place(index, At(right, up), begins);

    /// <summary>Moves a corner by steps of the grid.</summary>
    public void Nudge(int index, int right, int up) =>
        Place(index, Snapped(new Point2(Corners[index].X + right * StepMeters, Corners[index].Y + up * StepMeters)), true);

    public void Remove(int index)
    {
        Remember();
        Corners = [.. Corners[..index], .. Corners[(index + 1)..]];
    }

    public void Clear()
    {
        Remember();
        Corners = [];
    }

    public void Undo() => Corners = _before.Pop();

    /// <summary>Share of the view where a corner lies.</summary>
    public (double Right, double Up) Share(Point2 corner) => ((corner.X - Low.X) / Width, (corner.Y - Low.Y) / Height);

    private void Place(int index, Point2 at, bool begins)
    {
        if (begins)
            Remember();
        Corners = [.. Corners[..index], at, .. Corners[(index + 1)..]];
    }

    private void Remember()
    {
        _before.Push(Corners);
        if (_before.Count > MostUndo)
        {
            var kept = _before.Take(MostUndo).Reverse().ToList();
            _before.Clear();
            kept.ForEach(_before.Push);
        }
    }

    private Point2 At(double right, double up) => Snapped(new Point2(Low.X + right * Width, Low.Y + up * Height));

    private Point2 Snapped(Point2 at) => new(Step(at.X), Step(at.Y));

    // A ten-thousandth of a millimetre: steps of a sixteenth of an inch stay what they are.
    private double Step(double meters) => Math.Round(Math.Round(meters / StepMeters) * StepMeters, 7);

    private int? SideAt(Point2 at)
    {
        if (Corners.Count < 2)
            return null;
        // A finger's width of the view.
        var reach = Width / 40;
        var nearest = Enumerable.Range(0, Corners.Count < 3 ? 1 : Corners.Count).Select(n => (n, Away: Distance(at, Corners[n], Corners[(n + 1) % Corners.Count]))).MinBy(each => each.Away);
        return nearest.Away <= reach ? nearest.n : null;
    }

    private static double Distance(Point2 at, Point2 from, Point2 to)
    {
        var (x, y) = (to.X - from.X, to.Y - from.Y);
        var along = x * x + y * y is > 0 and var length ? Math.Clamp(((at.X - from.X) * x + (at.Y - from.Y) * y) / length, 0, 1) : 0;
        return Math.Sqrt(Math.Pow(at.X - from.X - along * x, 2) + Math.Pow(at.Y - from.Y - along * y, 2));
    }
}
