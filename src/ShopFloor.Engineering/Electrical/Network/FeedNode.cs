namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>A point of the supply network where conductors meet: a terminal, a distribution block, a chassis point.</summary>
/// <param name="Id">Identifier, unique among the nodes.</param>
/// <param name="Name">Name shown in texts.</param>
public sealed record FeedNode(string Id, string Name);
