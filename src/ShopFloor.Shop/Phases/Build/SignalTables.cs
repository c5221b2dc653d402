using System.Globalization;
using CsvHelper;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Presets;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>The signal path of a job with its measured levels, for other programs.</summary>
public sealed class SignalTables(ShopStore store)
{
    /// <returns>Null when there is no such job.</returns>
    public Task<SignalTable?> GetAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
            {
                var job = await db.Jobs.IgnoreQueryFilters().AsNoTracking().SingleOrDefaultAsync(found => found.Id == jobId, cancellationToken);
                if (job is null)
                {
                    return null;
                }

                var vehicle = await db.Vehicles.AsNoTracking().SingleAsync(found => found.Id == job.VehicleId, cancellationToken);
                var view = await SignalPaths.ViewAsync(db, jobId, UnitText.Invariant, cancellationToken);
                var measured = (await LevelFindings.RowsAsync(db, jobId, UnitText.Invariant, cancellationToken)).ToDictionary(row => row.Gain!.ChannelId); // rows of levels have one
                return new SignalTable(
                    job.Reference,
                    job.Title,
                    vehicle.Title,
                    view.GainToleranceDecibels,
                    view is { Input: { } input, Result: { } result } ? SourcePresets.Of(input, result.Channels) : [],
                    view.Connections,
                    [.. view.Channels.Select(row => RowOf(row, measured.GetValueOrDefault(row.Levels.Channel.Load.Id)))],
                    view.Unused,
                    [.. view.Findings.Where(finding => finding.Severity == Severity.Stop).Select(finding => $"{finding.Subject}: {finding.Text}")]);
            },
            cancellationToken);
    }

    /// <summary>The connection list: a heading, one row a cable, units in the headings, invariant numbers.</summary>
    public static byte[] ConnectionsCsv(SignalTable table)
    {
        ArgumentNullException.ThrowIfNull(table);
        return Csv(
            ["cable", "from", "from_connector", "to", "to_connector", "carries", "kind", "length_m", "length_measured"],
            table.Connections.Select(row => new[]
            {
                row.Mark, row.From, row.FromConnector, row.To, row.ToConnector, row.Carries, row.Cable, Text(row.LengthMeters, "0.00"), row.LengthMeasured ? "yes" : "no",
            }));
    }

    /// <summary>The gain sheet with what was measured: a heading, one row a channel.</summary>
    public static byte[] GainsCsv(SignalTable table)
    {
        ArgumentNullException.ThrowIfNull(table);
        return Csv(
            ["channel", "loudspeakers", "coils", "fed_by", "load_ohm", "amplifier_w", "loudspeakers_w", "set_w", "tone_hz", "tone_dbfs", "target_v", "lowest_v", "highest_v", "control_v", "measured_v", "measured_db", "result", "by"],
            table.Channels.Select(row => new[]
            {
                row.Channel, row.Loudspeakers, row.Coils, row.FedBy, Text(row.LoadOhms, "0.##"), Text(row.AmplifierWatts, "0.#"), Text(row.LoudspeakerWatts, "0.#"), Text(row.SetWatts, "0.#"), Text(row.ToneHertz, "0"),
                Text(row.ToneDecibelsFullScale, "0.#"), Text(row.TargetVolts, "0.00"), Text(row.LowestVolts, "0.00"), Text(row.HighestVolts, "0.00"), Text(row.ControlVolts, "0.00"), Text(row.MeasuredVolts, "0.00"),
                Text(row.MeasuredDecibels, "0.0"), row.Verdict.ToString(), row.MeasuredBy,
            }));
    }

    private static GainTableRow RowOf(PathChannel row, MeasuredRow? measured)
    {
        var (levels, channel) = (row.Levels, row.Levels.Channel);
        return new GainTableRow(
            channel.Name, row.Drivers, row.Coils, row.FedBy, channel.NominalOhms, channel.AvailableWatts, channel.DriverLimitWatts, channel.TargetWatts,
            levels.Step?.ToneHertz, levels.Step?.ToneDecibelsFullScale, levels.Step?.TargetVolts, measured?.Point.Lowest, measured?.Point.Highest, levels.SensitivityVolts, levels.SignalToNoiseDecibels,
            measured?.Current?.Value, measured is { Gain: { } gain, Current: { } current } ? gain.Decibels(current.Value) : null, measured?.Verdict ?? MeasuredVerdict.Missing,
            measured?.Current?.By ?? "", measured?.Current?.At);
    }

    // Names people typed must not begin a formula; a number may begin with its sign.
    private static string Guarded(string field) =>
        field.Length > 0 && CatalogueExport.FormulaStarts.Contains(field[0], StringComparison.Ordinal) && !double.TryParse(field, NumberStyles.Float, CultureInfo.InvariantCulture, out _)
            ? CatalogueExport.FormulaGuard + field
            : field;

    private static string Text(double? value, string format) => value?.ToString(format, CultureInfo.InvariantCulture) ?? "";

    private static byte[] Csv(string[] heading, IEnumerable<string[]> rows)
    {
        using var memory = new MemoryStream();
        using (var csv = CsvWriter.Create(
            memory,
            new CsvWriterOptions { WriteByteOrderMark = true },
            leaveOpen: true))
        {
            foreach (var row in rows.Prepend(heading))
            {
                foreach (var field in row)
                {
                    csv.WriteField(Guarded(field));
                }

                csv.EndRecord();
            }
        }

        return memory.ToArray();
    }
}
