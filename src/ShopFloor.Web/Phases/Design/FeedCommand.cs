namespace ShopFloor.Web.Phases.Design;

/// <summary>What somebody asks for about the chosen line of the outline.</summary>
public enum FeedCommand
{
    Open,
    Move,
    Cut,
    Paste,
    Usual,
    Rename,
    Cancel,
}
