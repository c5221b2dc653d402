using System.Globalization;
using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Runs;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Maps the links of a job to its loudspeaker and signal runs.</summary>
internal sealed class SignalMapping(IReadOnlyList<JobPart> installed, IReadOnlyList<SignalLink> links, BudgetSettingsForm settings, UnitText text)
{
    private readonly List<Finding> _findings = [];
    private readonly List<LinkCable> _cables = [];
    private readonly List<string> _suggested = [];
    private readonly HashSet<string> _undecided = [];

    public SignalPlanView View(Guid jobId)
    {
        List<SpeakerRow> speakers = [.. installed.Where(part => part.Data is LoudspeakerData).SelectMany(Speakers)];
        List<SignalRow> signals = [.. installed.Where(part => part.Data is ProcessorData or AmplifierData).Select(Signal)];
        foreach (var link in links.Where(link => link.Kind == SignalKind.TurnOn))
        {
            TurnOnCable(link);
        }

        SignalFindings.Loads(installed, links, text, _findings);
        if (_suggested.Count > 0)
        {
            _findings.Add(new Finding(
                "link-length-suggested", Severity.Note, "link-lengths", "Lengths of loudspeaker and signal runs", $"Suggested by place, not measured: {string.Join(", ", _suggested)}.",
                "Measure each route and enter it before cutting.", Unsourced.CommonPractice));
        }

        var cuts = CableCutList.Compute(
            new CableCutListInput { Cuts = [.. _cables.Select(cable => new CableCut(cable.RunId, cable.Name, cable.SizeLabel, cable.LengthMeters, Conductors: cable.Pieces))] }, text);
        return new SignalPlanView
        {
            JobId = jobId,
            Settings = settings,
            Speakers = speakers,
            Signals = signals,
            Outputs = [.. installed.Where(part => part.Data is AmplifierData).SelectMany(Ports)],
            Cuts = cuts,
            Cables = _cables,
            Undecided = _cables.Where(cable => cable.LengthMeters is null).Select(cable => cable.RunId).Concat(_undecided).ToHashSet(),
            Findings = [.. _findings.Concat(cuts.Findings).OrderByDescending(finding => finding.Severity)],
        };
    }

    /// <summary>Impedance of a loudspeaker as its coils are joined, Ω.</summary>
    public static double? LoadOhms(LoudspeakerData data, CoilUse use) => use switch
    {
        CoilUse.AllInParallel => data.NominalOhms / SignalPorts.Coils(data),
        CoilUse.AllInSeries => data.NominalOhms * SignalPorts.Coils(data),
        _ => data.NominalOhms,
    };

    private static IEnumerable<PortChoice> Ports(JobPart part) =>
        Enumerable.Range(0, SignalPorts.Outputs(part, SignalKind.Sound)).Select(output => new PortChoice(part.Id, output, SignalPorts.NameOfOutput(part, output)));

    private JobPart? Part(Guid? id) => id is null ? null : installed.FirstOrDefault(part => part.Id == id);

    private IEnumerable<SpeakerRow> Speakers(JobPart part)
    {
        var coils = SignalPorts.Coils((LoudspeakerData)part.Data);
        for (var unit = 0; unit < SignalPorts.Units(part); unit++)
        {
            var mine = links.Where(link => link.Kind == SignalKind.Sound && link.ToPartId == part.Id && link.ToInput / coils == unit).ToList();
            var first = unit * coils;
            IEnumerable<int> inputs = mine.Exists(link => link.Form.Coils == CoilUse.OneCoil) ? Enumerable.Range(first, coils) : [first];
            foreach (var input in inputs)
            {
                yield return Speaker(part, input, coils, mine.Find(link => link.ToInput == input), mine.Count > 0);
            }
        }
    }

