using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>What is said of a fuse a short circuit can exceed, by plan and network in the same words.</summary>
internal static class FuseInterruption
{
    public const string Code = "fuse-cannot-interrupt";

    /// <summary>A stop where a maker's figure is exceeded; a warning where only the figure remembered for the form is.</summary>
    /// <param name="circuit">Where the short circuit is and how much it drives, for example "A short circuit can drive 1200 A".</param>
    /// <param name="interruptAmperes">What the fuse interrupts, A; null when only known to be too little.</param>
    /// <param name="more">What else is to be known, a sentence with a blank before it; may be empty.</param>
    public static Finding Finding(
        string subjectId, string subject, string circuit, string fuse, double? interruptAmperes, bool isFromMemory, string source, UnitText text, string more = "")
    {
        var figure = interruptAmperes is { } amperes ? text.Amperes(amperes) : "less";
        return new Finding(
            Code, isFromMemory ? Severity.Warn : Severity.Stop, subjectId, subject,
            $"{circuit} through it; {fuse} interrupts {figure}{(isFromMemory ? ", a figure from memory" : "")}.{more}",
            isFromMemory
                ? "Look at the maker's figure and enter it on the fuse part. Where it is below that current, use another fuse, or start this run farther from the battery."
                : "Use a fuse whose maker states enough at this voltage and enter it on the fuse part, or start this run farther from the battery.",
            source);
    }
}
