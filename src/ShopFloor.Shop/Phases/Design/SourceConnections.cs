using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Presets;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>A way a source may be connected: one of its outputs to one device.</summary>
/// <param name="Key">Identifier of the way.</param>
/// <param name="Name">In plain words.</param>
/// <param name="IsNow">Whether it is connected so now.</param>
public sealed record ConnectionWay(string Key, string Name, bool IsNow);

/// <param name="Ways">Outputs and the devices that take them.</param>
public sealed record ConnectionChoices(Guid SourcePartId, string Name, IReadOnlyList<ConnectionWay> Ways);

/// <param name="SourceParts">Sources with at least one way.</param>
/// <param name="Cables">Signal cables of the catalogue.</param>
public sealed record ConnectionDesk(IReadOnlyList<ConnectionChoices> SourceParts, IReadOnlyList<SignalCableChoice> Cables);

/// <param name="IsByMeter">Whether it is sold by the metre, else piece by piece.</param>
public sealed record SignalCableChoice(Guid CataloguePartId, string Name, bool IsByMeter);

/// <summary>Two ways compared, with what their cables cost the client.</summary>
/// <param name="FirstPrice">Null without a cable chosen, a known length, or the right to see prices.</param>
public sealed record ComparedConnections(string FirstName, string SecondName, ConnectionComparisonResult Result, decimal? FirstPrice, decimal? SecondPrice)
{
    /// <summary>What the second costs more than the first; null while one is not known.</summary>
    public decimal? PriceDifference => SecondPrice - FirstPrice;
}

/// <summary>Compares two ways to connect a source of a job, each mapped as if it were linked so. Nothing is changed.</summary>
public sealed class SourceConnections(ShopStore store)
{
    public Task<ConnectionDesk> DeskAsync(Actor actor, Guid jobId, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync(
            async db =>
            {
                var (_, parts, links) = await FactsAsync(db, jobId, cancellationToken);
                var cables = await db.CatalogueParts.AsNoTracking().Where(part => part.Kind == PartKind.Cable).OrderBy(part => part.Name).ToListAsync(cancellationToken);
                return new ConnectionDesk(
                    [.. parts.Where(part => part.Data is SourceData).Select(part => new ConnectionChoices(part.Id, part.Name, [.. Ways(part, parts, links).Select(way => way.Way)])).Where(choices => choices.Ways.Count > 0)],
                    [.. cables.Where(part => part.Data is CableData { Purpose: CablePurpose.Signal }).Select(part => new SignalCableChoice(part.Id, part.Name, part.Unit == PartUnit.Meter))]);
            },
            cancellationToken);
    }

