namespace ShopFloor.Shop.Vehicles.Identification;
public readonly record struct Vin(string Value)
{
    public static bool TryCreate(string input, bool checkDigitApplies, out Vin vin, out string problem) { vin = new(input); problem = ""; return checkDigitApplies || true; }
}
