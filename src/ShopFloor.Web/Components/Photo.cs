namespace ShopFloor.Web.Components;

/// <summary>A photo as shown in a <see cref="PhotoGrid"/>.</summary>
/// <param name="Id">Its identifier.</param>
/// <param name="ThumbnailUrl">Address of the small picture.</param>
/// <param name="FullUrl">Address of the large picture.</param>
/// <param name="Caption">What it shows; also its text alternative.</param>
/// <param name="Detail">When, by whom, for which step.</param>
public sealed record Photo(string Id, string ThumbnailUrl, string FullUrl, string Caption, string? Detail = null);
