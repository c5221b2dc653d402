using System.Collections.Concurrent;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Tuning.Measurements;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Tuning.Measurements;

/// <summary>Measurements of a job: taken in, listed, read and averaged.</summary>
public sealed class TuningMeasurements(ShopStore store, JobDesigns designs)
{
    // Readings are derived from bytes that never change, so they are kept; a whole job has some forty.
    private const int MostKept = 160;
    private readonly ConcurrentDictionary<string, (MeasurementReading? Reading, string? Problem)> _kept = new();

    /// <summary>Channels, measurements in the order they were taken, and those taken away.</summary>
    public Task<MeasurementList> ListAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
            {
                var channels = await TuningChannels.ListAsync(db, jobId, cancellationToken);
                var files = await db.JobFiles.IgnoreQueryFilters().Where(file => file.JobId == jobId).ToDictionaryAsync(file => file.Id, file => file.FileName, cancellationToken);
                var found = await JobDesigns.ListAsync<MeasurementForm>(db, jobId, cancellationToken);
                return new MeasurementList(channels, [.. found.Select(design => new MeasurementRow(design.Id, design.Version, design.Name, design.Form, channels.Find(channel => channel.Id == design.Form.ChannelId), files.GetValueOrDefault(design.Form.FileId, "")))]);
            },
            cancellationToken);
    }

    /// <summary>Takes in a measurement; one whose file cannot be read so is refused.</summary>
    /// <returns>Its id.</returns>
    public async Task<Outcome<Guid>> AddAsync(Actor actor, Guid jobId, MeasurementForm form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        var kept = form with { MeasuredBy = form.MeasuredBy.Length > 0 ? form.MeasuredBy : actor.Name, MeasuredAt = form.MeasuredAt == default ? store.Time.GetUtcNow() : form.MeasuredAt };
        var problems = kept.Problems();
        if (problems.Count > 0)
        {
            return problems;
        }

        var (_, problem, channel) = await store.ReadAsync(
            async db =>
            {
                var channel = (await TuningChannels.ListAsync(db, jobId, cancellationToken)).Find(found => found.Id == kept.ChannelId);
                var (reading, refused) = await ReadAsync(db, jobId, kept, cancellationToken);
                return (reading, refused, channel);
            },
            cancellationToken);
        return channel is null ? new Problem(nameof(form.ChannelId), "That channel is not among the job's; choose one of the list.")
            : problem is not null ? new Problem(nameof(form.FileId), problem)
            : await designs.AddAsync(actor, jobId, NameOf(channel, kept), kept, cancellationToken);
    }

    /// <summary>What a form with its file says, before it is kept; whether it may be kept is asked by <see cref="AddAsync"/>.</summary>
    public Task<(MeasurementReading? Reading, string? Problem)> TryAsync(Actor actor, Guid jobId, MeasurementForm form, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(db => ReadAsync(db, jobId, form, cancellationToken), cancellationToken);
    }

    /// <summary>Every channel as it was measured with a preset in the car, place by place; measurements that cannot be read are left out.</summary>
    /// <param name="preset">Name of the preset; empty for measurements without one.</param>
    public Task<List<ChannelResponse>> ResponsesAsync(Actor actor, Guid jobId, ListeningSeat seat, string preset, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(db => ResponsesAsync(db, jobId, seat, preset, cancellationToken), cancellationToken);
    }

    /// <summary>Inside a reading of the caller.</summary>
    internal async Task<List<ChannelResponse>> ResponsesAsync(ShopDbContext db, Guid jobId, ListeningSeat seat, string preset, CancellationToken cancellationToken)
    {
        var measured = (await JobDesigns.ListAsync<MeasurementForm>(db, jobId, cancellationToken)).Where(one => one.Form.Seat == seat && one.Form.Preset == preset).ToList();
        // The first look after a start reads everything: as many at a time as there are processors, so that files do not fill the memory.
        foreach (var together in measured.Chunk(Environment.ProcessorCount))
        {
            List<Task> begun = [];
            foreach (var one in together)
            {
                begun.Add(await BeginAsync(db, jobId, one.Form, cancellationToken));
            }

            await Task.WhenAll(begun);
        }

        List<ChannelResponse> found = [];
        foreach (var channel in await TuningChannels.ListAsync(db, jobId, cancellationToken))
        {
            List<PlaceResponse> places = [];
            foreach (var place in measured.Where(one => one.Form.ChannelId == channel.Id).GroupBy(one => one.Form.Place).OrderBy(group => group.Key))
            {
                List<(MeasurementForm Form, MeasurementReading Reading)> repeats = [];
                foreach (var one in place)
                {
                    if ((await ReadAsync(db, jobId, one.Form, cancellationToken)).Reading is { } reading)
                    {
                        repeats.Add((one.Form, reading));
                    }
                }

                if (repeats.Count > 0)
                {
                    places.Add(Averaged(place.Key, repeats));
                }
            }

            if (places.Count > 0)
            {
                var mean = PositionAverage.Of([.. places.Select(place => place.Response)]);
                found.Add(new ChannelResponse(channel, seat, preset, places, mean.Mean, mean.SpreadDecibels));
            }
        }

        return found;
    }

    internal async Task<(MeasurementReading? Reading, string? Problem)> ReadAsync(ShopDbContext db, Guid jobId, MeasurementForm form, CancellationToken cancellationToken) =>
        await await BeginAsync(db, jobId, form, cancellationToken);

    // The file is fetched now, as a reading of the database is one thing after another; the sound in it is worked out beside it.
    private async Task<Task<(MeasurementReading? Reading, string? Problem)>> BeginAsync(ShopDbContext db, Guid jobId, MeasurementForm form, CancellationToken cancellationToken)
    {
        // The file's bytes never change, so its id and the way it is read say all.
        var key = $"{jobId} {JobDesign.Write(form with { ChannelId = "", Seat = default, Place = default, Preset = "", MeasuredBy = "", MeasuredAt = default, Remarks = "" })}";
        if (_kept.TryGetValue(key, out var known))
        {
            return Task.FromResult(known);
        }

        if (await JobFiles.OpenAsync(db, form.FileId, cancellationToken) is not { } file || file.JobId != jobId)
        {
            return Refused("The file of this measurement is not on this job.");
        }

        var calibration = form.CalibrationFileId is { } id ? await JobFiles.OpenAsync(db, id, cancellationToken) : null;
        if (form.CalibrationFileId is not null && (calibration is null || calibration.JobId != jobId))
        {
            return Refused("The calibration of this measurement is not on this job.");
        }

        return Task.Run(
            () =>
            {
                var result = MeasurementReader.Read(form, file, calibration, UnitText.Invariant);
                if (_kept.Count >= MostKept)
                {
                    _kept.Clear();
                }

                return _kept[key] = result;
            },
            cancellationToken);

        static Task<(MeasurementReading? Reading, string? Problem)> Refused(string why) => Task.FromResult<(MeasurementReading?, string?)>((null, why));
    }

    internal static string NameOf(TuningChannel channel, MeasurementForm form) =>
        $"{channel.Name}, {MeasurementWords.Of(form.Seat)}, {MeasurementWords.Of(form.Place)}{(form.Preset.Length > 0 ? $", with {form.Preset}" : "")}";

    internal static PlaceResponse Averaged(MicrophonePlace place, List<(MeasurementForm Form, MeasurementReading Reading)> repeats)
    {
        // One table without phase must not take the phase of the others away.
        var timed = repeats.Where(one => one.Reading.Response.PhaseRadians is not null).ToList();
        var used = timed.Count > 0 ? timed : repeats;
        var mean = used.Count == 1 ? used[0].Reading.Response : PositionAverage.Of([.. used.Select(one => one.Reading.Response)], timed.Count > 0 ? AverageKind.Complex : AverageKind.Power).Mean;
        var clock = repeats.Min(one => one.Reading.Clock);
        var arrivals = repeats.Where(one => one.Reading.Clock == clock).Select(one => one.Reading.ArrivalSeconds).OfType<double>().ToList();
        var sure = repeats.MaxBy(one => one.Reading.IsInverted is null ? -1 : one.Reading.PolarityConfidence).Reading;
        return new PlaceResponse(place, mean, arrivals.Count > 0 ? arrivals.Average() : null, clock, sure.IsInverted, sure.PolarityConfidence, repeats.Count, repeats.Exists(one => one.Form.Relative));
    }
}

/// <param name="Channels">Channels of the signal path as it is now.</param>
public sealed record MeasurementList(IReadOnlyList<TuningChannel> Channels, IReadOnlyList<MeasurementRow> Rows);

/// <param name="Channel">Null when the signal path no longer has it.</param>
public sealed record MeasurementRow(Guid Id, Guid Version, string Name, MeasurementForm Form, TuningChannel? Channel, string FileName);
