using ShopFloor.Engineering.Electrical.Fusing;

namespace ShopFloor.Engineering.Electrical;

/// <summary>Form of a fuse, named after the parts of ISO 8820.</summary>
public enum FuseForm
{
    /// <summary>Small blade (ISO 8820-3).</summary>
    MiniBlade,

    /// <summary>Blade (ISO 8820-3).</summary>
    Blade,

    /// <summary>High-current blade (ISO 8820-3).</summary>
    HighCurrentBlade,

    /// <summary>Small bolt-in (ISO 8820-5).</summary>
    BoltInSmall,

    /// <summary>Large bolt-in (ISO 8820-5).</summary>
    BoltInLarge,

    /// <summary>Block with female contacts (ISO 8820-4).</summary>
    FemaleBlock,

    /// <summary>Long bolted strip; in no part of ISO 8820 known here.</summary>
    Strip,
}

/// <summary>The ratings made in one form.</summary>
/// <param name="Form">Form.</param>
/// <param name="Name">Plain name.</param>
/// <param name="RatingsAmperes">Ratings, A, rising.</param>
/// <param name="InterruptAmperes">Short-circuit current the form can interrupt, A.</param>
/// <param name="VoltageRating">Highest circuit voltage, V DC.</param>
/// <param name="Source">Where the values come from.</param>
public sealed record FuseSeries(
    FuseForm Form, string Name, IReadOnlyList<double> RatingsAmperes, double InterruptAmperes, double VoltageRating, string Source)
{
    /// <summary>Where <see cref="InterruptAmperes"/> comes from.</summary>
    public string InterruptSource { get; init; } = ElectricalDefaults.InterruptSource;

    /// <summary>Whether that figure is only the one remembered for the form, so that the maker's may be higher or lower.</summary>
    public bool InterruptIsFromMemory => InterruptSource == ElectricalDefaults.InterruptSource;

    /// <summary>How fast it opens, or null when only the maker's curve can say.</summary>
    public FuseCurve? Curve { get; init; }
}

/// <summary>A fuse chosen for a run.</summary>
/// <param name="RatingAmperes">Rating, A.</param>
/// <param name="Form">Form, or null when the rating is in no series of the shop.</param>
/// <param name="FormName">Plain name of the form.</param>
/// <param name="InterruptAmperes">Short-circuit current it can interrupt, A, or null when unknown.</param>
/// <param name="VoltageRating">Highest circuit voltage, V DC, or null when unknown.</param>
public sealed record FuseChoice(
    double RatingAmperes, FuseForm? Form, string FormName, double? InterruptAmperes, double? VoltageRating)
{
    /// <summary>Where <see cref="InterruptAmperes"/> comes from.</summary>
    public string InterruptSource { get; init; } = ElectricalDefaults.InterruptSource;

    /// <summary>Whether that figure is only the one remembered for the form, so that the maker's may be higher or lower.</summary>
    public bool InterruptIsFromMemory => InterruptSource == ElectricalDefaults.InterruptSource;
}

/// <summary>A fuse at hand whose maker states what it interrupts.</summary>
/// <param name="Form">Form.</param>
/// <param name="RatingAmperes">Rating, A.</param>
/// <param name="InterruptAmperes">Short-circuit current its maker states, A (10 to 1 000 000).</param>
public sealed record FittedFuse(FuseForm Form, double RatingAmperes, double InterruptAmperes);
