using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>
/// Which free output would usually feed which free input: sources into the processor, its outputs in order into the amplifiers, their channels in pairs from tweeter to rear, subwoofers
/// on the amplifier with the fewest channels. Common practice, no source; a start to look at, not a design. What is linked stays.
/// </summary>
internal sealed class UsualConnections(ConnectionsView view, IReadOnlyList<JobPart> installed)
{
    private static readonly DriverRole[] _order = [DriverRole.Tweeter, DriverRole.Midrange, DriverRole.Midbass, DriverRole.Divided, DriverRole.Rear, DriverRole.Subwoofer];

    private readonly List<(ConnectedOutput From, ConnectedInput To)> _made = [];

    /// <summary>Each pair once, loudspeakers first.</summary>
    public IReadOnlyList<(ConnectedOutput From, ConnectedInput To)> All()
    {
        Loudspeakers();
        var main = Units(PartKind.Processor).FirstOrDefault(unit => Data<ProcessorData>(unit)?.Use == ProcessorUse.SignalProcessor);
        Amplifiers(main);
        Sources(main);
        return _made;
    }

    private void Loudspeakers()
    {
        var waiting =
            (from unit in Units(PartKind.Loudspeaker)
             where unit.Inputs.Count > 0 && unit.Inputs.All(IsFree)
             let part = installed.First(part => part.Id == unit.PartId)
             let data = (LoudspeakerData)part.Data
             let zone = SignalPorts.ZoneOf(part, unit.Inputs[0].Number / SignalPorts.Coils(data))
             let role = DriverRoles.Of(data, zone)
             orderby Array.IndexOf(_order, role), SignalDevices.SideOf(zone) switch { ImageSide.Left => 0, ImageSide.Right => 1, _ => 2 }
             select (Input: unit.Inputs[0], IsLow: role == DriverRole.Subwoofer)).ToList();
        var free = Units(PartKind.Amplifier).OrderByDescending(unit => unit.Outputs.Count).SelectMany(unit => unit.Outputs).Where(output => output.Feeds == 0).ToList();
        var low = waiting.Where(one => one.IsLow).Select(one => one.Input).ToList();
        // Deep bass takes the last channels, so that a single-channel amplifier is its own.
        var kept = Math.Max(0, free.Count - low.Count);
        Join(free[kept..], low);
        Join(free[..kept], [.. waiting.Where(one => !one.IsLow).Select(one => one.Input)]);
    }

    private void Amplifiers(ConnectedUnit? main)
    {
        var outputs = new Queue<ConnectedOutput>(main?.Outputs.Where(output => output.Feeds == 0) ?? []);
        var source = Units(PartKind.Source).FirstOrDefault(unit => unit.Outputs.Count > 0);
        foreach (var unit in Units(PartKind.Amplifier))
        {
            var bridged = Data<AmplifierData>(unit)?.Load == ChannelLoading.BridgedFourOhms;
            foreach (var (output, at) in unit.Outputs.Select((output, at) => (output, at)))
            {
                var fed = unit.Inputs.ElementAtOrDefault(bridged ? 2 * at : at);
                if (fed is null || !IsFree(fed) || (bridged && unit.Inputs.ElementAtOrDefault((2 * at) + 1) is { } twin && !IsFree(twin)) || (output.Feeds == 0 && !_made.Exists(one => one.From == output)))
                    continue;
                if (main is null)
                {
                    // Without a processor a side goes straight in; odd channels are left by habit.
                    if (source?.Outputs.FirstOrDefault(one => one.Side == (at % 2 == 0 ? ImageSide.Left : ImageSide.Right) && PortKinds.Fits(one.Kind, fed.Kind)) is { } side)
                        _made.Add((side, fed));
                }
                else if (outputs.TryPeek(out var next) && PortKinds.Fits(next.Kind, fed.Kind))
                {
                    _made.Add((outputs.Dequeue(), fed));
                }
            }
        }
    }

    private void Sources(ConnectedUnit? main)
    {
        if (main is null)
            return;
        var between = Units(PartKind.Processor).Where(unit => unit != main).ToList();
        foreach (var unit in Units(PartKind.Source))
        {
            // What the factory plays goes through its interface where there is one.
            var isFactory = Data<SourceData>(unit)?.Sounds is SourceSounds.MusicAndVehicleSounds or SourceSounds.VehicleSoundsApart;
            var taker = isFactory ? between.Find(one => one.Inputs.Any(IsFree)) ?? main : main;
            Sides(unit, taker);
        }

        foreach (var unit in between)
            Sides(unit, main);
    }

    // A left and a right side into the first two free inputs of a kind that takes them; numbers before volts, so that nothing is changed twice.
    private void Sides(ConnectedUnit giver, ConnectedUnit taker)
    {
        if (giver.Outputs.Any(output => output.Feeds > 0 || _made.Exists(one => one.From == output)))
            return;
        foreach (var at in Enumerable.Range(0, giver.Outputs.Count / 2).Select(pair => 2 * pair).OrderBy(at => giver.Outputs[at].Kind.IsAnalog()))
        {
            var (left, right) = (giver.Outputs[at], giver.Outputs[at + 1]);
            for (var to = 0; left.Kind == right.Kind && to + 1 < taker.Inputs.Count; to += 2)
            {
                var (first, second) = (taker.Inputs[to], taker.Inputs[to + 1]);
                if (!IsFree(first) || !IsFree(second) || !PortKinds.Fits(left.Kind, first.Kind) || !PortKinds.Fits(right.Kind, second.Kind))
                    continue;
                _made.AddRange([(left, first), (right, second)]);
                return;
            }
        }
    }

    private void Join(List<ConnectedOutput> outputs, List<ConnectedInput> inputs) => _made.AddRange(outputs.Zip(inputs));

    private bool IsFree(ConnectedInput input) => input.Link is null && !_made.Exists(one => one.To == input);

    private IEnumerable<ConnectedUnit> Units(PartKind kind) => view.Units.Where(unit => unit.Kind == kind);

    private T? Data<T>(ConnectedUnit unit)
        where T : PartData => installed.FirstOrDefault(part => part.Id == unit.PartId)?.Data as T;
}
