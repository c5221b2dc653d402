using ShopFloor.Shop.Common;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What whoever opens a thing made by hand must know of it, years later. Printed in the handover; nothing is needed.</summary>
public sealed record MadeNotes
{
    /// <summary>Glue, sealant or screws that hold it together.</summary>
    public string GluedWith { get; set; } = "";

    /// <summary>How a panel or the whole thing comes off.</summary>
    public string ComesOff { get; set; } = "";

    public string Care { get; set; } = "";

    internal void AddProblems(Check check, string at) => check
        .Longest(GluedWith, $"{at}.{nameof(GluedWith)}", "What it is glued with", Limits.Line)
        .Longest(ComesOff, $"{at}.{nameof(ComesOff)}", "How it comes off", Limits.Note)
        .Longest(Care, $"{at}.{nameof(Care)}", "The care", Limits.Note);

    public override string ToString() => string.Join("; ", new[] { GluedWith, ComesOff, Care }.Where(text => text.Length > 0));
}
