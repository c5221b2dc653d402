using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Web.Components;
using ShopFloor.Web.Layout;

namespace ShopFloor.Web.Catalogue;

/// <summary>How the technical data of parts are shown and read. They are stored in the unit their description names.</summary>
public static class FieldScales
{
    private static readonly Dictionary<string, UnitScale> UsScales = new()
    {
        ["mm"] = new("in", "inches", 25.4, 3),
        ["m"] = new("ft", "feet", ExactFactors.MetersPerFoot, 2),
        ["W/m"] = new("W/ft", "watts per foot", 1 / ExactFactors.MetersPerFoot, 2),
        ["kg/m²"] = new("lb/ft²", "pounds per square foot", ExactFactors.KilogramsPerPound / (ExactFactors.MetersPerFoot * ExactFactors.MetersPerFoot), 3),
        ["kg/m³"] = new("lb/ft³", "pounds per cubic foot", ExactFactors.KilogramsPerPound / (ExactFactors.MetersPerFoot * ExactFactors.MetersPerFoot * ExactFactors.MetersPerFoot), 2),
        ["°C"] = Scales.Fahrenheit,
        ["l"] = Scales.CubicFeetInLitres,
        ["cm²"] = new("in²", "square inches", 2.54 * 2.54, 2),
    };

    public static UnitScale Metric(PartField field) => new(field.Unit, field.Unit, 1, field.ValueType == typeof(int) ? 0 : 3);

    /// <returns>Null when both systems use the same unit.</returns>
    public static UnitScale? Us(PartField field) => UsScales.GetValueOrDefault(field.Unit);

    /// <summary>The first few things known of a part, each with its name; long texts are left to the form.</summary>
    public static IEnumerable<string> Summary(PartData data, bool us) => PartKinds.Of(data.Kind).Fields
        .Where(field => !field.IsChoice)
        .Select(field => (field.Label, Text: Text(field, data, us)))
        .Where(pair => pair.Text.Length is > 0 and <= 40)
        .Take(3)
        .Select(pair => $"{pair.Label} {pair.Text}");

    /// <summary>A filled-in field in the reader's units, or an empty string.</summary>
    public static string Text(PartField field, PartData data, bool us)
    {
        if (!field.IsNumber || field.Get(data) is not { } value)
        {
            return field.Show(data);
        }

        var number = Convert.ToDouble(value, System.Globalization.CultureInfo.InvariantCulture);
        var scale = us ? Us(field) ?? Metric(field) : Metric(field);
        return scale.Text(number, System.Globalization.CultureInfo.CurrentCulture).Trim('\u00A0');
    }
}
