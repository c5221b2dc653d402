using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Free outputs of parts, handed out in order to inputs of their kind: digital to digital, speaker level and line to the rest.</summary>
internal sealed class SoundQueue
{
    private readonly JobPart _to;
    private readonly bool _takesDigital;
    private readonly Queue<(JobPart Part, int Output)> _analogue = [];
    private readonly Queue<(JobPart Part, int Output)> _digital = [];
    private readonly bool _givesAnalogue;
    private readonly bool _givesDigital;

    public SoundQueue(JobPart from, JobPart to, Predicate<int> taken)
        : this([from], to, (_, output) => taken(output))
    {
    }

    /// <param name="taken">Whether an output feeds something already.</param>
    public SoundQueue(IEnumerable<JobPart> from, JobPart to, Func<JobPart, int, bool> taken)
    {
        _to = to;
        _takesDigital = SoundPort.Inputs(to.Data).Any(port => !port.Kind.IsAnalog());
        var kinds = SoundPort.Inputs(to.Data).Select(port => port.Kind).Where(kind => !kind.IsAnalog()).ToHashSet();
        foreach (var part in from)
        {
            // What can come as numbers is not sent as volts beside it.
            var asNumbers = part.Kind == PartKind.Source && SoundPort.Outputs(part.Data).Any(port => kinds.Contains(port.Kind));
            for (var output = 0; output < SignalPorts.Outputs(part, SignalKind.Sound); output++)
            {
                var port = SoundPort.Output(part, output)!.Value.Port; // counted by Outputs
                if (asNumbers && port.Kind.IsAnalog() && !port.IsVoice)
                {
                    continue;
                }

                var digital = _takesDigital && !port.Kind.IsAnalog();
                (_givesDigital, _givesAnalogue) = (_givesDigital || digital, _givesAnalogue || !digital);
                if (!taken(part, output))
                {
                    (digital ? _digital : _analogue).Enqueue((part, output));
                }
            }
        }
    }

    public bool IsEmpty => _analogue.Count == 0 && _digital.Count == 0;

    /// <summary>Whether what feeds it has any output of this input's kind, free or not.</summary>
    public bool Serves(int input) => IsDigital(input) ? _givesDigital : _givesAnalogue;

    public bool TryTake(int input, out (JobPart Part, int Output) taken) => (IsDigital(input) ? _digital : _analogue).TryDequeue(out taken);

    private bool IsDigital(int input) => SoundPort.Input(_to, input)?.Port.Kind.IsAnalog() == false;
}
