using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Rules;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What nobody said yet about the links of a path, one line each, and twins that are changed over behind their crossovers.</summary>
internal static class SignalFacts
{
    public static IEnumerable<Finding> Missing(IReadOnlyList<JobPart> installed, IReadOnlyList<SignalLink> sound, SignalGrounds grounds)
    {
        var lines = sound.Where(link => Line(installed, link) is not null).ToList();
        var silent = lines.Where(link => link.Form.Lies == LinkLay.NotSaid).Select(link => Line(installed, link)!.Value.To.Name).Distinct().ToList(); // filtered
        if (silent.Count > 0)
        {
            yield return new Finding(
                "cable-lay-not-said", Severity.Note, "cable-lay", "Line cables", $"Which way they lie to the supply cables is not said: to {string.Join(", ", silent)}.",
                "Say it under Connections once the route is known.", new LineBesideSupply().Source);
        }

        // One device alone cannot differ from another.
        var devices = lines.SelectMany(link => new[] { Line(installed, link)!.Value.From, Line(installed, link)!.Value.To }).DistinctBy(part => part.Id).ToList(); // filtered
        var open = devices.Where(part => grounds.Of(part) is null).Select(part => part.Name).ToList();
        if (devices.Count > 1 && open.Count > 0)
        {
            yield return new Finding(
                "ground-not-said", Severity.Note, "grounds", "Ground points", $"Where they are grounded is not said: {string.Join(", ", open)}.",
                "Enter it on the part, or lay the return beside the supply in the plan.", new GroundsDiffer().Source);
        }
    }

    /// <summary>A source that brings the car's own sounds and lost what it used to drive.</summary>
    public static IEnumerable<Finding> Loads(IReadOnlyList<JobPart> installed, bool takenOut) =>
        from part in installed
        where takenOut && part.Data is SourceData { FactoryLoad: FactoryLoad.NotSaid, Sounds: not SourceSounds.Music }
        select new Finding(
            "factory-load-not-said", Severity.Note, part.Id.ToString(), part.Name, "Parts of the car are taken out, and whether this waits for a load or a wake signal is not said.",
            "Look it up in the vehicle maker's papers or at the interface's maker, and enter it on the part.", new NotTerminated().Source);

    /// <summary>Loudspeakers behind a crossover are one load, so their polarity is compared here, among themselves.</summary>
    public static IEnumerable<Finding> TurnedTwins(IReadOnlyList<SignalLink> sound, Func<Guid?, JobPart?> partOf)
    {
        var rule = new PolarityDiffers();
        var ends = from link in sound
                   where link.Form.BehindCrossover
                   let part = partOf(link.ToPartId)
                   where part?.Data is LoudspeakerData
                   let unit = link.ToInput / SignalPorts.Coils((LoudspeakerData)part.Data)
                   select (link.Form.Inverted, Id: SignalDevices.IdOf(part, unit), Name: SignalPorts.NameOfUnit(part, unit), Model: SignalDevices.ModelOf(part, unit));
        foreach (var twins in ends.GroupBy(end => end.Model).Where(group => group.Select(end => end.Inverted).Distinct().Count() > 1))
        {
            var odd = twins.First(end => end.Inverted);
            yield return new Finding(
                rule.Code, Severity.Warn, odd.Id, odd.Name, $"It is changed over against its twin ({string.Join(", ", twins.Select(end => end.Name).Where(name => name != odd.Name).Distinct())}).", rule.Remedy, rule.Source);
        }
    }

    private static (JobPart From, JobPart To)? Line(IReadOnlyList<JobPart> installed, SignalLink link) =>
        installed.FirstOrDefault(part => part.Id == link.ToPartId) is { Data: AmplifierData or ProcessorData } to
        && installed.FirstOrDefault(part => part.Id == link.Form.FromPartId) is { Data: SourceData or ProcessorData } from
        && SoundPort.Input(to, link.ToInput)?.Port.Kind == PortKind.UnbalancedLine && SoundPort.Output(from, link.Form.FromOutput)?.Port.Kind.IsAnalog() == true
            ? (from, to)
            : null;
}
