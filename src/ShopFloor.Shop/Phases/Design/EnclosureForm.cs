using System.ComponentModel.DataAnnotations;
using System.Globalization;
using System.Text.Json.Serialization;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>A box for a loudspeaker of the job, in one to three alternatives of which one is to be built.</summary>
public sealed record EnclosureForm : IDesignForm
{
    /// <summary>As many as can still be told apart in one plot.</summary>
    public const int MostAlternatives = 3;

    public static DesignKind Kind => DesignKind.Enclosure;

    public static Permission Needed => Permission.DesignJobs;

    [Display(Name = "Loudspeaker")]
    public Guid? LoudspeakerPartId { get; set; }

    [Display(Name = "Loudspeakers in the box")]
    public int Count { get; set; } = 1;

    /// <summary>Null takes what the links say.</summary>
    [Display(Name = "Voice coils")]
    public CoilUse? Coils { get; set; }

    [Display(Name = "Loudspeakers in series")]
    public bool InSeries { get; set; }

    /// <summary>In pairs one behind the other on one opening.</summary>
    [Display(Name = "Isobaric pairs")]
    public bool Isobaric { get; set; }

    /// <summary>Null takes what the amplifier of the links has for it.</summary>
    [Display(Name = "Power for the box (W)")]
    public double? Watts { get; set; }

    [Display(Name = "Rise in the cabin ends below (Hz)")]
    public double? CabinLeakHertz { get; set; }

    /// <summary>A table of what the cabin adds, measured in this car; takes the place of the estimate.</summary>
    [Display(Name = "Measured in the car")]
    public Guid? TransferFileId { get; set; }

    /// <summary>Frequency at which the measured table is taken as 0 dB; null takes its levels as they are.</summary>
    [Display(Name = "Measurement is 0 dB at (Hz)")]
    public double? TransferZeroHertz { get; set; }

    [Display(Name = "Alternatives")]
    public List<BoxAlternative> Alternatives { get; set; } = [new()];

    [Display(Name = "To be built")]
    public int Chosen { get; set; }

    [Display(Name = "Size inside")]
    public BoxVolumeForm Volume { get; set; } = new();

    /// <summary>The chamber before the driver, of a band-pass.</summary>
    [Display(Name = "Size inside before the cone")]
    public BoxVolumeForm FrontVolume { get; set; } = new();

    /// <summary>Whether basket and magnet stand in the chamber before the cone, of a band-pass.</summary>
    [Display(Name = "Magnet in the front chamber")]
    public bool MagnetInFront { get; set; }

    [Display(Name = "For whoever opens it")]
    public MadeNotes Made { get; set; } = new();

    [Display(Name = "Remarks")]
    public string Remarks { get; set; } = "";

    public static string Letter(int index) => ((char)('A' + index)).ToString();

    [JsonIgnore]
    public BoxAlternative Built => Alternatives[Math.Clamp(Chosen, 0, Alternatives.Count - 1)];

    /// <summary>A copy whose parts are its own.</summary>
    public EnclosureForm Copy() => this with { Made = Made with { }, Alternatives = [.. Alternatives.Select(each => each.Copy())], Volume = Volume.Copy(), FrontVolume = FrontVolume.Copy() };

    public List<Problem> Problems()
    {
        var check = new Check()
            .That(LoudspeakerPartId is not null, nameof(LoudspeakerPartId), "The loudspeaker is needed.")
            .Range(Count, nameof(Count), "The number of loudspeakers", 1, 16, "")
            .That(!Isobaric || Count % 2 == 0, nameof(Count), string.Create(CultureInfo.CurrentCulture, $"{Count} loudspeakers do not make isobaric pairs; accepted is 2, 4 or another even number up to 16."))
            .Range(TransferZeroHertz, nameof(TransferZeroHertz), "The frequency of 0 dB", 20, 500, "Hz")
            .Range(Watts, nameof(Watts), "The power for the box", 1, 20_000, "W")
            .Range(CabinLeakHertz, nameof(CabinLeakHertz), "The end of the rise in the cabin", 1, 100, "Hz")
            .Longest(Remarks, nameof(Remarks), "The remarks", Limits.Note)
            .That(Alternatives.Count is >= 1 and <= MostAlternatives, nameof(Alternatives), string.Create(CultureInfo.CurrentCulture, $"There are {Alternatives.Count} alternatives; accepted is 1 to {MostAlternatives}."))
            .That(Chosen >= 0 && Chosen < Alternatives.Count, nameof(Chosen), "The alternative to be built is not among them.");
        foreach (var (alternative, index) in Alternatives.Select((each, index) => (each, index)))
        {
            alternative.AddProblems(check, index);
        }

        Made.AddProblems(check, nameof(Made));
        Volume.AddProblems(check, nameof(Volume), "");
        FrontVolume.AddProblems(check, nameof(FrontVolume), " before the cone");
        return check.Problems;
    }
}
