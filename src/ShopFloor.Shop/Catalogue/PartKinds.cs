using System.Globalization;
using System.Reflection;
using System.Text.RegularExpressions;
using ShopFloor.Shop.Common;

namespace ShopFloor.Shop.Catalogue;

/// <summary>Everything the program knows about a part kind, read from its data class.</summary>
public sealed record PartKindDescription(
    PartKind Kind,
    string Name,
    string Plural,
    PartUnit Unit,
    Type DataType,
    IReadOnlyList<PartField> Fields)
{
    public PartData NewData() => (PartData)Activator.CreateInstance(DataType)!; // every data class has a plain constructor; a test holds it
}

/// <summary>The one list of part kinds. A new kind is one enum value, one data class and one row here.</summary>
public static class PartKinds
{
    public static IReadOnlyList<PartKindDescription> All { get; } =
    [
        Describe<AmplifierData>(PartKind.Amplifier, "Amplifier", "Amplifiers"),
        Describe<LoudspeakerData>(PartKind.Loudspeaker, "Loudspeaker", "Loudspeakers"),
        Describe<ProcessorData>(PartKind.Processor, "Processor", "Processors"),
        Describe<SourceData>(PartKind.Source, "Source", "Sources"),
        Describe<CableData>(PartKind.Cable, "Cable", "Cables", PartUnit.Meter),
        Describe<FuseData>(PartKind.Fuse, "Fuse", "Fuses"),
        Describe<DistributionData>(PartKind.Distribution, "Distribution", "Distribution"),
        Describe<LightingData>(PartKind.Lighting, "Lighting", "Lighting"),
        Describe<BatteryData>(PartKind.Battery, "Battery", "Batteries"),
        Describe<CapacitorData>(PartKind.Capacitor, "Capacitor", "Capacitors"),
        Describe<TreatmentData>(PartKind.Treatment, "Treatment", "Treatment", PartUnit.SquareMeter),
        Describe<MaterialData>(PartKind.Material, "Material", "Materials", PartUnit.SquareMeter),
        Describe<AccessoryData>(PartKind.Accessory, "Accessory", "Accessories"),
    ];

    private static readonly Dictionary<PartKind, PartKindDescription> ByKind = All.ToDictionary(description => description.Kind);

    private static readonly Dictionary<Type, PartKind> ByData = All.ToDictionary(description => description.DataType, description => description.Kind);

    public static PartKindDescription Of(PartKind kind) => ByKind[kind];

    public static PartKind KindOf(PartData data) => ByData[data.GetType()];

    private static PartKindDescription Describe<TData>(PartKind kind, string name, string plural, PartUnit unit = PartUnit.Piece)
        where TData : PartData, new() => new(
            kind,
            name,
            plural,
            unit,
            typeof(TData),
            [
                .. from property in typeof(TData).GetProperties(BindingFlags.Public | BindingFlags.Instance)
                   let description = property.GetCustomAttribute<PartFieldAttribute>()
                   where description is not null
                   select new PartField(property, description),
            ]);
}

/// <summary>One technical datum of a part kind: how it is called, shown, typed and checked.</summary>
public sealed partial class PartField(PropertyInfo property, PartFieldAttribute description)
{
    public string Name => property.Name;

    public string Label => description.Label;

    public string Unit => description.Unit;

    public string Help => description.Help;

    public bool IsFine => description.Fine;

    private string Tail => Unit.Length > 0 ? " " + Unit : "";

    public double Min => description.Min;

    public double Max => description.Max;

    /// <summary>Column name in CSV files and the API, for example <c>watts_at_four_ohms</c>.</summary>
    public string Key { get; } = WordStart().Replace(property.Name, match => "_" + match.Value).TrimStart('_').ToLowerInvariant();

    public Type ValueType { get; } = Nullable.GetUnderlyingType(property.PropertyType) ?? property.PropertyType;

    public bool IsNumber => ValueType == typeof(double) || ValueType == typeof(int);

    public bool IsChoice => ValueType.IsEnum;

    public IReadOnlyList<string> Choices => IsChoice ? Enum.GetNames(ValueType) : [];

    public object? Get(PartData data) => property.GetValue(data);

    public void Set(PartData data, object? value) => property.SetValue(data, value);

    public void Copy(PartData from, PartData to) => property.SetValue(to, property.GetValue(from));

    /// <summary>The value with its unit for people, or an empty string when it is not known.</summary>
    public string Show(PartData data) => Get(data) switch
    {
        null => "",
        Enum choice => Words(choice.ToString()),
        IFormattable number => Unit.Length > 0
            ? $"{number.ToString(null, CultureInfo.CurrentCulture)} {Unit}"
            : number.ToString(null, CultureInfo.CurrentCulture),
        var other => other.ToString() ?? "",
    };

    /// <summary>Reads a value as files carry it: invariant numbers, choice names, text.</summary>
    /// <returns>Null when it was read, else what is wrong with it.</returns>
    public string? Read(PartData data, string text)
    {
        text = text.Trim();
        if (text.Length == 0)
        {
            return null;
        }

        if (ValueType == typeof(string))
        {
            Set(data, text);
        }
        else if (IsChoice)
        {
            if (!Enum.TryParse(ValueType, text.Replace("_", "", StringComparison.Ordinal), ignoreCase: true, out var choice) || !Enum.IsDefined(ValueType, choice))
            {
                return $"'{text}' is not one of {string.Join(", ", Choices)}.";
            }

            Set(data, choice);
        }
        else if (ValueType == typeof(int))
        {
            if (!int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var whole))
            {
                return $"'{text}' is not a whole number.";
            }

            Set(data, whole);
        }
        else
        {
            if (!double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number))
            {
                return $"'{text}' is not a number; write it with a decimal point, without a unit.";
            }

            Set(data, number);
        }

        return ProblemIn(data)?.Message;
    }

    public Problem? ProblemIn(PartData data)
    {
        var value = Get(data);
        if (value is string text && text.Length > Limits.Line)
        {
            return new Problem(Name, $"{Label} has {text.Length} characters; at most {Limits.Line} are kept.");
        }

        if (value is not (double or int))
        {
            return null;
        }

        var number = Convert.ToDouble(value, CultureInfo.InvariantCulture);
        return double.IsFinite(number) && number >= Min && number <= Max
            ? null
            : new Problem(Name, string.Create(CultureInfo.CurrentCulture, $"{Label} is {number}{Tail}; accepted is {Min} to {Max}{Tail}."));
    }

    /// <summary>"BridgedFourOhms" as people read it: "Bridged four ohms".</summary>
    public static string Words(string name)
    {
        var words = WordStart().Replace(name, match => " " + match.Value).Trim().ToLowerInvariant();
        return words.Length <= 2 ? name : char.ToUpperInvariant(words[0]) + words[1..];
    }

    [GeneratedRegex("(?<=[a-z0-9])[A-Z]")]
    private static partial Regex WordStart();
}
