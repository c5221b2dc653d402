using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace ShopFloor.Shop.Storage;

/// <summary>Values kept whole in one column as JSON: lists and forms that are read and written together.</summary>
public static class StoredJson
{
    public static JsonSerializerOptions Options { get; } = new(JsonSerializerDefaults.Web)
    {
        Converters = { new JsonStringEnumConverter() },
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals,
        // Only ever put into columns and files, never into a page, so names stay readable.
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    public static PropertyBuilder<TValue> HasJson<TValue>(this PropertyBuilder<TValue> property)
    {
        property.HasConversion(
            value => JsonSerializer.Serialize(value, Options),
            text => JsonSerializer.Deserialize<TValue>(text, Options)!, // the column is required and written by the line above
            new ValueComparer<TValue>(
                (left, right) => JsonSerializer.Serialize(left, Options) == JsonSerializer.Serialize(right, Options),
                value => JsonSerializer.Serialize(value, Options).GetHashCode(StringComparison.Ordinal),
                value => JsonSerializer.Deserialize<TValue>(JsonSerializer.Serialize(value, Options), Options)!)); // a copy of a value that exists
        return property;
    }
}
