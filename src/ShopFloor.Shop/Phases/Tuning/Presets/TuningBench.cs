using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Tuning.Alignment;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Verification;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Tuning.Measurements;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Tuning.Presets;

/// <summary>Brings measurements, signal path, presets and the shop's limits together for tuning and its verification.</summary>
public sealed class TuningBench(ShopStore store, TuningMeasurements measurements)
{
    private const double LeastHertz = 20;
    private const double MostHertz = 20_000;

    public Task<BenchFacts> GetAsync(Actor actor, Guid jobId, ListeningSeat seat, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
            {
                var settings = await db.SettingsAsync(cancellationToken);
                var channels = await TuningChannels.ListAsync(db, jobId, cancellationToken);
                var (drivers, missing) = Drivers(channels, await measurements.ResponsesAsync(db, jobId, seat, "", cancellationToken));
                var kept = channels.Where(channel => drivers.Any(driver => driver.Id == channel.Id)).ToList();
                return new BenchFacts
                {
                    Channels = channels, Drivers = drivers, Missing = missing, Junctions = BenchJunctions.Of(kept), Limits = settings.Tuning,
                    Presets = new TuningPresetList(await TuningPresets.ListAsync(db, jobId, cancellationToken), [], ProcessorProfiles.Of(settings)),
                };
            },
            cancellationToken);
    }

    /// <summary>Judges the version in the car by what was measured with it.</summary>
    public Task<VerificationView> VerifyAsync(Actor actor, Guid jobId, ListeningSeat seat, UnitText text, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
            {
                var view = await VerifyAsync(db, jobId, seat, text, cancellationToken);
                return view with { Gated = await SignOffs.GateAsync(db, jobId, view.Findings, cancellationToken) };
            },
            cancellationToken);
    }

    /// <summary>The owner accepts a broken limit in writing; covers it as it reads now, here and before delivery.</summary>
    public Task<Outcome<IReadOnlyList<Guid>>> SignOffAsync(Actor actor, Guid jobId, ReadFinding finding, string code, string reason, CancellationToken cancellationToken) =>
        SignOffs.SignAsync(
            store, actor, jobId, code, [finding], reason, async db => await SignOffs.GateAsync(db, jobId, await FindingsAsync(db, jobId, cancellationToken), cancellationToken), cancellationToken);

    /// <summary>What stands against a tuned car, for gates; nothing for a job without a preset in the car. Texts are invariant.</summary>
    internal async Task<IReadOnlyList<Finding>> FindingsAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken) =>
        (await VerifyAsync(db, jobId, ListeningSeat.Driver, UnitText.Invariant, cancellationToken)).Findings;

    internal async Task<VerificationView> VerifyAsync(ShopDbContext db, Guid jobId, ListeningSeat seat, UnitText text, CancellationToken cancellationToken)
    {
        var limits = (await db.SettingsAsync(cancellationToken)).Tuning;
        var presets = await TuningPresets.ListAsync(db, jobId, cancellationToken);
        var inCar = presets.SelectMany(preset => preset.Versions).FirstOrDefault(version => version.Form.InCar is not null);
        if (inCar is null)
        {
            return new VerificationView { InCar = null, Limits = limits, Hertz = [], Findings = [] };
        }

        var label = PresetForm.Label(inCar.Name, inCar.Form.Number);
        var before = await measurements.ResponsesAsync(db, jobId, seat, "", cancellationToken);
        var after = await measurements.ResponsesAsync(db, jobId, seat, label, cancellationToken);
        var hertz = FrequencyGrid.LogSpaced(LeastHertz, MostHertz, 241, inCar.Form.Profile.SampleRateHertz).Hertz;
        var (left, right) = (BenchSides.Of(after, StageSide.Left, hertz), BenchSides.Of(after, StageSide.Right, hertz));
        var (oldLeft, oldRight) = (BenchSides.Of(before, StageSide.Left, hertz), BenchSides.Of(before, StageSide.Right, hertz));
        TuningVerificationResult? result = null;
        List<Finding> findings = [];
        if (presets.First(preset => preset.PresetId == inCar.Form.PresetId).Latest is var latest && latest.Form.Number > inCar.Form.Number)
        {
            findings.Add(new Finding(
                "preset-not-in-car", Severity.Warn, "preset", "Preset", $"{PresetForm.Label(latest.Name, latest.Form.Number)} was kept, but version {inCar.Form.Number} is in the car.",
                "Type the later version in and mark it as the one in the car, or bring the earlier one back as the latest.", Unsourced.CommonPractice));
        }

        if (left is null || right is null)
        {
            var other = await MeasuredWithAsync(db, jobId, seat, presets, label, cancellationToken);
            findings.Add(new Finding(
                "tuning-not-verified", Severity.Warn, "tuning", "Tuning", $"{label} is in the car, and was not measured on both sides since.{(other is null ? "" : $" What was measured last is {other}.")}",
                $"Measure left and right with it, and name the preset '{label}' at the measurement.", Unsourced.CommonPractice));
        }
        else
        {
            result = TuningVerification.Compute(
                new TuningVerificationInput
                {
                    Hertz = hertz, LeftDecibels = left, RightDecibels = right, LeftBeforeDecibels = oldLeft is null || oldRight is null ? null : oldLeft, RightBeforeDecibels = oldLeft is null || oldRight is null ? null : oldRight,
                    Target = inCar.Form.Target, FromHertz = limits.FromHertz, ToHertz = limits.ToHertz, LeftRightLimitDecibels = limits.LeftRightDecibels, ArrivalLimitSeconds = limits.ArrivalSeconds,
                    Arrivals = BenchSides.Arrivals(after, inCar.Form.Channels),
                },
                text);
            findings.AddRange(result.Findings);
        }

        findings.AddRange(Heard(inCar.Form));
        return new VerificationView
        {
            InCar = inCar, Label = label, WithPhase = BenchSides.HasPhase(after), Limits = limits, Hertz = hertz, Left = left, Right = right, LeftBefore = oldLeft, RightBefore = oldRight, Result = result,
            Findings = [.. findings.OrderByDescending(finding => finding.Severity)],
        };
    }

    // Measurements with a preset that is not the one in the car say nothing of it; which one it was helps to see what happened.
    private static async Task<string?> MeasuredWithAsync(ShopDbContext db, Guid jobId, ListeningSeat seat, IReadOnlyList<PresetLine> presets, string label, CancellationToken cancellationToken)
    {
        var known = presets.SelectMany(preset => preset.Versions).Select(version => PresetForm.Label(version.Name, version.Form.Number)).Where(one => one != label).ToHashSet();
        return (await JobDesigns.ListAsync<MeasurementForm>(db, jobId, cancellationToken)).Where(one => one.Form.Seat == seat && known.Contains(one.Form.Preset)).OrderBy(one => one.Form.MeasuredAt).LastOrDefault()?.Form.Preset;
    }

    private static IEnumerable<Finding> Heard(PresetForm form) =>
        from point in ListeningChecklist.Points
        let heard = form.Heard.FirstOrDefault(each => each.Answer.PointId == point.Id)
        where heard is { Answer.Good: false }
        select new Finding(
            "heard-not-good", Severity.Warn, $"heard:{point.Id}", "Listening",
            $"{heard.By.Name} heard: {point.Question} No.{(heard.Answer.Note.Length > 0 ? $" {heard.Answer.Note}" : "")}", point.WhenNot, Unsourced.CommonPractice);

    private static (IReadOnlyList<TunedDriver> Drivers, IReadOnlyList<string> Missing) Drivers(IReadOnlyList<TuningChannel> channels, List<ChannelResponse> measured)
    {
        List<string> missing = [];
        List<ChannelResponse> usable = [];
        foreach (var channel in channels)
        {
            var found = measured.Find(one => one.Channel.Id == channel.Id);
            if (found is null)
            {
                missing.Add($"{channel.Name}: not measured at this seat without a preset.");
            }
            else if (found.Places.All(place => !Usable(place)))
            {
                missing.Add($"{channel.Name}: measured without phase or arrival; measure it with a sweep, or give its distance.");
            }
            else
            {
                usable.Add(found);
            }
        }

        if (usable.Count == 0)
        {
            return ([], missing);
        }

        var places = usable.Select(one => one.Places.Where(Usable).Select(place => place.Place)).Aggregate((one, other) => [.. one.Intersect(other)]).ToList();
        if (places.Count == 0)
        {
            return ([], [.. missing, "The channels have no place of the microphone in common; measure all at the same."]);
        }

        var ids = usable.Select(one => one.Channel.Id).ToHashSet();
        return ([.. usable.Select(one => new TunedDriver
        {
            Id = one.Channel.Id, Name = one.Channel.Name, Side = one.Channel.Side, PairId = one.Channel.PairId is { } pair && ids.Contains(pair) ? pair : null, LowestHertz = one.Channel.LowestHertz,
            BandFromHertz = one.Channel.BandFromHertz, BandToHertz = one.Channel.BandToHertz, IsRearFill = one.Channel.Role == DriverRole.Rear,
            Positions = [.. places.Select(place => one.Places.First(each => each.Place == place)).Select(place => new SeatResponse(place.Response, place.ArrivalSeconds!.Value))], // usable
        })], missing);
    }

    private static bool Usable(PlaceResponse place) => place is { ArrivalSeconds: not null, Response.PhaseRadians: not null };
}

/// <summary>What a tuning reached, as measured.</summary>
public sealed record VerificationView
{
    /// <summary>The version in the car; null while nobody said.</summary>
    public required LoadedDesign<PresetForm>? InCar { get; init; }

    /// <summary>What measurements name the preset by.</summary>
    public string Label { get; init; } = "";

    public required TuningLimits Limits { get; init; }

    public required IReadOnlyList<double> Hertz { get; init; }

    /// <summary>Whether the channels of a side were summed with their phases; else by power.</summary>
    public bool WithPhase { get; init; }

    /// <summary>Sum of the channels of a side over the places of the microphone, dB; null while it is not measured.</summary>
    public IReadOnlyList<double>? Left { get; init; }

    public IReadOnlyList<double>? Right { get; init; }

    public IReadOnlyList<double>? LeftBefore { get; init; }

    public IReadOnlyList<double>? RightBefore { get; init; }

    /// <summary>Null while the preset in the car was not measured.</summary>
    public TuningVerificationResult? Result { get; init; }

    /// <summary>With who accepted them.</summary>
    public IReadOnlyList<GatedFinding> Gated { get; init; } = [];

    /// <summary>Gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }
}
