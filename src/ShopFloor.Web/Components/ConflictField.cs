namespace ShopFloor.Web.Components;

/// <summary>One field two people changed.</summary>
/// <param name="Key">Name of the field for the page.</param>
/// <param name="Label">Name shown.</param>
/// <param name="Mine">My value, as text with its unit.</param>
/// <param name="Theirs">The value saved meanwhile.</param>
public sealed record ConflictField(string Key, string Label, string Mine, string Theirs);