    /// <param name="first">Key of a way.</param>
    /// <param name="second">Key of another way.</param>
    /// <param name="firstCable">Catalogue part its cable is; null to leave the price out.</param>
    /// <param name="text">Units and culture of the reader.</param>
    public Task<Outcome<ComparedConnections>> CompareAsync(
        Actor actor, Guid jobId, Guid sourcePartId, string first, string second, Guid? firstCable, Guid? secondCable, UnitText text, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.SeeJobs);
        return store.ReadAsync<Outcome<ComparedConnections>>(
            async db =>
            {
                var one = await VariantAsync(db, jobId, sourcePartId, first, cancellationToken);
                var other = await VariantAsync(db, jobId, sourcePartId, second, cancellationToken);
                if (one is not { } from || other is not { } to)
                {
                    return new Problem(one is null ? "First" : "Second", "That way is not there any more: the parts list was changed. Choose again.");
                }

                if (first == second)
                {
                    return new Problem("Second", "Both ways are the same; choose two.");
                }

                var input = new ConnectionComparisonInput { SourceId = from.SourceId, FirstName = from.Name, First = from.Path, SecondName = to.Name, Second = to.Path };
                if (input.Validate(text) is { Count: > 0 } problems)
                {
                    return problems.Select(problem => new Problem(problem.Field, problem.Message)).ToList();
                }

                var result = ConnectionComparison.Compute(input, text);
                return new ComparedConnections(
                    from.Name, to.Name, result,
                    await PriceAsync(db, actor, firstCable, result.First, cancellationToken),
                    await PriceAsync(db, actor, secondCable, result.Second, cancellationToken));
            },
            cancellationToken);
    }

    private static async Task<decimal?> PriceAsync(ShopDbContext db, Actor actor, Guid? cable, ConnectionFigures way, CancellationToken cancellationToken)
    {
        if (!actor.May(Permission.SeePrices) || cable is not { } id
            || await db.CatalogueParts.AsNoTracking().SingleOrDefaultAsync(part => part.Id == id, cancellationToken) is not { UnitPrice: { } price } part)
        {
            return null;
        }

        var quantity = part.Unit == PartUnit.Meter ? (decimal?)way.CableMeters : way.Cables;
        return quantity is { } many ? new Amount(price * many, SettingsReading.CurrencyOf(await db.SettingsAsync(cancellationToken))).Value : null;
    }

    private static async Task<Variant?> VariantAsync(ShopDbContext db, Guid jobId, Guid sourcePartId, string key, CancellationToken cancellationToken)
    {
        var (facts, parts, links) = await FactsAsync(db, jobId, cancellationToken);
        if (parts.Find(part => part.Id == sourcePartId) is not { Data: SourceData } source || Ways(source, parts, links).Find(way => way.Way.Key == key) is not { } chosen)
        {
            return null;
        }

        var changed = chosen.Way.IsNow ? links : Relinked(jobId, source, chosen, parts, links);
        var runs = new SignalMapping(parts, changed, facts.Budget, UnitText.Invariant).View(jobId);
        var mapping = new SignalPathMapping(
            parts, changed, runs.Speakers, new SignalGrounds(facts.Settings, facts.Choices, parts), await SignalPaths.RoutingAsync(db, jobId, cancellationToken), facts.Budget.GainOverlapDecibels, facts.MeasuredFactory);
        return mapping.Map() is { } path ? new Variant(SignalDevices.IdOf(source, 0), chosen.Way.Name, path) : null;
    }

    private static async Task<(PlanFacts Facts, List<JobPart> Parts, List<SignalLink> Links)> FactsAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
    {
        var facts = await PlanFacts.ReadAsync(db, jobId, cancellationToken);
        return (facts, [.. facts.Parts.Where(part => part.Direction == PartDirection.Installed)], await SignalLinks.OfJob(db, jobId).ToListAsync(cancellationToken));
    }

    private static List<MappedWay> Ways(JobPart source, List<JobPart> parts, List<SignalLink> links)
    {
        var connectors = Enumerable.Range(0, SignalPorts.Outputs(source, SignalKind.Sound))
            .Select(output => (Output: output, SoundPort.Output(source, output)!.Value.Port)) // counted just now
            .Where(each => !each.Port.IsVoice)
            .GroupBy(each => (each.Port.IsOther, each.Port.Kind));
        return
        [
            .. from connector in connectors
               let outputs = connector.Select(each => each.Output).ToList()
               from target in parts
               let inputs = Taken(target, connector.Key.Kind)
               where inputs.Count > 0
               select new MappedWay(
                   new ConnectionWay(
                       $"{(connector.Key.IsOther ? "other" : "main")}:{target.Id}",
                       Name((SourceData)source.Data, connector.Key.IsOther, connector.Key.Kind, target), // asked of sources alone
                       links.Exists(link => link.Kind == SignalKind.Sound && link.Form.FromPartId == source.Id && link.ToPartId == target.Id && outputs.Contains(link.Form.FromOutput))),
                   outputs, target, inputs),
        ];
    }

    private static string Name(SourceData data, bool isOther, PortKind kind, JobPart target) =>
        $"{kind.Words()}{(kind.IsAnalog() && (isOther ? data.OtherOutputVolts : data.OutputVolts) is { } volts ? string.Create(System.Globalization.CultureInfo.CurrentCulture, $", {volts:0.##} V") : "")} to {target.Name}";

    private static List<int> Taken(JobPart target, PortKind kind) => target.Data is ProcessorData or AmplifierData
        ? [.. Enumerable.Range(0, SignalPorts.Inputs(target, SignalKind.Sound)).Where(input => SoundPort.Input(target, input) is { } end && PortKinds.Fits(kind, end.Port.Kind))]
        : [];

    // Inputs it has there keep it; else the first that nothing feeds; else what feeds them makes room.
    private static List<SignalLink> Relinked(Guid jobId, JobPart source, MappedWay way, List<JobPart> parts, List<SignalLink> links)
    {
        var target = way.Target;
        var mine = links.Where(link => link.Kind == SignalKind.Sound && link.Form.FromPartId == source.Id && SoundPort.Output(source, link.Form.FromOutput) is not { Port.IsVoice: true }).ToList();
        List<SignalLink> kept = [.. links.Except(mine)];
        var had = mine.Where(link => link.ToPartId == target.Id && way.Inputs.Contains(link.ToInput)).Select(link => link.ToInput).ToList();
        var free = way.Inputs.Where(input => !kept.Exists(link => link.Kind == SignalKind.Sound && link.ToPartId == target.Id && link.ToInput == input)).ToList();
        var inputs = target.Data is AmplifierData ? way.Inputs : had.Count > 0 ? had : [.. (free.Count > 0 ? free : way.Inputs).Take(way.Outputs.Count)];
        kept.RemoveAll(link => link.Kind == SignalKind.Sound && link.ToPartId == target.Id && inputs.Contains(link.ToInput));
        var length = mine.Find(link => link.ToPartId == target.Id)?.Form.LengthMeters ?? SignalPorts.SuggestedMeters(source.Zone, parts.First(part => part.Id == target.Id).Zone);
        kept.AddRange(inputs.Select((input, at) => new SignalLink(jobId, SignalKind.Sound, target.Id, input, new SignalLinkForm { FromPartId = source.Id, FromOutput = way.Outputs[at % way.Outputs.Count], LengthMeters = length })));
        return kept;
    }

    private sealed record MappedWay(ConnectionWay Way, IReadOnlyList<int> Outputs, JobPart Target, IReadOnlyList<int> Inputs);

    private sealed record Variant(string SourceId, string Name, SignalPathInput Path);
}
