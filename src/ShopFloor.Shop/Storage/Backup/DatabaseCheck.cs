using Microsoft.Data.Sqlite;

namespace ShopFloor.Shop.Storage.Backup;

/// <summary>SQLite's own checks of a database file.</summary>
internal static class DatabaseCheck
{
    /// <exception cref="InvalidDataException">The database is damaged.</exception>
    public static void ThrowIfDamaged(SqliteConnection connection)
    {
        var found = Problems(connection);
        if (found.Count > 0)
        {
            throw new InvalidDataException($"The database is damaged: {string.Join("; ", found)}");
        }
    }

    public static List<string> Problems(SqliteConnection connection)
    {
        var problems = new List<string>();
        try
        {
            foreach (var line in Rows(connection, "PRAGMA integrity_check(20)", 0).Where(line => line != "ok"))
            {
                problems.Add(line);
            }

            foreach (var table in Rows(connection, "PRAGMA foreign_key_check", 0))
            {
                problems.Add($"a row of {table} points to something that is not there");
            }
        }
        catch (SqliteException notReadable)
        {
            problems.Add(notReadable.Message);
        }

        return problems;
    }

    public static string LastMigration(string path)
    {
        using var connection = new SqliteConnection($"Data Source={path};Mode=ReadOnly;Pooling=False");
        connection.Open();
        return Rows(connection, "SELECT \"MigrationId\" FROM \"__EFMigrationsHistory\" ORDER BY \"MigrationId\" DESC LIMIT 1", 0).FirstOrDefault() ?? "";
    }

    private static List<string> Rows(SqliteConnection connection, string text, int column)
    {
        using var command = connection.CreateCommand();
#pragma warning disable CA2100 // fixed texts of this file
        command.CommandText = text;
#pragma warning restore CA2100
        using var reader = command.ExecuteReader();
        var rows = new List<string>();
        while (reader.Read())
        {
            rows.Add(reader.IsDBNull(column) ? "" : reader.GetString(column));
        }

        return rows;
    }
}
