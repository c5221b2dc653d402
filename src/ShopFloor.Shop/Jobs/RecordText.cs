using System.ComponentModel.DataAnnotations;
using System.Globalization;
using System.Reflection;
using System.Text.Json;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Jobs;

/// <summary>Lines of the trail as people read them. Money is left out for those who may not see it.</summary>
internal static class RecordText
{
    private const int LongestValue = 160;
    private const int MostFieldsOfANewThing = 20;

    /// <summary>Fields that carry money, wherever they stand, and what it takes to see them.</summary>
    private static readonly Dictionary<string, Permission> Guarded = new(StringComparer.OrdinalIgnoreCase)
    {
        ["UnitCost"] = Permission.SeeCosts,
        ["CostPerHour"] = Permission.SeeCosts,
        ["UnitPrice"] = Permission.SeePrices,
        ["PricePerHour"] = Permission.SeePrices,
        ["NetTotal"] = Permission.SeePrices,
        ["TaxTotal"] = Permission.SeePrices,
        ["GrossTotal"] = Permission.SeePrices,
        ["TaxPercent"] = Permission.SeePrices,
        ["Lines"] = Permission.SeePrices,
        ["BudgetFrom"] = Permission.SeePrices,
        ["BudgetTo"] = Permission.SeePrices,
    };

    /// <summary>Things whose written texts may name prices.</summary>
    private static readonly HashSet<string> PricedSubjects = ["EstimateVersion"];

    /// <summary>Fields that say nothing to a reader: keys, and what the headline says already.</summary>
    private static readonly HashSet<string> Silent = ["RemovedAt", "Order", "SearchText", "SignedContentHash", "Hash", "PdfHash", "IssuedBy", "IssuedAt", "CreatedAt", "Sha256", "CreatedBy", "OpenedAt", "PlanRunId", "MeasuredBefore", "Changes", "FreeAir", "Again"];

    private static readonly Dictionary<string, string> Subjects = new()
    {
        ["Job"] = "the job card of",
        ["JobPart"] = "the part",
        ["CataloguePart"] = "the catalogue part",
        ["Client"] = "the client",
        ["Vehicle"] = "the vehicle",
        ["StaffMember"] = "the person",
        ["JobStage"] = "the stage",
        ["JobStep"] = "the step",
        ["FactoryFunction"] = "the factory function",
        ["SettingRow"] = "the setting",
        ["StageTemplate"] = "the stage template",
        ["Blocker"] = "the report",
        ["Tablet"] = "the tablet",
        ["ApiToken"] = "the API token",
    };

    /// <summary>Names of fields as the forms show them, where all forms agree on one.</summary>
    private static readonly Dictionary<string, string> Labels = (
        from type in typeof(RecordText).Assembly.GetTypes()
        from property in type.GetProperties(BindingFlags.Public | BindingFlags.Instance | BindingFlags.DeclaredOnly)
        let label = property.GetCustomAttribute<DisplayAttribute>()?.GetName() ?? property.GetCustomAttribute<PartFieldAttribute>()?.Label
        where label is not null
        group label by property.Name into named
        where named.Distinct().Count() == 1
        select (named.Key, Label: named.First())).ToDictionary(pair => pair.Key, pair => pair.Label);

    /// <summary>Fields that are numbers everywhere; a phone number or a part number is text and stays as it was typed.</summary>
    private static readonly HashSet<string> Numbers = (
        from type in typeof(RecordText).Assembly.GetTypes()
        where typeof(IAudited).IsAssignableFrom(type) || typeof(PartData).IsAssignableFrom(type) || type.Name.EndsWith("Form", StringComparison.Ordinal)
        from property in type.GetProperties(BindingFlags.Public | BindingFlags.Instance)
        let kind = Nullable.GetUnderlyingType(property.PropertyType) ?? property.PropertyType
        group kind == typeof(decimal) || kind == typeof(double) || kind == typeof(int) by property.Name into named
        where named.All(isNumber => isNumber)
        select named.Key).ToHashSet();

    public static string Via(string via) => via switch
    {
        nameof(ActorVia.Desk) => "at the desk",
        nameof(ActorVia.Tablet) => "on a tablet",
        nameof(ActorVia.Api) => "through the API",
        nameof(ActorVia.ClientLink) => "through the client link",
        nameof(ActorVia.Shop) => "by itself",
        _ => "",
    };

    public static string Headline(AuditEntry entry)
    {
        var subject = Subjects.TryGetValue(entry.SubjectType, out var words) ? $"{words} {Quoted(entry)}" : Quoted(entry);
        return entry.Action switch
        {
            "Added" => $"added {subject}",
            "Changed" => $"changed {subject}",
            "Removed" => $"took away {subject}",
            "BroughtBack" => $"brought back {subject}",
            "Deleted" => $"deleted {subject}",
            "SignedOff" => $"signed off: {entry.SubjectName}",
            _ => $"{PartField.Words(entry.Action).ToLower(CultureInfo.InvariantCulture)} {subject}",
        };
    }

