using System.ComponentModel.DataAnnotations;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Tuning.Measurements;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Tuning.Measurements;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Phases.Tuning.Factory;

/// <summary>One measurement at the wires of a factory output. A kind of its own, so that no list of tuned channels ever holds one.</summary>
public sealed record FactoryMeasurementForm : IDesignForm
{
    // The side is written behind it where it is listed.
    private const int LongestName = 150;

    public static DesignKind Kind => DesignKind.FactoryMeasurement;

    public static Permission Needed => Permission.WorkOnJobs;

    [Display(Name = "Output")]
    public FactoryOutputRef Output { get; init; } = new();

    [Display(Name = "File")]
    public Guid FileId { get; init; }

    [Display(Name = "What the file holds")]
    public MeasurementSource Source { get; init; }

    [Display(Name = "Columns")]
    public ResponseTableLayout? Layout { get; init; }

    [Display(Name = "Sweep")]
    public ExponentialSweep? Sweep { get; init; }

    /// <summary>Channel of the output in a sound file, from 0.</summary>
    [Display(Name = "The output's channel")]
    public int WaveChannel { get; init; }

    /// <summary>Channel of the reference, the played signal by wire, from 0. With it all outputs stand on one clock.</summary>
    [Display(Name = "The reference's channel")]
    public int? LoopbackChannel { get; init; }

    [Display(Name = "Measured by")]
    public string MeasuredBy { get; init; } = "";

    [Display(Name = "Measured at")]
    public DateTimeOffset MeasuredAt { get; init; }

    [Display(Name = "Remarks")]
    public string Remarks { get; init; } = "";

    /// <summary>A file as it was made ready to be read, for one output.</summary>
    public static FactoryMeasurementForm Of(FactoryOutputRef output, MeasurementForm read)
    {
        ArgumentNullException.ThrowIfNull(read);
        return new FactoryMeasurementForm
        {
            Output = output, FileId = read.FileId, Source = read.Source, Layout = read.Layout, Sweep = read.Sweep, WaveChannel = read.WaveChannel, LoopbackChannel = read.LoopbackChannel, Remarks = read.Remarks,
        };
    }

    /// <summary>How its file is read: as any other measurement's, without a microphone.</summary>
    public MeasurementForm AsRead() => new() { ChannelId = Output.Key, FileId = FileId, Source = Source, Layout = Layout, Sweep = Sweep, WaveChannel = WaveChannel, LoopbackChannel = LoopbackChannel, MeasuredBy = MeasuredBy, Remarks = Remarks };

    public List<Problem> Problems() =>
    [
        .. new Check()
            .Required(Output.Name, nameof(FactoryOutputRef.Name), "The name of the output", LongestName)
            .That(Output.Side is ImageSide.Left or ImageSide.Right, nameof(FactoryOutputRef.Side), "Say whether it plays left or right: only the outputs of one side are added up.")
            .That(Source != MeasurementSource.PinkNoise, nameof(Source), "Noise has no phase; measure a factory output with a sweep and a reference, or bring a table with phase.")
            .That(Source != MeasurementSource.Sweep || LoopbackChannel is not null, nameof(LoopbackChannel), "Say which channel holds the reference: without it the outputs have no clock in common.")
            .That(Source != MeasurementSource.Table || Layout is not { PhaseColumn: null }, nameof(Layout), "The table has no phase; choose its column, or export it with phase.")
            .Problems,
        .. AsRead().Problems(),
    ];
}