    private SpeakerRow Speaker(JobPart part, int input, int coils, SignalLink? link, bool coilsApart)
    {
        var use = link?.Form.Coils ?? (coilsApart && coils > 1 ? CoilUse.OneCoil : CoilUse.AllInParallel);
        var name = SignalPorts.NameOfLoudspeaker(part, input, use);
        var ohms = LoadOhms((LoudspeakerData)part.Data, use);
        if (link is null || Part(link.Form.FromPartId) is not { } amplifier)
        {
            _findings.Add(link is null
                ? new Finding("speaker-not-fed", Severity.Note, $"speaker:{part.Id}:{input}", name, "Which output feeds it is not decided, so its cable is not sized.", "Choose the output.", "needed for the runs")
                : SignalFindings.SourceGone(link, name));
            return new SpeakerRow(part.Id, input, coils, name, link?.Form, link?.Version ?? Guid.Empty, "", null, ohms, null, false, null);
        }

        var to = SignalPorts.ZoneOf(part, input / coils);
        var length = Length(link.Form.LengthMeters, amplifier.Zone, to, name);
        var runId = SignalLink.CablePrefix + link.Id;
        var listed = installed.FirstOrDefault(found => found.PlanRunId == runId && found.Data is CableData);
        var area = (listed is null ? null : PlanPartsCheck.AreaOf((CableData)listed.Data)) ?? SignalPorts.Gauge(link.Form.Awg)?.AreaSquareMillimeters;
        if (ohms is null)
        {
            _findings.Add(new Finding("speaker-ohms-missing", Severity.Warn, part.Id.ToString(), part.Name, "Its impedance is not known, so its cable is not sized.", "Enter it on the part.", "needed for loss and damping"));
        }

        var chosen = SignalPorts.Gauge(link.Form.Awg) ?? (listed is null ? TwinGauge(part, coils) : null);
        var result = length is null || ohms is null ? null : Run(link, name, length.Value, ohms.Value, area ?? chosen?.AreaSquareMillimeters, amplifier);
        var used = listed is not null && area is { } mm2 ? new ConductorSize(text.Of(mm2, QuantityKind.ConductorArea), mm2) : chosen ?? result?.LeastConductor;
        // What is on the list stays there as the wish even when it is too thin; the finding says so.
        var wanted = chosen ?? result?.LeastConductor;
        if (wanted is not null)
        {
            _cables.Add(new LinkCable(runId, name, CablePurpose.Loudspeaker, wanted.AreaSquareMillimeters, listed?.Name ?? $"{wanted.Label} pair", length, 1, amplifier.Zone, to));
        }
        else
        {
            _undecided.Add(runId);
        }

        return new SpeakerRow(part.Id, input, coils, name, link.Form, link.Version, SignalPorts.NameOfOutput(amplifier, link.Form.FromOutput), length, ohms, used, listed is not null, result);
    }

    // Both of a pair get the gauge the longer way needs, so that left and right lose the same.
    private ConductorSize? TwinGauge(JobPart part, int coils)
    {
        if (SignalPorts.Units(part) < 2)
        {
            return null;
        }

        var least =
            from link in links
            where link.Kind == SignalKind.Sound && link.ToPartId == part.Id
            let amplifier = Part(link.Form.FromPartId)
            let ohms = LoadOhms((LoudspeakerData)part.Data, link.Form.Coils)
            where amplifier is not null && ohms is not null
            let length = link.Form.LengthMeters ?? SignalPorts.SuggestedMeters(amplifier.Zone, SignalPorts.ZoneOf(part, link.ToInput / coils))
            where length is not null
            let input = InputOf(link, part.Name, length.Value, ohms.Value, null, amplifier) // filtered
            where input.Validate(text).Count == 0
            select SpeakerRun.Compute(input, text).LeastConductor;
        return least.Where(size => size is not null).MaxBy(size => size!.AreaSquareMillimeters); // filtered
    }

    private SpeakerRunInput InputOf(SignalLink link, string name, double length, double ohms, double? area, JobPart amplifier) => new()
    {
        Id = $"speaker-run:{link.Id}",
        Name = name,
        LengthMeters = length,
        AreaSquareMillimeters = area,
        LoadOhms = ohms,
        MinimumOhms = MinimumOf(link, ohms),
        AmplifierDampingFactor = (amplifier.Data as AmplifierData)?.DampingFactor,
        MaxLossDecibels = settings.MaxSpeakerLossDecibels,
        MinDampingFactor = settings.MinDampingFactor,
    };

    // As many times a coil's as the load is; a stated one above the nominal load is no reason to promise less loss.
    private double? MinimumOf(SignalLink link, double ohms) =>
        Part(link.ToPartId)?.Data is LoudspeakerData { MinimumOhms: { } least, NominalOhms: { } nominal } ? Math.Clamp(least * ohms / nominal, Math.Min(0.2, ohms), ohms) : null;

    private SpeakerRunResult? Run(SignalLink link, string name, double length, double ohms, double? area, JobPart amplifier)
    {
        var input = InputOf(link, name, length, ohms, area, amplifier);
        var result = BudgetFacts.Ask(input.Id, name, input.Validate(text), _findings, () => SpeakerRun.Compute(input, text));
        // The amplifier's own lack is told once, about the amplifier.
        _findings.AddRange((result?.Findings ?? []).Where(finding => finding.Code != "amplifier-damping-missing"));
        if (input.AmplifierDampingFactor is null && !_findings.Exists(finding => finding.Code == "amplifier-damping-missing" && finding.SubjectId == amplifier.Id.ToString()))
        {
            _findings.AddRange((result?.Findings ?? []).Where(finding => finding.Code == "amplifier-damping-missing").Select(finding => finding with { SubjectId = amplifier.Id.ToString(), Subject = amplifier.Name }));
        }

        return result;
    }

