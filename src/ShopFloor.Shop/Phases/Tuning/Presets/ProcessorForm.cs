using System.ComponentModel.DataAnnotations;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Processors;

namespace ShopFloor.Shop.Phases.Tuning.Presets;

/// <summary>A processor as it is typed from its maker's sheet. Fields are named as those of the profile, so that what is wrong finds its place.</summary>
public sealed record ProcessorForm
{
    [Display(Name = "Name")]
    public string Name { get; set; } = "";

    [Display(Name = "Sample rate (Hz)")]
    public double SampleRateHertz { get; set; }

    [Display(Name = "Channels")]
    public int Channels { get; set; }

    [Display(Name = "Filters of a channel")]
    public int FiltersPerChannel { get; set; }

    [Display(Name = "Filters of an input")]
    public int FiltersPerInput { get; set; }

    [Display(Name = "Step of the delay (s)")]
    public double? DelayStepSeconds { get; set; }

    [Display(Name = "Largest delay (s)")]
    public double MaximumDelaySeconds { get; set; }

    [Display(Name = "Step of the gain (dB)")]
    public double GainStepDecibels { get; set; }

    [Display(Name = "Lowest level (dB)")]
    public double LeastLevelDecibels { get; set; }

    [Display(Name = "Highest level (dB)")]
    public double LargestLevelDecibels { get; set; }

    [Display(Name = "Largest cut (dB)")]
    public double LeastFilterDecibels { get; set; }

    [Display(Name = "Largest boost (dB)")]
    public double LargestFilterDecibels { get; set; }

    [Display(Name = "Lowest Q")]
    public double LeastQ { get; set; }

    [Display(Name = "Highest Q")]
    public double LargestQ { get; set; }

    [Display(Name = "Step of Q")]
    public double QStep { get; set; }

    [Display(Name = "Step of the frequency (Hz)")]
    public double FrequencyStepHertz { get; set; }

    [Display(Name = "Lowest frequency (Hz)")]
    public double LeastHertz { get; set; }

    [Display(Name = "Highest frequency (Hz)")]
    public double LargestHertz { get; set; }

    [Display(Name = "Crossover shapes")]
    public IReadOnlyList<CrossoverShape> Shapes { get; set; } = [];

    [Display(Name = "Crossover slopes (dB/oct)")]
    public IReadOnlyList<int> SlopesDecibelsPerOctave { get; set; } = [];

    [Display(Name = "Shelves")]
    public bool Shelves { get; set; }

    [Display(Name = "All-passes")]
    public bool AllPasses { get; set; }

    [Display(Name = "Sign of a1 and a2")]
    public FeedbackSign FeedbackSign { get; set; }

    public static ProcessorForm Of(ProcessorProfile profile)
    {
        ArgumentNullException.ThrowIfNull(profile);
        return new ProcessorForm
        {
            Name = profile.Name,
            SampleRateHertz = profile.SampleRateHertz,
            Channels = profile.Channels,
            FiltersPerChannel = profile.FiltersPerChannel,
            FiltersPerInput = profile.FiltersPerInput,
            DelayStepSeconds = profile.DelayStepSeconds,
            MaximumDelaySeconds = profile.MaximumDelaySeconds,
            GainStepDecibels = profile.GainStepDecibels,
            LeastLevelDecibels = profile.LeastLevelDecibels,
            LargestLevelDecibels = profile.LargestLevelDecibels,
            LeastFilterDecibels = profile.LeastFilterDecibels,
            LargestFilterDecibels = profile.LargestFilterDecibels,
            LeastQ = profile.LeastQ,
            LargestQ = profile.LargestQ,
            QStep = profile.QStep,
            FrequencyStepHertz = profile.FrequencyStepHertz,
            LeastHertz = profile.LeastHertz,
            LargestHertz = profile.LargestHertz,
            Shapes = profile.Shapes,
            SlopesDecibelsPerOctave = profile.SlopesDecibelsPerOctave,
            Shelves = profile.Shelves,
            AllPasses = profile.AllPasses,
            FeedbackSign = profile.FeedbackSign,
        };
    }

    public ProcessorProfile Profile() => new()
    {
        Name = Name.Trim(),
        SampleRateHertz = SampleRateHertz,
        Channels = Channels,
        FiltersPerChannel = FiltersPerChannel,
        FiltersPerInput = FiltersPerInput,
        DelayStepSeconds = DelayStepSeconds,
        MaximumDelaySeconds = MaximumDelaySeconds,
        GainStepDecibels = GainStepDecibels,
        LeastLevelDecibels = LeastLevelDecibels,
        LargestLevelDecibels = LargestLevelDecibels,
        LeastFilterDecibels = LeastFilterDecibels,
        LargestFilterDecibels = LargestFilterDecibels,
        LeastQ = LeastQ,
        LargestQ = LargestQ,
        QStep = QStep,
        FrequencyStepHertz = FrequencyStepHertz,
        LeastHertz = LeastHertz,
        LargestHertz = LargestHertz,
        Shapes = Shapes,
        SlopesDecibelsPerOctave = SlopesDecibelsPerOctave,
        Shelves = Shelves,
        AllPasses = AllPasses,
        FeedbackSign = FeedbackSign,
    };
}
