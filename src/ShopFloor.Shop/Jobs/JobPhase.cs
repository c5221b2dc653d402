namespace ShopFloor.Shop.Jobs;

/// <summary>
/// The phases of a job in the order the work flows. Folders, pages, routes and tests carry the same words;
/// a phase may use earlier ones, never later ones.
/// </summary>
public enum JobPhase
{
    Intake,
    Design,
    Estimate,
    Parts,
    Build,
    Tuning,
    Handover,
}

/// <summary>Whether a job is in the shop's hands.</summary>
public enum JobState
{
    Open,
    Delivered,
    Cancelled,
}
