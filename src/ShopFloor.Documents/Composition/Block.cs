namespace ShopFloor.Documents.Composition;

/// <summary>One thing in a section. The set is closed: a drawing must know every kind.</summary>
public abstract record Block
{
    private protected Block()
    {
    }
}

/// <summary>Running text.</summary>
public sealed record Paragraph(FormattedText Text) : Block
{
    /// <summary>Smaller and in the secondary colour: remarks, sources, conditions.</summary>
    public bool Secondary { get; init; }
}

/// <summary>A heading inside a section, never left alone at the foot of a page.</summary>
public sealed record Subheading(string Text) : Block;

/// <summary>Points in no order.</summary>
public sealed record Bullets(params IReadOnlyList<FormattedText> Items) : Block
{
    public static Bullets From(IEnumerable<string> items) => new([.. items.Select(FormattedText.FromString)]);
}

/// <summary>Steps to be done in order.</summary>
public sealed record NumberedSteps(params IReadOnlyList<FormattedText> Items) : Block
{
    public int FirstNumber { get; init; } = 1;

    public static NumberedSteps From(IEnumerable<string> items) => new([.. items.Select(FormattedText.FromString)]);
}

/// <summary>Named facts, name beside value. A pair of strings converts by itself: <c>new KeyValues(("Mileage", "81 200 km"))</c>.</summary>
public sealed record KeyValues(params IReadOnlyList<Fact> Facts) : Block
{
    /// <summary>How many facts stand side by side, 1 to 3.</summary>
    public int Across { get; init; } = 1;
}

/// <summary>A name and its value.</summary>
public sealed record Fact(string Name, FormattedText Value)
{
    public static implicit operator Fact((string Name, string Value) pair) => FromPair(pair);

    public static Fact FromPair((string Name, string Value) pair) => new(pair.Name, pair.Value);
}

/// <summary>Something the reader must not miss, told apart by word and shape.</summary>
public sealed record Caution(CautionKind Kind, FormattedText Text) : Block;

/// <summary>How serious a caution is.</summary>
public enum CautionKind
{
    /// <summary>Worth knowing; drawn with a circle.</summary>
    Note,

    /// <summary>Damage or injury is possible; drawn with a triangle.</summary>
    Caution,

    /// <summary>Serious injury or fire is possible; drawn with an octagon.</summary>
    Danger,
}

/// <summary>A vector drawing. It keeps its proportions and is made smaller when it does not fit.</summary>
/// <param name="Svg">The drawing as SVG text.</param>
/// <param name="Caption">Shown below; empty for none.</param>
/// <param name="HeightMillimetres">Wished height of the drawing on paper.</param>
public sealed record Figure(string Svg, string Caption = "", double HeightMillimetres = 90) : Block
{
    /// <summary>Whether the drawing is turned a quarter to the left: a wide drawing then stays readable, and takes up to a whole
    /// page.</summary>
    public bool Turned { get; init; }

    /// <summary>Whether one unit of the drawing is one millimetre on paper. It is then drawn at that size and no other, cut off at its own
    /// edges; one that does not fit the page is refused.</summary>
    public bool TrueSize { get; init; }
}

/// <summary>Photos in rows.</summary>
public sealed record Photos(params IReadOnlyList<Photo> Items) : Block
{
    public int PerRow { get; init; } = 3;
}

/// <summary>One photo: the bytes of a JPEG (PNG and WebP are read too) and what it shows.</summary>
public sealed record Photo(ReadOnlyMemory<byte> Image, string Caption = "")
{
    /// <summary>Name under which a screen finds the photo by address instead of carrying its bytes; empty for none.</summary>
    public string Key { get; init; } = "";
}

/// <summary>Boxes to tick by hand, or already ticked.</summary>
public sealed record Checklist(params IReadOnlyList<ChecklistItem> Items) : Block
{
    /// <summary>How many columns of boxes, 1 to 4.</summary>
    public int Across { get; init; } = 1;
}

/// <summary>One box. A string converts to an unticked box.</summary>
public sealed record ChecklistItem(FormattedText Text, bool Ticked = false)
{
    public static implicit operator ChecklistItem(string text) => FromString(text);

    public static ChecklistItem FromString(string text) => new(FormattedText.FromString(text));
}

/// <summary>Labels to cut out, three side by side, with lines to cut along.</summary>
public sealed record Labels(params IReadOnlyList<Label> Items) : Block;

/// <summary>One label.</summary>
/// <param name="Mark">Short name, the largest thing on it.</param>
/// <param name="Text">What it is or leads to.</param>
/// <param name="Detail">Size, rating or the like.</param>
public sealed record Label(string Mark, string Text, string Detail);

/// <summary>A QR code with what it leads to in words beside it.</summary>
public sealed record QrCode(string Payload, FormattedText Caption) : Block
{
    public double SizeMillimetres { get; init; } = 28;
}

/// <summary>Places to sign, side by side.</summary>
public sealed record Signatures(params IReadOnlyList<Signature> Items) : Block;

/// <summary>One place to sign: an empty line to sign by hand, or the strokes of a signature already given.</summary>
/// <param name="Role">Who signs and for what, for example "Client, on check-in".</param>
public sealed record Signature(string Role)
{
    public string Name { get; init; } = "";

    public string DateText { get; init; } = "";

    public SignatureStrokes? Strokes { get; init; }
}

/// <summary>A signature as SVG path data in a box of the given size.</summary>
public sealed record SignatureStrokes(string PathData, double Width, double Height);

/// <summary>Blocks that stay on one page as long as they fit on one.</summary>
public sealed record KeepTogether(params IReadOnlyList<Block> Blocks) : Block;

/// <summary>What follows begins on a new page.</summary>
public sealed record PageBreak : Block;
