using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Geometry;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication;

/// <summary>What is asked of an outline given by corners.</summary>
internal static class OutlineChecks
{
    private const int MostCorners = 500;

    public static void Check(InputChecks checks, string field, string label, IReadOnlyList<Point2> outline)
    {
        if (outline.Count is < 3 or > MostCorners)
        {
            checks.Add(field, $"{label}: {outline.Count} corners are not accepted; enter 3 to {MostCorners}.");
            return;
        }

        var before = checks.Problems.Count;
        for (var i = 0; i < outline.Count; i++)
        {
            checks.InRange($"{field}[{i}].X", $"{label}, corner {i + 1}, x", outline[i].X, -10, 10, QuantityKind.SmallLength);
            checks.InRange($"{field}[{i}].Y", $"{label}, corner {i + 1}, y", outline[i].Y, -10, 10, QuantityKind.SmallLength);
        }

        if (checks.Problems.Count > before)
            return;
        if (Polygon.Crossing(outline) is { } crossing)
        {
            checks.Add(field, crossing.First == crossing.Second
                ? $"{label}: corner {crossing.First + 1} and the next are the same place; leave one out."
                : $"{label}: the side after corner {crossing.First + 1} crosses or touches the side after corner {crossing.Second + 1}; enter the corners in order around the shape.");
        }
        else if (Math.Abs(Polygon.SignedSquareMeters(outline)) < 1e-8)
        {
            checks.Add(field, $"{label}: the shape has no area; enter corners that are not in one line.");
        }
    }
}
