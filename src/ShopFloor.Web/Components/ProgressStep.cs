namespace ShopFloor.Web.Components;

/// <summary>One step of a <see cref="ProgressSteps"/> row.</summary>
/// <param name="Name">Its name.</param>
/// <param name="State">Where it stands.</param>
/// <param name="Href">Address of its page, or null.</param>
public sealed record ProgressStep(string Name, StageState State, string? Href = null);