    private SignalRow Signal(JobPart part)
    {
        var mine = links.Where(link => link.Kind == SignalKind.Sound && link.ToPartId == part.Id).ToList();
        _findings.AddRange(mine.Where(link => link.Form.FromPartId is not null && Part(link.Form.FromPartId) is null).Select(link => SignalFindings.SourceGone(link, part.Name)));
        var groups = mine.Where(link => Part(link.Form.FromPartId) is not null).GroupBy(link => (From: link.Form.FromPartId!.Value, Kind: KindOf(link))).ToList(); // filtered
        var results = groups.Select(group => Cable(part, Part(group.Key.From)!, group.Key.Kind, [.. group])).ToList(); // filtered
        var choices = installed
            .Where(other => other.Id != part.Id && (part.Kind == PartKind.Amplifier ? other.Kind is PartKind.Processor or PartKind.Source : other.Kind == PartKind.Source || other.Data is ProcessorData { Use: not ProcessorUse.SignalProcessor }))
            .Select(other => new PortChoice(other.Id, 0, other.Name));
        var single = groups.Count == 1;
        return new SignalRow(
            part.Id, part.Name, single ? groups[0].Key.From : null, string.Join(", ", groups.Select(group => Part(group.Key.From)!.Name).Distinct()), mine.Count, SignalPorts.Inputs(part, SignalKind.Sound),
            single ? results[0].Length : null, single && groups[0].All(link => link.Form.LengthMeters is not null), [.. mine.Select(link => link.Version)], [.. choices], single ? results[0].Result : null);
    }

    private PortKind KindOf(SignalLink link) => Part(link.Form.FromPartId) is { } from && SoundPort.Output(from, link.Form.FromOutput) is { } end ? end.Port.Kind : PortKind.UnbalancedLine;

    private static string CableOf(PortKind kind) => kind switch
    {
        PortKind.Optical => "Optical fibre",
        PortKind.Coaxial => "Coaxial digital cable, 75 Ω",
        PortKind.Usb => "USB cable",
        PortKind.VehicleBus => "Cable of the vehicle's bus",
        PortKind.SpeakerLevel => "Twisted pairs, speaker level",
        _ => "Screened twin signal cable",
    };

    private (double? Length, SignalRunResult? Result) Cable(JobPart part, JobPart source, PortKind kind, List<SignalLink> group)
    {
        var name = $"{source.Name} to {part.Name}";
        var length = Length(group[0].Form.LengthMeters, source.Zone, part.Zone, name);
        // A twin cable carries two channels.
        var runId = string.Create(CultureInfo.InvariantCulture, $"{SignalLink.CablePrefix}{source.Id}:{part.Id}{(kind.IsAnalog() ? "" : $":{kind}")}");
        if (kind == PortKind.Wireless)
        {
            return (length, null);
        }

        var listed = installed.FirstOrDefault(found => found.PlanRunId == runId);
        _cables.Add(new LinkCable(runId, name, CablePurpose.Signal, null, listed?.Name ?? CableOf(kind), length, (group.Count + 1) / 2, source.Zone, part.Zone));
        var ohms = source.Data switch { ProcessorData data => data.OutputOhms, SourceData data => data.OutputOhms, _ => null };
        // Loss at high frequencies is asked of an analogue cable alone.
        if (ohms is null || length is null || !kind.IsAnalog())
        {
            return (length, null);
        }

        var input = new SignalRunInput { Id = runId, Name = name, LengthMeters = length.Value, SourceOhms = ohms.Value };
        var result = BudgetFacts.Ask(runId, name, input.Validate(text), _findings, () => SignalRun.Compute(input, text));
        _findings.AddRange(result?.Findings ?? []);
        return (length, result);
    }

    private void TurnOnCable(SignalLink link)
    {
        if (Part(link.Form.FromPartId) is { } from && Part(link.ToPartId) is { } to)
        {
            var length = Length(link.Form.LengthMeters, from.Zone, to.Zone, $"turn-on of {to.Name}");
            var runId = SignalLink.CablePrefix + link.Id;
            var listed = installed.FirstOrDefault(found => found.PlanRunId == runId);
            _cables.Add(new LinkCable(runId, $"Turn-on, {from.Name} to {to.Name}", CablePurpose.Control, SignalFindings.ControlWireSquareMillimeters, listed?.Name ?? "Control wire", length, 1, from.Zone, to.Zone));
        }
    }

    private double? Length(double? measured, string from, string to, string name)
    {
        if (measured is not null)
        {
            return measured;
        }

        var suggested = SignalPorts.SuggestedMeters(from, to);
        if (suggested is not null)
        {
            _suggested.Add(name);
        }

        return suggested;
    }
}
