using ShopFloor.Documents.Diagrams;
using ShopFloor.Shop.Vehicles;
using ShopFloor.Web.Components;

namespace ShopFloor.Web.Phases.Intake;

/// <summary>The named places of the outline drawing, so that a mark can be placed from a list instead of by a tap.</summary>
internal static class OutlineAreas
{
    private const int Columns = 100;
    private const int Rows = 70;

    /// <summary>Asks the drawing what lies under a fine grid of points; a place is marked at the point of it nearest its middle.</summary>
    public static IReadOnlyList<OutlineArea> Of(BodyStyle body) =>
    [
        .. from column in Enumerable.Range(0, Columns)
           from row in Enumerable.Range(0, Rows)
           let x = (column + 0.5) / Columns
           let y = (row + 0.5) / Rows
           let area = VehicleOutline.Locate(body, x, y)
           where area.View is not null
           group (X: x, Y: y) by area.Text into place
           orderby place.Key
           let middleX = place.Average(point => point.X)
           let middleY = place.Average(point => point.Y)
           let nearest = place.MinBy(point => Math.Pow(point.X - middleX, 2) + Math.Pow(point.Y - middleY, 2))
           select new OutlineArea(place.Key, nearest.X, nearest.Y),
    ];
}
