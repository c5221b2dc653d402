namespace ShopFloor.Documents.Diagrams;

/// <summary>A place in the vehicle where something can be, as the top plan knows it.</summary>
/// <param name="Key">Stable key, for example "boot-floor-left".</param>
/// <param name="Name">As shown to people.</param>
/// <param name="Along">0 at the nose, 1 at the tail.</param>
/// <param name="Across">-1 at the vehicle's left edge, 1 at its right.</param>
public sealed record PlanZone(string Key, string Name, double Along, double Across);

/// <summary>Shapes of badges, so that kinds differ without colour.</summary>
public enum BadgeShape
{
    Circle,
    Square,
    Diamond,
    Triangle,
}

/// <summary>A numbered badge in a zone of the top plan.</summary>
/// <param name="ZoneKey">A key from <see cref="VehicleTopPlan.Zones"/>.</param>
/// <param name="Label">Short, usually a number; longer than four characters is cut with an ellipsis.</param>
/// <param name="Shape">What kind of thing it is.</param>
/// <param name="Accented">Whether it is filled with the accent colour instead of ink.</param>
public sealed record PlanBadge(string ZoneKey, string Label, BadgeShape Shape = BadgeShape.Circle, bool Accented = false)
{
    /// <summary>A few characters below the badge, such as a rating; empty for none.</summary>
    public string Note { get; init; } = "";
}
