using System.Globalization;
using System.Reflection;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Storage.Audit;

/// <summary>Turns what a context is about to save into lines of the trail.</summary>
internal static class AuditRecorder
{
    public static List<AuditEntry> LinesFor(ChangeTracker tracker, Actor actor, string reason, DateTimeOffset at)
    {
        var lines = new List<AuditEntry>();
        foreach (var entry in tracker.Entries<IAudited>())
        {
            var changes = ChangesIn(entry).ToList();
            var action = ActionOf(entry, changes);
            if (action is null || (entry.State == EntityState.Modified && changes.Count == 0))
            {
                continue;
            }

            lines.Add(new AuditEntry(
                at,
                actor.Id,
                actor.Name,
                actor.Via.ToString(),
                action,
                entry.Metadata.ClrType.Name,
                (Guid)entry.Property("Id").CurrentValue!, // every audited entity has a Guid key named Id; a test holds it
                Shorten(entry.Entity.AuditName),
                entry.Entity.AuditJobId,
                JsonSerializer.Serialize(changes),
                reason));
        }

        return lines;
    }

    private static string? ActionOf(EntityEntry<IAudited> entry, List<AuditChange> changes) => entry.State switch
    {
        EntityState.Added => "Added",
        EntityState.Deleted => "Deleted",
        EntityState.Modified => changes.FirstOrDefault(change => change.Field == nameof(IRemovable.RemovedAt)) switch
        {
            { To: null } => "BroughtBack",
            { From: null } => "Removed",
            _ => "Changed",
        },
        _ => null,
    };

    private static IEnumerable<AuditChange> ChangesIn(EntityEntry entry)
    {
        foreach (var property in entry.Properties)
        {
            if (property.Metadata.IsPrimaryKey()
                || property.Metadata.Name == nameof(IVersioned.Version)
                || property.Metadata.PropertyInfo?.GetCustomAttribute<NotAuditedAttribute>() is not null)
            {
                continue;
            }

            var from = entry.State == EntityState.Added ? null : Text(property.OriginalValue);
            var to = entry.State == EntityState.Deleted ? null : Text(property.CurrentValue);
            if (entry.State == EntityState.Modified ? property.IsModified && from != to : !string.IsNullOrEmpty(from ?? to))
            {
                yield return new AuditChange(property.Metadata.Name, from, to);
            }
        }
    }

    private static string? Text(object? value) => value switch
    {
        null => null,
        string text => text,
        DateTimeOffset instant => instant.UtcDateTime.ToString("O", CultureInfo.InvariantCulture),
        Enum choice => choice.ToString(),
        IFormattable formattable => formattable.ToString(null, CultureInfo.InvariantCulture),
        bool flag => flag ? "true" : "false",
        _ => JsonSerializer.Serialize(value, value.GetType(), StoredJson.Options),
    };

    private static string Shorten(string text) => text.Length <= 300 ? text : text[..299] + "…";
}
