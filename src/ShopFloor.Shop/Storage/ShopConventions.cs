using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;
using ShopFloor.Shop.Common;

namespace ShopFloor.Shop.Storage;

/// <summary>How types are kept, said once for all entities.</summary>
internal static class ShopConventions
{
    public static void Apply(ModelConfigurationBuilder configuration)
    {
        configuration.Properties<DateTimeOffset>().HaveConversion<InstantConverter>();
        configuration.Properties<string>().HaveMaxLength(Limits.Note);
        configuration.Properties<decimal>().HavePrecision(18, 4);
        configuration.Properties<Enum>().HaveConversion<string>().HaveMaxLength(40);
    }

    public static void Finish(ModelBuilder builder)
    {
        foreach (var type in builder.Model.GetEntityTypes())
        {
            if (typeof(IVersioned).IsAssignableFrom(type.ClrType))
            {
                builder.Entity(type.ClrType).Property(nameof(IVersioned.Version)).IsConcurrencyToken();
            }
        }
    }

    /// <summary>Instants are kept as UTC text that sorts as time does; SQLite cannot order a DateTimeOffset.</summary>
    private sealed class InstantConverter() : ValueConverter<DateTimeOffset, DateTime>(
        instant => instant.UtcDateTime,
        stored => new DateTimeOffset(DateTime.SpecifyKind(stored, DateTimeKind.Utc)));
}
