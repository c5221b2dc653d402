using ShopFloor.Engineering.Electrical.Accessories;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Maps the turn-on links of a job to the load of each output and to the order of switching.</summary>
internal sealed class TurnOnMapping(IReadOnlyList<JobPart> installed, IReadOnlyList<SignalLink> links, double lineVolts, UnitText text)
{
    public const string TheCar = "The car's accessory line";

    // What the order tells; the load of each line tells the rest about itself.
    private static readonly string[] OrderCodes = ["settle-time-missing", "amplifier-on-too-early", "power-down-order"];

    private readonly Dictionary<Guid, SignalLink> _links = links.Where(link => link.Kind == SignalKind.TurnOn && link.ToInput == 0).ToDictionary(link => link.ToPartId);

    public IReadOnlyList<TurnOnRow> Rows => [.. Switched.Select(part =>
    {
        var link = _links.GetValueOrDefault(part.Id);
        return new TurnOnRow(part.Id, part.Name, StageOf(part), link?.Form, link?.Version ?? Guid.Empty, link is null || IsGone(link) ? "" : NameOf(link.Form.FromPartId), 1000 * AmperesOf(part));
    })];

    public IReadOnlyList<PortChoice> Triggers =>
        [new(null, 0, TheCar), .. installed.Where(part => SignalPorts.Outputs(part, SignalKind.TurnOn) > 0).Select(part => new PortChoice(part.Id, 0, part.Name))];

    private IEnumerable<JobPart> Switched => installed.Where(part => SignalPorts.Inputs(part, SignalKind.TurnOn) > 0);

    public IReadOnlyList<TurnOnOutput> Outputs(List<Finding> findings)
    {
        List<TurnOnOutput> outputs = [];
        var on = Switched.Where(part => _links.TryGetValue(part.Id, out var link) && !IsGone(link)).GroupBy(part => _links[part.Id].Form.FromPartId);
        foreach (var group in on)
        {
            var limit = LimitAmperes(group.Key);
            var input = new TurnOnInput
            {
                Id = $"turn-on:{group.Key?.ToString() ?? "car"}",
                OutputName = group.Key is null ? TheCar : $"{NameOf(group.Key)}, turn-on output",
                OutputLimitAmperes = limit,
                LineVolts = lineVolts,
                Devices = [.. group.Select(part => DeviceOf(part, null))],
            };
            if (BudgetFacts.Ask(input.Id, input.OutputName, input.Validate(text), findings, () => TurnOnChain.Compute(input, text)) is { } result)
            {
                findings.AddRange(result.Findings.Where(finding => !OrderCodes.Contains(finding.Code)));
                outputs.Add(new TurnOnOutput(group.Key, NameOf(group.Key), 1000 * limit, result));
            }
        }

        return outputs;
    }

    public TurnOnResult? Order(List<Finding> findings)
    {
        foreach (var part in Switched)
        {
            if (!_links.TryGetValue(part.Id, out var link) || IsGone(link))
            {
                findings.Add(link is null
                    ? new Finding("turn-on-not-decided", Severity.Warn, part.Id.ToString(), part.Name, "What turns it on is not decided.", "Choose what turns it on.", "needed for the turn-on chain")
                    : SignalFindings.SourceGone(link, part.Name));
            }
        }

        var devices = installed.Where(part => part.Kind == PartKind.Source).Select(part => DeviceOf(part, 0)).Concat(Switched.Select(part => DeviceOf(part, DelayOf(part.Id, [])))).ToList();
        if (!Switched.Any())
        {
            return null;
        }

        var input = new TurnOnInput { Id = "turn-on-order", OutputName = "Order of switching", LineVolts = lineVolts, Devices = devices };
        var result = BudgetFacts.Ask(input.Id, input.OutputName, input.Validate(text), findings, () => TurnOnChain.Compute(input, text));
        findings.AddRange(result?.Findings.Where(finding => OrderCodes.Contains(finding.Code)) ?? []);
        return result;
    }

    private bool IsGone(SignalLink link) => link.Form.FromPartId is { } from && installed.All(part => part.Id != from);

    private string NameOf(Guid? partId) => partId is null ? TheCar : installed.FirstOrDefault(part => part.Id == partId)?.Name ?? "";

    /// <summary>When a device comes on, s: the delays along the chain added up.</summary>
    private double DelayOf(Guid partId, HashSet<Guid> seen) =>
        _links.TryGetValue(partId, out var link) && seen.Add(partId) ? (link.Form.DelaySeconds ?? 0) + (link.Form.FromPartId is { } from ? DelayOf(from, seen) : 0) : 0;

    private double? LimitAmperes(Guid? partId) => installed.FirstOrDefault(part => part.Id == partId)?.Data switch
    {
        ProcessorData data => data.RemoteOutMilliamperes / 1000,
        SourceData data => data.RemoteOutMilliamperes / 1000,
        AccessoryData data => data.RelayContactAmperes,
        _ => null,
    };

    // Those of one line are switched together.
    private double? AmperesOf(JobPart part) => (double)part.Quantity * part.Data switch
    {
        AccessoryData { RelayCoilOhms: { } coil } => lineVolts / coil,
        AmplifierData data => data.RemoteInMilliamperes / 1000,
        ProcessorData data => data.RemoteInMilliamperes / 1000,
        AccessoryData data => data.RemoteInMilliamperes / 1000,
        _ => null,
    };

    private static TurnOnStage StageOf(JobPart part) => part.Kind switch
    {
        PartKind.Source => TurnOnStage.Source,
        PartKind.Processor => TurnOnStage.Processor,
        PartKind.Amplifier => TurnOnStage.Amplifier,
        _ => TurnOnStage.Other,
    };

    private TurnOnDevice DeviceOf(JobPart part, double? delay)
    {
        var relay = part.Data as AccessoryData;
        return new TurnOnDevice
        {
            Id = part.Id.ToString(),
            Name = part.Name,
            Stage = StageOf(part),
            TurnOnAmperes = AmperesOf(part),
            RelayCoilOhms = relay?.RelayCoilOhms / (double)part.Quantity,
            CoilSuppressed = relay?.Suppression == CoilSuppression.BuiltIn,
            SettleSeconds = part.Data switch { ProcessorData data => data.SettleSeconds, SourceData data => data.SettleSeconds, _ => null },
            SetDelaySeconds = delay,
        };
    }
}
