using System.Collections.Concurrent;
using System.Globalization;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Tuning.Analysis;
using ShopFloor.Engineering.Tuning.Factory;
using ShopFloor.Engineering.Tuning.Processors;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Tuning.Measurements;
using ShopFloor.Shop.Phases.Tuning.Presets;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Tuning.Factory;

/// <summary>What the factory does to the music of a job, and what undoes it.</summary>
public sealed class FactorySignals(ShopStore store, JobDesigns designs, TuningMeasurements measurements)
{
    // A side takes about a second, and the same measurements give the same answer.
    private const int MostKept = 60;
    private readonly ConcurrentDictionary<string, FactorySignalResult> _kept = new();

    /// <summary>Measured outputs, the last choice and the processor.</summary>
    public Task<FactorySignalView> GetAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
            {
                var offered = await FactoryOutputs.ListAsync(db, jobId, cancellationToken);
                List<(Guid Id, FactoryOutputRef Output, FactoryMeasurementForm Form, MeasurementReading Reading)> read = [];
                List<string> problems = [];
                foreach (var design in await JobDesigns.ListAsync<FactoryMeasurementForm>(db, jobId, cancellationToken))
                {
                    var (reading, problem) = await measurements.ReadAsync(db, jobId, design.Form.AsRead(), cancellationToken);
                    if (reading is { Response.PhaseRadians: not null, ArrivalSeconds: not null })
                    {
                        read.Add((design.Id, FactoryMeasurements.Now(design.Form.Output, offered), design.Form, reading));
                    }
                    else
                    {
                        problems.Add($"{design.Name}: {problem ?? "it has no phase"}");
                    }
                }

                var outputs = read.GroupBy(one => one.Output.Key).Select(group => Measured([.. group], offered)).OrderBy(output => output.Side).ThenBy(output => output.FromHertz).ThenBy(output => output.Name, StringComparer.OrdinalIgnoreCase).ToList();
                var choice = (await JobDesigns.ListAsync<FactorySignalForm>(db, jobId, cancellationToken)).LastOrDefault();
                return new FactorySignalView
                {
                    Outputs = outputs, Problems = problems, NotMeasured = [.. offered.Where(row => outputs.TrueForAll(output => output.Key != row.Output.Key)).Select(row => row.Output.Name)],
                    Choice = choice?.Form ?? new FactorySignalForm(), ChoiceId = choice?.Id, ChoiceVersion = choice?.Version ?? Guid.Empty, Profile = await ProfileAsync(db, jobId, cancellationToken),
                };
            },
            cancellationToken);
    }

    /// <summary>Keeps what was decided, for everybody who looks at the job.</summary>
    public Task<Outcome<Guid>> ChooseAsync(Actor actor, Guid jobId, FactorySignalView was, FactorySignalForm choice, CancellationToken cancellationToken)
    {
        actor.Demand(FactorySignalForm.Needed);
        ArgumentNullException.ThrowIfNull(was);
        return was.ChoiceId is { } id
            ? designs.EditAsync(actor, id, was.ChoiceVersion, "Outputs added up", choice, cancellationToken)
            : designs.AddAsync(actor, jobId, "Outputs added up", choice, cancellationToken);
    }

    /// <summary>Works both sides out beside the caller's thread; what was worked out before is at hand.</summary>
    /// <param name="profile">The processor the filters are for.</param>
    /// <param name="told">Raised with each side that is done.</param>
    /// <returns>The sides that have outputs, left first, or why there is nothing to add up.</returns>
    public async Task<Outcome<List<FactorySideView>>> ComputeAsync(
        Actor actor, FactorySignalView view, FactorySignalForm choice, ProcessorProfile profile, UnitText text, IProgress<ImageSide>? told, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(choice);
        ArgumentNullException.ThrowIfNull(profile);
        if (choice.Problems() is { Count: > 0 } wrong)
        {
            return wrong;
        }

        var chosen = view.Outputs.Where(output => !choice.LeftOut.Contains(output.Key)).ToList();
        if (chosen.Count == 0)
        {
            return new Problem(nameof(choice.LeftOut), view.Outputs.Count == 0 ? "No factory output is measured yet." : "All outputs are left out; choose one at least.");
        }

        if (chosen.Select(output => output.Clock).Distinct().Count() > 1)
        {
            return new Problem(
                nameof(choice.LeftOut),
                $"Not on one clock: {string.Join(", ", chosen.Select(output => $"{output.Name} ({MeasurementWords.Of(output.Clock)})"))}. Measure all with a reference, or bring all as tables of one program; leave the others out.");
        }

        var limits = choice.Within(profile);
        var sides = chosen.GroupBy(output => output.Side).Select(group => (Side: group.Key, Outputs: group.ToList())).ToList();
        var inputs = sides.Select(side => new FactorySignalInput { Outputs = [.. side.Outputs.Select(output => output.Measured)], SampleRateHertz = profile.SampleRateHertz, Limits = limits }).ToList();
        if (inputs.SelectMany(input => input.Validate(text)).Select(problem => new Problem(problem.Field, problem.Message)).ToList() is { Count: > 0 } refused)
        {
            return refused;
        }

        var results = await Task.WhenAll(sides.Zip(inputs).Select(pair => Task.Run(
            () =>
            {
                // Its findings are written in the reader's units and language and name the outputs.
                var key = $"{string.Join(',', pair.First.Outputs.Select(output => $"{output.Name} {string.Join(',', output.MeasurementIds)}"))} {JsonSerializer.Serialize(limits)} {profile.SampleRateHertz.ToString(CultureInfo.InvariantCulture)} {text.Meters(1.5)} {text.Number(1.5)}";
                if (!_kept.TryGetValue(key, out var result))
                {
                    result = FactorySignal.Compute(pair.Second, text, cancellationToken);
                    if (_kept.Count >= MostKept)
                    {
                        _kept.Clear();
                    }

                    _kept[key] = result;
                }

                told?.Report(pair.First.Side);
                return new FactorySideView(pair.First.Side, pair.First.Outputs, result);
            },
            cancellationToken)));
        return results.OrderBy(side => side.Side).ToList();
    }

    private static MeasuredOutput Measured(List<(Guid Id, FactoryOutputRef Output, FactoryMeasurementForm Form, MeasurementReading Reading)> repeats, List<FactoryOutputRow> offered)
    {
        var output = repeats[0].Output;
        var mean = TuningMeasurements.Averaged(MicrophonePlace.HeadMiddle, [.. repeats.Select(one => (one.Form.AsRead(), one.Reading))]);
        var feeds = offered.Find(row => row.Output.Key == output.Key)?.Feeds ?? "";
        return new MeasuredOutput(
            output.Key, output.Name, feeds.Length > 0 ? $"{feeds}, from {output.Name}" : output.Name, output.Side,
            new FactoryOutput(output.Key, output.Name, mean.Response, mean.ArrivalSeconds ?? 0), mean.Clock, [.. repeats.Select(one => one.Id)])
        {
            FromHertz = Math.Round(UsableBand.Of(mean.Response).FromHertz),
        };
    }

    private static async Task<ProcessorProfile> ProfileAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
    {
        var presets = await TuningPresets.ListAsync(db, jobId, cancellationToken);
        if ((new TuningPresetList(presets, [], []).InCar ?? (presets.Count > 0 ? presets[0].Latest : null)) is { } preset)
        {
            return preset.Form.Profile;
        }

        var parts = await PartsList.InOrder(db, jobId).AsNoTracking().Where(part => part.Direction == PartDirection.Installed && part.Kind == PartKind.Processor).ToListAsync(cancellationToken);
        var known = parts.Find(part => part.Data is ProcessorData { Use: ProcessorUse.SignalProcessor, SampleRateKilohertz: not null });
        return known is null ? ProcessorProfiles.Generic : ProcessorProfiles.Generic with { Name = known.Name, SampleRateHertz = 1_000 * ((ProcessorData)known.Data).SampleRateKilohertz!.Value }; // found by both
    }
}