    public static IReadOnlyList<string> Changes(AuditEntry entry, Func<Permission, bool> may, TimeZoneInfo zone)
    {
        var changes = JsonSerializer.Deserialize<List<AuditChange>>(entry.ChangesJson) ?? [];
        var texts = changes
            .SelectMany(Unfolded)
            .Where(change => !Silent.Contains(change.Field) && !IsKey(change.Field) && IsShown(change.Field, may))
            .Select(change => Text(change, zone))
            .OfType<string>()
            .ToList();
        return entry.Action == "Added" ? [.. texts.Take(MostFieldsOfANewThing)] : texts;
    }

    public static string Reason(AuditEntry entry, Func<Permission, bool> may) =>
        PricedSubjects.Contains(entry.SubjectType) && !may(Permission.SeePrices) ? "" : entry.Reason;

    private static bool IsShown(string field, Func<Permission, bool> may) => !Guarded.TryGetValue(field, out var permission) || may(permission);

    private static bool IsKey(string field) => field.EndsWith("Id", StringComparison.Ordinal) && field != "TimeZoneId";

    private static string Quoted(AuditEntry entry) =>
        entry.SubjectType is "Job" or "EstimateVersion" or "CheckIn" or "HandoverNotes" or "HandoverRelease" or "ShopSettings" or "ElectricalSettings" or "DesignRelease"
            or "RunChoice" or "JobDesign" or "JobFile" or "BudgetSettings" or "SignalLink" or "ClientLink" or "Photo" or "ConditionMark" or "TimeEntry"
            ? entry.SubjectName
            : $"'{entry.SubjectName}'";

    /// <summary>A form kept whole in one column is told field by field.</summary>
    private static IEnumerable<AuditChange> Unfolded(AuditChange change)
    {
        if (!IsObject(change.From) && !IsObject(change.To))
        {
            return [change];
        }

        var (from, to) = (Fields(change.From), Fields(change.To));
        return from.Keys.Union(to.Keys)
            .Where(field => field != "kind" && from.GetValueOrDefault(field) != to.GetValueOrDefault(field))
            .Select(field => new AuditChange(char.ToUpperInvariant(field[0]) + field[1..], from.GetValueOrDefault(field), to.GetValueOrDefault(field)));
    }

    private static bool IsObject(string? value) => value is ['{', ..] && Parsed(value) is { ValueKind: JsonValueKind.Object };

    private static Dictionary<string, string> Fields(string? json)
    {
        var fields = new Dictionary<string, string>();
        if (IsObject(json) && Parsed(json!) is { } parsed) // IsObject is false for null
        {
            foreach (var property in parsed.EnumerateObject().Where(property => property.Name.Length > 0))
            {
                fields[property.Name] = property.Value.ValueKind == JsonValueKind.String ? property.Value.GetString() ?? "" : property.Value.GetRawText();
            }
        }

        return fields;
    }

    private static JsonElement? Parsed(string json)
    {
        try
        {
            using var document = JsonDocument.Parse(json);
            return document.RootElement.Clone();
        }
        catch (JsonException)
        {
            // Text that only begins like JSON is shown as the text it is.
            return null;
        }
    }

    private static string? Text(AuditChange change, TimeZoneInfo zone)
    {
        var label = Labels.TryGetValue(change.Field, out var known) ? known : PartField.Words(change.Field);
        var (from, to) = (Value(change.Field, change.From, zone), Value(change.Field, change.To, zone));
        return (from.Length > 0, to.Length > 0) switch
        {
            (false, false) => null,
            (false, true) => $"{label}: {to}",
            (true, false) => $"{label}: {from} → empty",
            _ => $"{label}: {from} → {to}",
        };
    }

    private static string Value(string field, string? stored, TimeZoneInfo zone)
    {
        var text = stored switch
        {
            null => "",
            "true" => "yes",
            "false" => "no",
            ['[', ..] when Parsed(stored) is { ValueKind: JsonValueKind.Array } list => string.Join("; ", list.EnumerateArray().Select(Item)),
            // Figures with the words of who measured them: the figures are told as the data they are.
            ['{', ..] when field == nameof(LoudspeakerData.Measured) && Parsed(stored) is { ValueKind: JsonValueKind.Object } measured => string.Join("; ", measured.EnumerateObject()
                .Select(figure => figure.Value.ValueKind == JsonValueKind.Object && figure.Value.TryGetProperty("words", out var words) ? words.GetString() : null).OfType<string>().Distinct()),
            _ when DateTimeOffset.TryParseExact(stored, "O", CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var instant) =>
                TimeZoneInfo.ConvertTime(instant, zone).ToString("d MMM yyyy HH:mm", CultureInfo.CurrentCulture),
            _ when DateOnly.TryParseExact(stored, "MM/dd/yyyy", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) => day.ToString("d MMM yyyy", CultureInfo.CurrentCulture),
            _ when Numbers.Contains(field) && decimal.TryParse(stored, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) =>
                number.ToString("0.######", CultureInfo.CurrentCulture),
            _ => stored,
        };
        return text.Length <= LongestValue ? text : text[..(LongestValue - 1)] + "…";
    }

    private static string Item(JsonElement item) => item.ValueKind switch
    {
        JsonValueKind.Object => string.Join(" ", item.EnumerateObject()
            .Where(property => property.Value.ValueKind is JsonValueKind.String or JsonValueKind.Number && !IsKey(char.ToUpperInvariant(property.Name[0]) + property.Name[1..]))
            .Select(property => property.Value.ToString())
            .Where(text => text.Length > 0)),
        _ => item.ToString(),
    };
}
