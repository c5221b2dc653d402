using System.Collections.Concurrent;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Tuning.Alignment;
using ShopFloor.Engineering.Tuning.Measurements;
using ShopFloor.Engineering.Waves;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Tuning.Factory;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Tuning.Measurements;

/// <summary>Files brought to a job of which no measurement was made yet, with what they look like.</summary>
public sealed class MeasurementDrafts(ShopStore store)
{
    private const int MostKept = 200;
    private const int MostListened = 8;
    private readonly ConcurrentDictionary<string, Look> _looks = new();

    /// <summary>Lengths a sweep is offered in, s.</summary>
    public static IReadOnlyList<double> Lengths { get; } = [5, 10, 20, 40];

    /// <summary>Oldest first.</summary>
    public Task<List<MeasurementDraft>> ListAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.WorkOnJobs);
        return store.ReadAsync(
            async db =>
            {
                var used = await db.JobDesigns.IgnoreQueryFilters().Where(design => design.JobId == jobId && (design.Kind == DesignKind.TuningMeasurement || design.Kind == DesignKind.FactoryMeasurement)).ToListAsync(cancellationToken);
                var usedFiles = used.Select(design => design.Kind == DesignKind.TuningMeasurement ? design.Form<MeasurementForm>().FileId : design.Form<FactoryMeasurementForm>().FileId).ToHashSet();
                var files = await db.JobFiles.Where(file => file.JobId == jobId && (file.Kind == JobFileKind.MeasurementTable || file.Kind == JobFileKind.Recording)).OrderBy(file => file.Id).ToListAsync(cancellationToken);
                var channels = await TuningChannels.ListAsync(db, jobId, cancellationToken);
                List<MeasurementDraft> drafts = [];
                foreach (var file in files.Where(file => !usedFiles.Contains(file.Id)))
                {
                    var look = await LookAsync(db, file, channels, cancellationToken);
                    drafts.Add(new MeasurementDraft(file.Id, file.FileName, look.Table, look.Wave, look.Seconds, look.Problem, Suggested(file, look, channels)) { Recognised = look.Recognised, Loopback = look.Loopback });
                }

                return drafts;
            },
            cancellationToken);
    }

    /// <summary>The sweep to play for a channel: it begins where its loudspeakers may be driven.</summary>
    public static ExponentialSweep SweepFor(TuningChannel? channel, int sampleRateHertz = 48_000) => new()
    {
        FromHertz = Math.Round(channel?.TestFromHertz ?? 20),
        ToHertz = channel?.Role == DriverRole.Subwoofer ? 1_000 : Math.Min(20_000, 0.45 * sampleRateHertz),
        Seconds = 10,
        SampleRateHertz = sampleRateHertz,
        LevelDecibelsFullScale = -20,
    };

    /// <summary>Every sweep that is offered to be played, each once.</summary>
    public static IReadOnlyList<ExponentialSweep> Offered(IReadOnlyList<TuningChannel> channels, int sampleRateHertz)
    {
        ArgumentNullException.ThrowIfNull(channels);
        return [.. channels.SelectMany(channel => Lengths.Select(seconds => SweepFor(channel, sampleRateHertz) with { Seconds = seconds })).Where(sweep => sweep.Validate().Count == 0).Distinct()];
    }

    /// <summary>The channel a file is named after, as far as its name tells; null when none or several fit.</summary>
    public static TuningChannel? ByName(string fileName, IReadOnlyList<TuningChannel> channels)
    {
        var words = fileName.ToLowerInvariant().Split([' ', '_', '-', '.', ',', '(', ')'], StringSplitOptions.RemoveEmptyEntries);
        StageSide? side = words.Any(word => word is "left" or "l" or "lh") ? StageSide.Left : words.Any(word => word is "right" or "r" or "rh") ? StageSide.Right : null;
        DriverRole? role = words.Select(RoleOf).FirstOrDefault(found => found is not null);
        var fitting = channels.Where(channel => (role is null || channel.Role == role) && (side is null || channel.Side == side)).ToList();
        return (role is not null || side is not null) && fitting.Count == 1 ? fitting[0] : null;
    }

    private static DriverRole? RoleOf(string word) => word switch
    {
        "sub" or "subwoofer" or "woofer" or "sw" => DriverRole.Subwoofer,
        "midbass" or "mb" or "woof" => DriverRole.Midbass,
        "mid" or "midrange" or "mr" => DriverRole.Midrange,
        "tweeter" or "tw" or "high" => DriverRole.Tweeter,
        "rear" or "fill" => DriverRole.Rear,
        _ => null,
    };

    private static MeasurementForm Suggested(JobFile file, Look look, List<TuningChannel> channels)
    {
        var channel = ByName(file.FileName, channels);
        var table = file.Kind == JobFileKind.MeasurementTable;
        return new MeasurementForm
        {
            ChannelId = channel?.Id ?? "",
            FileId = file.Id,
            Source = table ? MeasurementSource.Table : MeasurementSource.Sweep,
            Layout = look.Table?.Layout,
            Sweep = table ? null : look.Recognised ?? SweepFor(channel, look.Wave?.SampleRateHertz ?? 48_000),
            WaveChannel = look.Loopback == 0 ? 1 : 0,
            LoopbackChannel = look.Loopback,
            Relative = file.FileName.StartsWith(TabletPrefix, StringComparison.Ordinal),
        };
    }

    /// <summary>Begins the names of files recorded by the page itself.</summary>
    public const string TabletPrefix = "tablet-microphone-";

    private async Task<Look> LookAsync(ShopDbContext db, JobFile file, List<TuningChannel> channels, CancellationToken cancellationToken)
    {
        // What a recording holds is told by the sweeps on offer, which change with the signal path.
        var key = $"{file.Id} {string.Join(' ', channels.Select(channel => $"{channel.Role}{channel.TestFromHertz:0}").Distinct())}";
        if (_looks.TryGetValue(key, out var known))
        {
            return known;
        }

        if (await JobFiles.OpenAsync(db, file.Id, cancellationToken) is not { } opened)
        {
            return new Look("The file is no longer there.");
        }

        var look = await Task.Run(() => Of(opened, channels), cancellationToken);
        if (_looks.Count >= MostKept)
        {
            _looks.Clear();
        }

        return _looks[key] = look;
    }

    private static Look Of(OpenedJobFile file, List<TuningChannel> channels)
    {
        if (file.Kind == JobFileKind.MeasurementTable)
        {
            var proposal = ResponseTable.Propose(file.Content);
            return new Look(proposal.Problems.Count > 0 ? proposal.Problems[0].Message : null) { Table = proposal };
        }

        try
        {
            var sound = WaveReader.Read(file.Content, out var format);
            var look = new Look(null) { Wave = format, Seconds = (double)sound.Length / sound.SampleRateHertz };
            return sound.Length is >= 1_024 and <= SweepRecording.MostSamples && sound.SampleRateHertz is >= 8_000 and <= 192_000 ? Recognised(look, sound, Offered(channels, sound.SampleRateHertz)) : look;
        }
        catch (WaveFormatException refused)
        {
            return new Look(refused.Message);
        }
    }

    private static Look Recognised(Look look, SampledSound sound, IReadOnlyList<ExponentialSweep> offered)
    {
        // A loopback tells the sweep better than a microphone, but which channel it is is asked after.
        var found = sound.Channels.Take(MostListened).Select(channel => SweepPassage.Of(channel, sound.SampleRateHertz)).OfType<SweepPassageResult>()
            .OrderByDescending(heard => heard.ToHertz / heard.FromHertz).Select(heard => SweepPassage.Among(heard, offered.Where(sweep => sweep.Length <= sound.Length))).FirstOrDefault(sweep => sweep is not null);
        return found is null ? look : look with { Recognised = found, Loopback = sound.Channels.Count > 1 ? LoopbackGuess.Of(found, [.. sound.Channels.Take(MostListened)]).Channel : null };
    }

    private sealed record Look(string? Problem)
    {
        public ResponseTableProposal? Table { get; init; }

        public WaveFormat? Wave { get; init; }

        public double? Seconds { get; init; }

        public ExponentialSweep? Recognised { get; init; }

        public int? Loopback { get; init; }
    }
}

/// <param name="Table">How a table looks.</param>
/// <param name="Wave">How a sound file is kept.</param>
/// <param name="Seconds">How long it is, s.</param>
/// <param name="Problem">Why nothing can be made of it.</param>
/// <param name="Suggested">A form to begin with.</param>
public sealed record MeasurementDraft(Guid FileId, string FileName, ResponseTableProposal? Table, WaveFormat? Wave, double? Seconds, string? Problem, MeasurementForm Suggested)
{
    /// <summary>The sweep on offer that a recording holds; null when none was recognised.</summary>
    public ExponentialSweep? Recognised { get; init; }

    /// <summary>The channel that looks like the electrical loopback, from 0; null when none does.</summary>
    public int? Loopback { get; init; }
}
