namespace ShopFloor.Web.Components;

/// <summary>What an input inside a <see cref="FieldRow"/> has to carry so that its label, help and message are read with it.</summary>
/// <param name="Id">The input's id.</param>
/// <param name="DescribedBy">Ids of help and message, or null when there are none.</param>
/// <param name="Invalid"><c>"true"</c> while a problem is shown, else null so that the attribute is left out.</param>
public sealed record FieldMarks(string Id, string? DescribedBy, string? Invalid);
