namespace ShopFloor.Web.Components;

/// <summary>Which of two values to keep.</summary>
public enum ConflictChoice
{
    /// <summary>The value entered here.</summary>
    Mine,

    /// <summary>The value saved by someone else meanwhile.</summary>
    Theirs,
}
