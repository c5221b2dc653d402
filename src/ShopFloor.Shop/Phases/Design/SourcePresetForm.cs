using System.ComponentModel.DataAnnotations;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Where the client turns the volume while a source plays.</summary>
public enum VolumePlace
{
    /// <summary>Nobody said; what the path tells is shown as a guess.</summary>
    NotSaid,

    /// <summary>At the source: its output moves with it.</summary>
    Source,

    /// <summary>At the processor's own control.</summary>
    Processor,

    /// <summary>At the knob and the buttons the car came with.</summary>
    FactoryControls,
}

/// <summary>What becomes of chimes, navigation and telephone while a source plays.</summary>
public enum SoundsDuring
{
    NotSaid,

    /// <summary>Mixed over it.</summary>
    HeardOverIt,

    /// <summary>It is lowered or switched off for them by itself.</summary>
    ItMakesRoom,

    /// <summary>Heard from a loudspeaker of their own.</summary>
    OwnLoudspeaker,

    /// <summary>Not heard until somebody switches back: to be mended or told.</summary>
    NotHeard,
}

/// <summary>What of a source's use neither parts nor path can know. How it is switched to stands on the part and is not asked again.</summary>
public sealed record SourcePresetForm : IDesignForm
{
    /// <summary>The source on the parts list; empty for the car's own sound.</summary>
    public Guid SourcePartId { get; set; }

    [Display(Name = "Volume is turned")]
    public VolumePlace Volume { get; set; }

    [Display(Name = "Chimes, navigation and telephone while it plays")]
    public SoundsDuring Sounds { get; set; }

    [Display(Name = "Worth telling the client")]
    public string Notes { get; set; } = "";

    public static DesignKind Kind => DesignKind.SourcePreset;

    public static Permission Needed => Permission.DesignJobs;

    public List<Problem> Problems() => new Check()
        .That(Enum.IsDefined(Volume), nameof(Volume), $"'{Volume}' is no place to turn the volume; accepted are {string.Join(", ", Enum.GetNames<VolumePlace>())}.")
        .That(Enum.IsDefined(Sounds), nameof(Sounds), $"'{Sounds}' is not known; accepted are {string.Join(", ", Enum.GetNames<SoundsDuring>())}.")
        .Longest(Notes, nameof(Notes), "The note", Limits.Line)
        .Problems;
}
