using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical;

/// <summary>How much drop a run may have: the share it is chosen for, and the limit it is checked against.</summary>
/// <param name="ChooseVolts">Drop the size is chosen for, V; may be at or below zero when nothing is left.</param>
/// <param name="LimitVolts">Drop it is checked against, V.</param>
/// <param name="LimitName">Name of that limit.</param>
/// <param name="ReportsDrop">Whether the run itself reports a drop above the limit; a plan reports totals instead.</param>
/// <param name="Step">How the share was found, or null.</param>
internal sealed record RunBudget(double ChooseVolts, double LimitVolts, string LimitName, bool ReportsDrop, ExplainedStep? Step);
