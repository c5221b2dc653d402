namespace ShopFloor.Engineering.Tuning;

/// <summary>How far a search has come.</summary>
/// <param name="Stage">What is being done, in plain words.</param>
/// <param name="DoneShare">Share of the work done, 0 to 1.</param>
/// <param name="BestDecibels">The best error so far, dB rms; null before there is one.</param>
public sealed record TuningProgress(string Stage, double DoneShare, double? BestDecibels);
