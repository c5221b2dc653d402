using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>One thing that may be wrong with a signal path. Each rule is a class of its own, listed in <see cref="SignalRules"/>.</summary>
public abstract class SignalRule
{
    /// <summary>Stable kebab-case name, the code of its findings.</summary>
    public abstract string Code { get; }

    /// <summary>What it asks, as a heading.</summary>
    public abstract string Title { get; }

    /// <summary>Why it matters, in a sentence or two.</summary>
    public abstract string Why { get; }

    /// <summary>Standard or handbook; or "common practice, no source".</summary>
    public virtual string Source => Unsourced.CommonPractice;

    /// <summary>How it is usually put right; a finding may say it closer.</summary>
    public abstract string Remedy { get; }

    /// <summary>A case it finds, with figures where it has any.</summary>
    public abstract string Example { get; }

    /// <summary>What it finds.</summary>
    /// <param name="state">The path, worked out.</param>
    public abstract IEnumerable<Finding> Find(SignalPathState state);

    private protected Finding Stop(string id, string subject, string what, string remedy) => new(Code, Severity.Stop, id, subject, what, remedy, Source);

    private protected Finding Warn(string id, string subject, string what, string remedy) => new(Code, Severity.Warn, id, subject, what, remedy, Source);

    private protected Finding Note(string id, string subject, string what, string remedy) => new(Code, Severity.Note, id, subject, what, remedy, Source);
}
