using System.ComponentModel.DataAnnotations;
using System.Globalization;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Tuning.Measurements;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Phases.Tuning.Measurements;

/// <summary>What a file of a measurement holds.</summary>
public enum MeasurementSource
{
    /// <summary>A table of frequency, level and perhaps phase.</summary>
    Table,

    /// <summary>The recording of an exponential sweep.</summary>
    Sweep,

    /// <summary>The recording of pink noise: levels alone.</summary>
    PinkNoise,

    /// <summary>An impulse response as a sound file.</summary>
    Impulse,
}

public enum ListeningSeat
{
    Driver,
    FrontPassenger,
    RearLeft,
    RearRight,
}

/// <summary>Where the microphone stood at the seat. Positions of one seat are averaged.</summary>
public enum MicrophonePlace
{
    HeadMiddle,
    LeftEar,
    RightEar,
    Forward,
    Back,
    Above,
    Below,
}

/// <summary>One measurement of a channel: the file with its bytes as they came, and how it is read.</summary>
public sealed record MeasurementForm : IDesignForm
{
    public static DesignKind Kind => DesignKind.TuningMeasurement;

    public static Permission Needed => Permission.WorkOnJobs;

    /// <summary>Id of a <see cref="TuningChannel"/>.</summary>
    [Display(Name = "Channel")]
    public string ChannelId { get; set; } = "";

    [Display(Name = "Seat")]
    public ListeningSeat Seat { get; set; }

    [Display(Name = "Microphone")]
    public MicrophonePlace Place { get; set; }

    /// <summary>Preset in the car while it was measured; empty for no equaliser, delay or crossover beyond the protective filter.</summary>
    [Display(Name = "Preset in the car")]
    public string Preset { get; set; } = "";

    [Display(Name = "File")]
    public Guid FileId { get; set; }

    [Display(Name = "What the file holds")]
    public MeasurementSource Source { get; set; }

    /// <summary>How a table is read, as somebody confirmed it.</summary>
    [Display(Name = "Columns")]
    public ResponseTableLayout? Layout { get; set; }

    /// <summary>The sweep that was played.</summary>
    [Display(Name = "Sweep")]
    public ExponentialSweep? Sweep { get; set; }

    /// <summary>Channel of the microphone in a sound file, from 0.</summary>
    [Display(Name = "Microphone's channel")]
    public int WaveChannel { get; set; }

    /// <summary>Channel of the electrical loopback, from 0. With it all arrivals stand on one clock.</summary>
    [Display(Name = "Loopback's channel")]
    public int? LoopbackChannel { get; set; }

    [Display(Name = "Microphone's calibration")]
    public Guid? CalibrationFileId { get; set; }

    /// <summary>Distance by tape, m: gives the arrival where the file has none on a common clock.</summary>
    [Display(Name = "Distance by tape (m)")]
    public double? DistanceMeters { get; set; }

    /// <summary>Taken with the microphone of a tablet or phone: its own response and level are not known.</summary>
    [Display(Name = "With the tablet's microphone")]
    public bool Relative { get; set; }

    [Display(Name = "Measured by")]
    public string MeasuredBy { get; set; } = "";

    [Display(Name = "Measured at")]
    public DateTimeOffset MeasuredAt { get; set; }

    [Display(Name = "Remarks")]
    public string Remarks { get; set; } = "";

    public MeasurementForm Copy() => this with { };

    public List<Problem> Problems()
    {
        var check = new Check()
            .Required(ChannelId, nameof(ChannelId), "The channel")
            .That(FileId != Guid.Empty, nameof(FileId), "The file is needed.")
            .Longest(Preset, nameof(Preset), "The preset", Limits.Name)
            .Longest(MeasuredBy, nameof(MeasuredBy), "The name", Limits.Name)
            .Longest(Remarks, nameof(Remarks), "The remarks", Limits.Note)
            .Range(WaveChannel, nameof(WaveChannel), "The microphone's channel", 0, 63, "")
            .Range(LoopbackChannel, nameof(LoopbackChannel), "The loopback's channel", 0, 63, "")
            .Range(DistanceMeters, nameof(DistanceMeters), "The distance", 0.05, 10, "m")
            .That(Source != MeasurementSource.Table || Layout is not null, nameof(Layout), "Say which column is what.")
            .That(Source != MeasurementSource.Sweep || Sweep is not null, nameof(Sweep), "Say which sweep was played.")
            .That(LoopbackChannel != WaveChannel, nameof(LoopbackChannel), string.Create(CultureInfo.CurrentCulture, $"Channel {WaveChannel + 1} is the microphone's already."));
        return [.. check.Problems, .. Inner(nameof(Layout), Source == MeasurementSource.Table ? Layout?.Validate() : null), .. Inner(nameof(Sweep), Source == MeasurementSource.Sweep ? Sweep?.Validate() : null)];
    }

    private static IEnumerable<Problem> Inner(string field, IReadOnlyList<InputProblem>? problems) =>
        (problems ?? []).Select(problem => new Problem($"{field}.{problem.Field}", problem.Message));
}
