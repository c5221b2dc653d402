namespace ShopFloor.Engineering.Electrical;

/// <summary>Which current the voltage drop limit is kept at. The drop at the other current is always shown beside it.</summary>
public enum DropBasis
{
    /// <summary>Every load at rated output at once: the cautious choice.</summary>
    RatedCurrent,

    /// <summary>Average current on music: the rated current is then treated as intermittent, and the drop at full output is larger.</summary>
    MusicCurrent,
}
