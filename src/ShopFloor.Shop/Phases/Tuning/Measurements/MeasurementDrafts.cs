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
    private readonly ConcurrentDictionary<Guid, Look> _looks = new();

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
                    var look = await LookAsync(db, file, cancellationToken);
                    drafts.Add(new MeasurementDraft(file.Id, file.FileName, look.Table, look.Wave, look.Seconds, look.Problem, Suggested(file, look, channels)));
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
            Sweep = table ? null : SweepFor(channel, look.Wave?.SampleRateHertz ?? 48_000),
            Relative = file.FileName.StartsWith(TabletPrefix, StringComparison.Ordinal),
        };
    }

    /// <summary>Begins the names of files recorded by the page itself.</summary>
    public const string TabletPrefix = "tablet-microphone-";

    private async Task<Look> LookAsync(ShopDbContext db, JobFile file, CancellationToken cancellationToken)
    {
        if (_looks.TryGetValue(file.Id, out var known))
        {
            return known;
        }

        if (await JobFiles.OpenAsync(db, file.Id, cancellationToken) is not { } opened)
        {
            return new Look(null, null, null, "The file is no longer there.");
        }

        var look = await Task.Run(() => Of(opened), cancellationToken);
        if (_looks.Count >= MostKept)
        {
            _looks.Clear();
        }

        return _looks[file.Id] = look;
    }

    private static Look Of(OpenedJobFile file)
    {
        if (file.Kind == JobFileKind.MeasurementTable)
        {
            var proposal = ResponseTable.Propose(file.Content);
            return new Look(proposal, null, null, proposal.Problems.Count > 0 ? proposal.Problems[0].Message : null);
        }

        try
        {
            var sound = WaveReader.Read(file.Content, out var format);
            return new Look(null, format, (double)sound.Length / sound.SampleRateHertz, null);
        }
        catch (WaveFormatException refused)
        {
            return new Look(null, null, null, refused.Message);
        }
    }

    private sealed record Look(ResponseTableProposal? Table, WaveFormat? Wave, double? Seconds, string? Problem);
}

/// <param name="Table">How a table looks.</param>
/// <param name="Wave">How a sound file is kept.</param>
/// <param name="Seconds">How long it is, s.</param>
/// <param name="Problem">Why nothing can be made of it.</param>
/// <param name="Suggested">A form to begin with.</param>
public sealed record MeasurementDraft(Guid FileId, string FileName, ResponseTableProposal? Table, WaveFormat? Wave, double? Seconds, string? Problem, MeasurementForm Suggested);
