namespace ShopFloor.Engineering.Units;

/// <summary>Splits typed text into number and unit.</summary>
internal static class QuantityText
{
    public static ParsedQuantity Parse(string? text, QuantityKind kind, UnitSystem system, IFormatProvider provider)
    {
        var shown = (text ?? "").Trim();
        if (kind == QuantityKind.ConductorArea && ParseGauge(shown, system) is { } gauge)
            return gauge;

        var end = shown.Length;
        while (end > 0 && !char.IsAsciiDigit(shown[end - 1]))
            end--;
        // "mm2" ends in a digit that belongs to the unit.
        if (kind == QuantityKind.ConductorArea && shown.EndsWith("mm2", StringComparison.OrdinalIgnoreCase))
            end = shown.Length - 3;

        var number = UserNumber.Parse(end == 0 ? shown : shown[..end], provider);
        if (number.Value is not { } value)
            return number;

        var unit = shown[end..].Trim();
        if (unit.Length == 0)
            return ParsedQuantity.Read(Quantity.FromShown(value, kind, system));
        return ToStored(value, unit, kind) is { } stored
            ? ParsedQuantity.Read(stored)
            : ParsedQuantity.Refused($"\u201c{unit}\u201d is not a unit that fits here; use {Accepted(kind)}.");
    }

    private static ParsedQuantity? ParseGauge(string shown, UnitSystem system)
    {
        var named = shown.EndsWith("AWG", StringComparison.OrdinalIgnoreCase) || shown.Contains('/');
        var metric = shown.Contains("mm", StringComparison.OrdinalIgnoreCase);
        if (!named && (metric || system == UnitSystem.Metric))
            return null;
        return WireGauge.TryParse(shown, out var awg)
            ? ParsedQuantity.Read(WireGauge.AreaSquareMillimeters(awg))
            : ParsedQuantity.Refused($"\u201c{shown}\u201d is not a wire gauge; enter 40 to 1, 1/0 to 4/0, or an area in mm².");
    }

    private static double? ToStored(double value, string unit, QuantityKind kind)
    {
        var name = unit.ToUpperInvariant();
        return kind switch
        {
            QuantityKind.Mass => name switch
            {
                "KG" => value,
                "G" => value / 1000,
                "LB" or "LBS" => value * ExactFactors.KilogramsPerPound,
                "OZ" => value * ExactFactors.KilogramsPerPound / 16,
                _ => null,
            },
            QuantityKind.Length or QuantityKind.SmallLength => name switch
            {
                "M" => value,
                "CM" => value / 100,
                "MM" => value / 1000,
                "FT" => value * ExactFactors.MetersPerFoot,
                "IN" => value * ExactFactors.MetersPerInch,
                _ => null,
            },
            QuantityKind.Distance => name switch
            {
                "KM" => value,
                "MI" or "MILE" or "MILES" => value * ExactFactors.MetersPerMile / 1000,
                _ => null,
            },
            QuantityKind.ConductorArea => name is "MM²" or "MM2" ? value : null,
            QuantityKind.Temperature => name switch
            {
                "°C" or "C" => value,
                "°F" or "F" => (value - 32) / 1.8,
                _ => null,
            },
            // Upper and lower case differ in meaning here: mA and MA, mW and MW.
            QuantityKind.Voltage => unit switch { "V" or "v" => value, "mV" => value / 1000, _ => null },
            QuantityKind.Current => unit switch { "A" or "a" => value, "mA" => value / 1000, _ => null },
            QuantityKind.Power => unit switch { "W" or "w" => value, "mW" => value / 1000, "kW" => value * 1000, _ => null },
            QuantityKind.Energy => unit switch
            {
                "Wh" => value,
                "kWh" => value * 1000,
                "J" => value / ExactFactors.JoulesPerWattHour,
                _ => null,
            },
            _ => null,
        };
    }

    private static string Accepted(QuantityKind kind) => kind switch
    {
        QuantityKind.Mass => "kg, g, lb or oz",
        QuantityKind.Length or QuantityKind.SmallLength => "m, cm, mm, ft or in",
        QuantityKind.Distance => "km or mi",
        QuantityKind.ConductorArea => "mm² or AWG",
        QuantityKind.Temperature => "°C or °F",
        QuantityKind.Voltage => "V or mV",
        QuantityKind.Current => "A or mA",
        QuantityKind.Power => "W, mW or kW",
        QuantityKind.Energy => "Wh, kWh or J",
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };
}
