namespace ShopFloor.Web.Components;

/// <summary>Where a stage or step stands, as shown by <see cref="StageMark"/>.</summary>
public enum StageState
{
    /// <summary>Nothing done yet.</summary>
    NotStarted,

    /// <summary>Someone works on it.</summary>
    Working,

    /// <summary>Waits for parts or an answer.</summary>
    Waiting,

    /// <summary>A finding or a blocker holds it.</summary>
    Blocked,

    /// <summary>Finished, with its proof.</summary>
    Done,
}
