using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Electrical.Commissioning;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Levels;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>The voltages of the gain sheet as values to measure, and what the measured ones say.</summary>
internal static class LevelFindings
{
    /// <summary>Begins the id of a point that belongs to an amplifier output.</summary>
    public const string Prefix = "gain:";

    /// <summary>Begins the codes of findings about levels.</summary>
    public const string CodePrefix = "level-";

    // A cheap meter is right at the mains and little above it. Common practice, no source.
    private const double PlainMeterHertz = 1_000;

    /// <summary>One row for each channel whose target is known, with everything measured for it.</summary>
    public static async Task<IReadOnlyList<MeasuredRow>> RowsAsync(ShopDbContext db, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        var view = await SignalPaths.ViewAsync(db, jobId, text, cancellationToken);
        if (view.Result is not { } result || GainPoints.Of(result.Channels, view.GainToleranceDecibels, text) is not { Count: > 0 } points)
        {
            return [];
        }

        var entries = (await db.MeasuredValues.AsNoTracking()
                .Where(value => value.JobId == jobId && value.PointId.StartsWith(Prefix))
                .OrderByDescending(value => value.At).ThenByDescending(value => value.Id)
                .ToListAsync(cancellationToken))
            .ToLookup(value => value.PointId, MeasuredEntry.Of);
        var drivers = view.Channels.ToDictionary(row => row.Levels.Channel.Load.Id, row => row.Drivers);
        return [.. points.Select(point => new MeasuredRow(PointOf(point, drivers.GetValueOrDefault(point.ChannelId, ""), text), [.. entries[Prefix + point.ChannelId]]) { Gain = point })];
    }

    /// <summary>A level that is merely off warns; one that clips the amplifier or overloads a loudspeaker stops.</summary>
    public static IEnumerable<Finding> Find(IReadOnlyList<MeasuredRow> rows)
    {
        foreach (var row in rows)
        {
            if (row is not { Gain: { } gain, Current: { } current } || gain.Judge(current.Value) is var verdict && verdict == GainVerdict.Within)
            {
                continue;
            }

            var away = gain.Decibels(current.Value) is { } decibels ? $", {Number(Math.Abs(decibels))} dB {(decibels < 0 ? "below" : "above")} the sheet" : "";
            var measured = $"Measured {Volts(current.Value)}{away}: {MeasuredFindings.Accepted(row.Point)} is accepted.";
            yield return verdict switch
            {
                GainVerdict.Overpowers => Of("level-overpowers", Severity.Stop, $"{measured} Full level drives more into the loudspeaker than it bears ({Volts(gain.DriverVolts!.Value)}).", "Turn the gain down with the tone of the sheet and measure again, before any music."), // judged by it
                GainVerdict.Clips => Of("level-clips", Severity.Stop, $"{measured} The amplifier has {Volts(gain.ClipVolts!.Value)} into this load and clips before the source is at its loudest.", "Turn the gain down with the tone of the sheet and measure again."), // judged by it
                GainVerdict.TooHigh => Of("level-outside", Severity.Warn, measured, "Turn the gain down, or set the power wanted on this channel."),
                _ => Of("level-outside", Severity.Warn, measured, "Turn the gain up; where the control ends, look at what arrives at the input."),
            };

            Finding Of(string code, Severity severity, string what, string remedy) => new(code, severity, row.Point.Id, row.Point.Name, what, remedy, "as measured, against the gain sheet");
        }
    }

    /// <summary>One line for all that nobody measured; nothing for a job without a stage of tuning.</summary>
    public static IEnumerable<Finding> Missing(IReadOnlyList<MeasuredRow> rows, bool isTuned)
    {
        var open = rows.Where(row => row.Current is null).Select(row => row.Gain!.ChannelName).ToList(); // rows of levels have one
        if (isTuned && open.Count > 0)
        {
            yield return new Finding(
                "levels-missing", Severity.Warn, "levels", "Levels", string.Create(CultureInfo.InvariantCulture, $"{open.Count} of {rows.Count} were not measured: {string.Join(", ", open)}."),
                "Measure them in the stage of tuning; the client's document says what was set.", Unsourced.CommonPractice);
        }
    }

    private static CommissioningPoint PointOf(GainPoint point, string drivers, UnitText text)
    {
        var meter = point.Step.ToneHertz > PlainMeterHertz ? $"meter that reads true rms at {text.With(point.Step.ToneHertz / 1000, "kHz")}" : "true-rms meter";
        return new CommissioningPoint(
            Prefix + point.ChannelId,
            CommissioningKind.ChannelLevel,
            drivers.Length > 0 ? $"{point.ChannelName}: {drivers}" : point.ChannelName,
            "V",
            $"Loudspeakers off; tone of {text.With(point.Step.ToneHertz, "Hz")} at {text.With(point.Step.ToneDecibelsFullScale, "dB")} full scale; {meter} on AC {(point.IsBridged ? "between the two bridged terminals" : "on the output's terminals")}",
            point.Step.TargetVolts,
            false,
            point.LowestVolts,
            point.HighestVolts,
            point.Explanation);
    }

    private static string Volts(double volts) => Number(volts) + " V";

    private static string Number(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}
