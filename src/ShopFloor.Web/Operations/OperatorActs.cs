using System.Globalization;
using Microsoft.Data.Sqlite;
using ShopFloor.Shop;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Backup;

namespace ShopFloor.Web.Operations;

/// <summary>What whoever runs the computer asks of the program instead of serving: backup, restore, verify.</summary>
public static class OperatorActs
{
    private const int Done = 0;
    private const int Refused = 1;
    private const int Misused = 2;

    public static async Task<int> RunAsync(StartOptions start, TextWriter answer, TextWriter complaint, CancellationToken cancellationToken)
    {
        var folder = new ShopFolder(start.DataFolder);
        try
        {
            return start.Verb switch
            {
                StartVerb.Backup => await BackUpAsync(start, folder, answer, cancellationToken),
                StartVerb.Restore => await RestoreAsync(start, folder, answer, cancellationToken),
                StartVerb.Verify => await VerifyAsync(folder, answer, complaint, cancellationToken),
                _ => throw new ArgumentException($"{start.Verb} is not an act of the operator."),
            };
        }
        catch (ArgumentException misuse)
        {
            await complaint.WriteLineAsync(misuse.Message);
            return Misused;
        }
        catch (Exception refusal) when (refusal is InvalidDataException or InvalidOperationException or IOException or UnauthorizedAccessException or SqliteException)
        {
            await complaint.WriteLineAsync(refusal.Message);
            return Refused;
        }
    }

    private static async Task<int> BackUpAsync(StartOptions start, ShopFolder folder, TextWriter answer, CancellationToken cancellationToken)
    {
        var to = start.Value("--to") ?? folder.Backups;
        var keep = start.Value("--keep") is not { } text ? (int?)null
            : int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number >= 1 ? number
            : throw new ArgumentException($"--keep is '{text}'; accepted is a whole number from 1.");
        if (!File.Exists(folder.Database))
        {
            throw new InvalidOperationException($"There is no shop in '{folder.Root}'. Name its folder with --data.");
        }

        var made = await new ShopBackup(folder, TimeProvider.System).MakeAsync(to, cancellationToken);
        await answer.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{made.FullName} ({made.Length} bytes), read back and found whole."));
        if (keep is { } newest)
        {
            await answer.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"{ShopBackup.Prune(to, newest)} older archives removed."));
        }

        return Done;
    }

    private static async Task<int> RestoreAsync(StartOptions start, ShopFolder folder, TextWriter answer, CancellationToken cancellationToken)
    {
        var from = start.Value("--from") ?? throw new ArgumentException("Name the archive with --from and the new folder with --data.");
        if (start.Value("--data") is null)
        {
            throw new ArgumentException("Name the folder to restore into with --data.");
        }

        var manifest = await ShopRestore.RunAsync(from, folder, cancellationToken);
        await answer.WriteLineAsync(string.Create(
            CultureInfo.InvariantCulture,
            $"The shop of {manifest.MadeAt:yyyy-MM-dd HH:mm} UTC is in '{folder.Root}': {manifest.Files.Count} files, every hash as in the manifest."));
        await answer.WriteLineAsync(File.Exists(folder.PinPepper)
            ? "The keys of the installation are there."
            : "Keys are not part of a backup: put the old 'keys' folder back, or everybody signs in again and PINs are set anew.");
        return Done;
    }

    private static async Task<int> VerifyAsync(ShopFolder folder, TextWriter answer, TextWriter complaint, CancellationToken cancellationToken)
    {
        var services = new ServiceCollection();
        services.AddShop(folder);
        await using var provider = services.BuildServiceProvider();
        var report = await provider.GetRequiredService<ShopVerification>().RunAsync(cancellationToken);
        foreach (var problem in report.Problems)
        {
            await complaint.WriteLineAsync(problem);
        }

        await answer.WriteLineAsync(string.Create(
            CultureInfo.InvariantCulture,
            $"{report.AuditLines} lines of the audit trail followed, {report.Photos} photos read back, {report.Problems.Count} problems."));
        return report.IsSound ? Done : Refused;
    }
}
