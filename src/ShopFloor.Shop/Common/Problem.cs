namespace ShopFloor.Shop.Common;

/// <summary>Why something was refused, tied to the field it is about so that a form can show it there.</summary>
/// <param name="Field">Property name of the input, or an empty string when the refusal concerns the whole.</param>
/// <param name="Message">What is wrong, the value given, and what is accepted.</param>
public sealed record Problem(string Field, string Message);
