namespace ShopFloor.Engineering.Explained;

/// <summary>An input that is not accepted, in words for the person who entered it.</summary>
/// <param name="Field">Path of the property, for example <c>Loads[2].Branch.LengthMeters</c>.</param>
/// <param name="Message">The field in plain words, the value, and what is accepted.</param>
public sealed record InputProblem(string Field, string Message);
