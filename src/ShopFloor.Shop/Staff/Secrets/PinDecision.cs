namespace ShopFloor.Shop.Staff.Secrets;

/// <summary>Whether a PIN may be looked at now, and the counters to store before it is (also when it is not).</summary>
/// <param name="Allowed">Look at the PIN. False: do not, not even to see whether it is right.</param>
/// <param name="Person">The person's counter as it is to be stored now.</param>
/// <param name="Device">The device's counter as it is to be stored now.</param>
/// <param name="TryAgainAt">When the next try will be looked at; null when allowed, and when only an owner can help.</param>
/// <param name="Message">What to tell the person; empty when allowed.</param>
public sealed record PinDecision(bool Allowed, PinCounter Person, PinCounter Device, DateTimeOffset? TryAgainAt, string Message);
