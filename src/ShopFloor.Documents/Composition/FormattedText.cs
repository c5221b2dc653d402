using System.Text;

namespace ShopFloor.Documents.Composition;

/// <summary>How a stretch of text stands out from its surroundings.</summary>
public enum Emphasis
{
    None,
    Strong,
    Italic,
}

/// <summary>A stretch of text in one emphasis.</summary>
public sealed record TextRun(string Text, Emphasis Emphasis = Emphasis.None);

/// <summary>
/// Text with simple inline emphasis. A plain string converts by itself, and pieces are joined with +:
/// <c>"Fit " + FormattedText.Strong("F1") + " last"</c>. Nothing in the text is read as markup.
/// A line feed starts a new line.
/// </summary>
public sealed record FormattedText(params IReadOnlyList<TextRun> Runs)
{
    public static FormattedText Empty { get; } = new();

    public bool IsEmpty => Runs.All(run => run.Text.Length == 0);

    public static FormattedText Strong(string text) => new(new TextRun(text, Emphasis.Strong));

    public static FormattedText Italic(string text) => new(new TextRun(text, Emphasis.Italic));

    public static implicit operator FormattedText(string? text) => FromString(text);

    public static FormattedText operator +(FormattedText left, FormattedText right) => Add(left, right);

    public static FormattedText FromString(string? text) => string.IsNullOrEmpty(text) ? Empty : new FormattedText(new TextRun(text));

    public static FormattedText Add(FormattedText left, FormattedText right)
    {
        ArgumentNullException.ThrowIfNull(left);
        ArgumentNullException.ThrowIfNull(right);
        return new FormattedText([.. left.Runs, .. right.Runs]);
    }

    public override string ToString() => Runs.Aggregate(new StringBuilder(), (all, run) => all.Append(run.Text)).ToString();
}
