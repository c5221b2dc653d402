namespace ShopFloor.Documents.Composition;

/// <summary>A document as data: what it says and in which order, with nothing about how it is drawn.</summary>
public sealed record PrintedDocument(DocumentHead Head, params IReadOnlyList<Section> Sections)
{
    /// <summary>Whether section titles are numbered 1, 2, 3. Sections without a title take no number.</summary>
    public bool NumberSections { get; init; } = true;
}

/// <summary>What stands at the head and foot of a document and in its file's metadata.</summary>
public sealed record DocumentHead(string Title, string ShopName)
{
    public string Subtitle { get; init; } = "";

    /// <summary>The document's own number or the job's reference; repeated on every page.</summary>
    public string Reference { get; init; } = "";

    /// <summary>Address, telephone and the like, one line each.</summary>
    public IReadOnlyList<string> ShopContact { get; init; } = [];

    /// <summary>The date as the reader should see it, already in the reader's form.</summary>
    public string DateText { get; init; } = "";

    public string FooterText { get; init; } = "";

    /// <summary>A word written large and pale across every page, as text, for what is not the final paper; empty for none.</summary>
    public string Watermark { get; init; } = "";

    /// <summary>BCP 47 tag of the language of the text, for example "en" or "el"; for pages on screen, as the PDF library has no place
    /// for it.</summary>
    public string Language { get; init; } = "en";

    /// <summary>Written into the file as its creation date, so that the same document gives the same file; null writes none.</summary>
    public DateTimeOffset? CreatedAt { get; init; }

    /// <summary>The few words the drawing adds by itself.</summary>
    public DocumentWords Words { get; init; } = new();
}

/// <summary>The words a drawing adds to what the document says; replaced as a whole for another language.</summary>
public sealed record DocumentWords
{
    /// <summary>Footer text: {0} is the page, {1} the number of pages.</summary>
    public string PageOf { get; init; } = "Page {0} of {1}";

    public string Note { get; init; } = "Note";

    public string Caution { get; init; } = "Caution";

    public string Danger { get; init; } = "Danger";

    public string Name { get; init; } = "Name";

    public string Date { get; init; } = "Date";

    public string PhotoUnreadable { get; init; } = "This photo could not be read.";

    public string FigureUnreadable { get; init; } = "This figure could not be read.";

    public string QrCodeTooLong { get; init; } = "This is too long for a QR code:";
}

/// <summary>A titled part of a document. An empty title gives the blocks without a heading.</summary>
public sealed record Section(string Title, params IReadOnlyList<Block> Blocks)
{
    /// <summary>Whether the section begins on a new page.</summary>
    public bool StartsNewPage { get; init; }
}
