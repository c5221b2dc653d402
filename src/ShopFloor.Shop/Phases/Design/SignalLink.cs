using System.ComponentModel.DataAnnotations;
using System.Globalization;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What a link carries.</summary>
public enum SignalKind
{
    /// <summary>Sound, at line level or to a loudspeaker.</summary>
    Sound,

    /// <summary>The remote turn-on voltage.</summary>
    TurnOn,
}

/// <summary>How the coils of one loudspeaker are joined at the output that feeds it.</summary>
public enum CoilUse
{
    AllInParallel,
    AllInSeries,

    /// <summary>The coil of the input alone; the others are fed on their own or left open.</summary>
    OneCoil,
}

/// <summary>How the cable of a link lies to the cables of the supply.</summary>
public enum LinkLay
{
    NotSaid,

    /// <summary>A hand's width away or more.</summary>
    Free,

    /// <summary>Beside one for some way.</summary>
    AlongSupply,

    /// <summary>Over or under one, at about a right angle.</summary>
    CrossesSupply,
}

/// <summary>
/// One output of a part feeding one input of another. Inputs are counted from 0: channels of an amplifier or processor; voice coils of a line
/// of loudspeakers, unit by unit; the one turn-on input of a device. An input has at most one link, an output may have several.
/// </summary>
public sealed class SignalLink : IAudited, IVersioned
{
    /// <summary>Begins the run id of parts-list lines that belong to links, so that the electrical plan leaves them alone.</summary>
    public const string CablePrefix = "link:";

    public SignalLink(Guid jobId, SignalKind kind, Guid toPartId, int toInput, SignalLinkForm form)
    {
        Id = Guid.CreateVersion7();
        JobId = jobId;
        Kind = kind;
        ToPartId = toPartId;
        ToInput = toInput;
        Form = form;
    }

    private SignalLink()
    {
    }

    public Guid Id { get; private set; }

    public Guid Version { get; private set; }

    public Guid JobId { get; private set; }

    public SignalKind Kind { get; private set; }

    public Guid ToPartId { get; private set; }

    public int ToInput { get; private set; }

    public SignalLinkForm Form { get; private set; } = new();

    public void Apply(SignalLinkForm form) => Form = form;

    string IAudited.AuditName => Kind == SignalKind.TurnOn ? "Turn-on link" : string.Create(CultureInfo.InvariantCulture, $"Signal link to input {ToInput + 1}");

    Guid? IAudited.AuditJobId => JobId;
}

/// <summary>What somebody decides about a link.</summary>
public sealed record SignalLinkForm
{
    /// <summary>Null for the car itself: its accessory line, or its own sound.</summary>
    [Display(Name = "Comes from")]
    public Guid? FromPartId { get; set; }

    [Display(Name = "Output")]
    public int FromOutput { get; set; }

    [Display(Name = "Coils")]
    public CoilUse Coils { get; set; }

    /// <summary>Shares its output with others, each in its own range of frequencies, so that they do not lie side by side.</summary>
    [Display(Name = "Behind a passive crossover")]
    public bool BehindCrossover { get; set; }

    [Display(Name = "Measured length, one way (m)")]
    public double? LengthMeters { get; set; }

    [Display(Name = "Conductor size")]
    public string? Awg { get; set; }

    /// <summary>Plus and minus changed over at the loudspeaker.</summary>
    [Display(Name = "Plus and minus changed over")]
    public bool Inverted { get; set; }

    [Display(Name = "Its cable lies")]
    public LinkLay Lies { get; set; }

    [Display(Name = "Delay after what turns it on (s)")]
    public double? DelaySeconds { get; set; }

    public List<Problem> Problems() => new Check()
        .Range(FromOutput, nameof(FromOutput), "The output", 0, SignalPorts.Most - 1, "")
        .Range(LengthMeters, nameof(LengthMeters), "The length", 0.05, 30, "m")
        .That(Enum.IsDefined(Lies), nameof(Lies), $"'{Lies}' is no way a cable lies; accepted are {string.Join(", ", Enum.GetNames<LinkLay>())}.")
        .Range(DelaySeconds, nameof(DelaySeconds), "The delay", 0, 60, "s")
        .That(
            string.IsNullOrWhiteSpace(Awg) || SignalPorts.Gauge(Awg) is not null,
            nameof(Awg),
            $"'{Awg}' is no size kept for loudspeakers; accepted are {string.Join(", ", SignalPorts.Gauges.Select(size => size.Label))}.")
        .Problems;
}
