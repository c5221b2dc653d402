namespace ShopFloor.Web.Layout;

/// <summary>One entry of the main navigation.</summary>
/// <param name="Text">The word shown.</param>
/// <param name="Href">Address of its page.</param>
/// <param name="Icon">Icon drawn beside the word; never shown without it.</param>
/// <param name="Roles">Roles that see it; empty for everyone who is signed in.</param>
public sealed record NavigationItem(string Text, string Href, string Icon, params IReadOnlyList<string> Roles);
