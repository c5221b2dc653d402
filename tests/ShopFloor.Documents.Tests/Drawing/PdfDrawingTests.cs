using ShopFloor.Documents.Composition;
using ShopFloor.Documents.Drawing;

namespace ShopFloor.Documents.Tests.Drawing;

public sealed class PdfDrawingTests
{
    private static readonly string _sentence = "The main run enters through the factory grommet and is fused close to the battery. ";

    [Fact]
    public void Document_without_sections_is_one_page_with_its_title_and_footer()
    {
        using var pdf = DrawnPdf.Of(new PrintedDocument(new DocumentHead("Handover", "Test shop")));

        var page = Assert.Single(pdf.Pages);
        Assert.Contains("Handover", page.Text, StringComparison.Ordinal);
        Assert.Contains("Page 1 of 1", page.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(PaperSize.A4, 595.28, 841.89)]
    [InlineData(PaperSize.Letter, 612, 792)]
    public void Page_has_the_size_of_the_paper(PaperSize paper, double width, double height)
    {
        // A4: ISO 216, 210 mm x 297 mm; Letter: 8.5 in x 11 in; a point is 1/72 in.
        using var pdf = DrawnPdf.Of(DrawnPdf.Document(new Paragraph("One line.")), paper);

        Assert.Equal(width, pdf.Pages[0].Width, 0.1);
        Assert.Equal(height, pdf.Pages[0].Height, 0.1);
    }

    [Fact]
    public void Every_page_says_which_of_how_many_and_later_pages_repeat_title_and_reference()
    {
        using var pdf = DrawnPdf.OfBlocks([.. Enumerable.Range(0, 60)
            .Select(i => new Paragraph(string.Concat(Enumerable.Repeat(_sentence, 4))))]);

        Assert.True(pdf.Pages.Count >= 4, $"{pdf.Pages.Count} pages");
        for (var i = 0; i < pdf.Pages.Count; i++)
            Assert.Contains($"Page {i + 1} of {pdf.Pages.Count}", pdf.Pages[i].Text, StringComparison.Ordinal);
        foreach (var page in pdf.Pages.Skip(1))
        {
            Assert.StartsWith("Test sheet", page.Text, StringComparison.Ordinal);
            Assert.Contains("JC-1", page.Text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Page_words_follow_the_document()
    {
        var words = new DocumentWords { PageOf = "Σελίδα {0} από {1}", Danger = "Κίνδυνος" };
        var document = new PrintedDocument(new DocumentHead("Παράδοση", "Test shop") { Words = words }, new Section("",
            new Caution(CautionKind.Danger, "!")));

        using var pdf = DrawnPdf.Of(document);

        Assert.Contains("Σελίδα 1 από 1", pdf.Text, StringComparison.Ordinal);
        Assert.Contains("Κίνδυνος", pdf.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Ελευθερία Παπακωνσταντίνου-Μαυρομμάτη, Θεσσαλονίκη")]
    [InlineData("Щербакова Юлия Владимировна, Новосибирск")]
    [InlineData("Žofie Přívětivá, Łukasz Żółw, Åse Ærø, Gülşen Iğdır, Nuñez, Straße")]
    [InlineData("Office fluff affine: 4 Ω ±5 % ≥ 33.6 mm² “quoted” – 12 €")]
    public void Names_in_latin_greek_and_cyrillic_are_extracted_as_written(string text)
    {
        using var pdf = DrawnPdf.OfBlocks(new Paragraph(text), new Table(["Name"], [new TableRow(text)]));

        Assert.Equal(2, Occurrences(pdf.Text, text));
    }

    [Fact]
    public void Decomposed_accents_are_extracted_composed()
    {
        using var pdf = DrawnPdf.OfBlocks(new Paragraph("Zoe\u0308 e\u0301te\u0301"));

        Assert.Contains("Zoë été", pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Characters_the_face_lacks_become_one_visible_box_each_and_the_rest_stays()
    {
        // An emoji with a skin tone, a family of three joined emoji, two ideographs, a lone half of a surrogate pair.
        using var pdf = DrawnPdf.OfBlocks(new Paragraph("A\U0001F44D\U0001F3FDB\U0001F468\u200D\U0001F469\u200D\U0001F467C漢字D\uD83DE"));

        Assert.Contains("A□B□C□□D", pdf.Text, StringComparison.Ordinal);
        Assert.Contains("E", pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Control_characters_are_left_out()
    {
        using var pdf = DrawnPdf.OfBlocks(new Paragraph("before\u0000\u0007\u200Bafter\ttab"));

        Assert.Contains("beforeafter tab", pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Word_of_two_hundred_letters_is_wrapped_inside_the_margins_and_kept_whole()
    {
        var word = string.Concat(Enumerable.Range(0, 200).Select(i => (char)('a' + (i % 26))));
        using var pdf = DrawnPdf.OfBlocks(
            new Paragraph(word),
            new Bullets(word),
            new KeyValues((word, word)),
            new Table(["A", word, "C"], [new TableRow("1", word, word)]),
            new Caution(CautionKind.Note, word),
            new Checklist(word) { Across = 3 });

        // Paragraph, bullet, fact name and value, column title, two cells, caution, box.
        Assert.Equal(9, Occurrences(pdf.Text, word));
        foreach (var letter in pdf.Pages.SelectMany(page => page.Letters))
            Assert.InRange(letter.BoundingBox.Right, 54 - 1, 595.28 - 54 + 1);
    }

    [Fact]
    public void Every_font_is_an_embedded_subset_and_no_face_is_embedded_twice()
    {
        const string Svg = "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 300 60'>" +
            "<text x='5' y='20' font-family='Arial' font-size='14'>Plain figure</text><text x='5' y='40' font-weight='600' font-size='14'>Heavy figure</text></svg>";
        using var pdf = DrawnPdf.Of(new PrintedDocument(
            new DocumentHead("Title", "Test shop"),
            new Section("First", new Paragraph("Plain " + FormattedText.Strong("strong") + FormattedText.Italic(" italic")),
                new Figure(Svg)),
            new Section("Second", new Table(["A"], [new TableRow("x") { Emphasis = RowEmphasis.Strong }]), new Figure(Svg))));

        var fonts = pdf.Fonts();
        Assert.All(fonts, font => Assert.True(font.Embedded, font.Name));
        Assert.All(fonts, font => Assert.Matches("^[A-Z]{6}\\+SourceSans3-", font.Name));
        var faces = fonts.Select(font => font.Name[7..]).Order(StringComparer.Ordinal).ToList();
        Assert.Equal(["SourceSans3-It", "SourceSans3-Regular", "SourceSans3-Semibold"], faces);
        Assert.Equal(2, Occurrences(pdf.Text, "Plain figure"));
        Assert.Equal(2, Occurrences(pdf.Text, "Heavy figure"));
    }

    [Fact]
    public void Metadata_says_title_author_and_the_date_passed_in()
    {
        using var pdf = DrawnPdf.OfBlocks(new Paragraph("Text"));

        Assert.Equal("Test sheet", pdf.Information.Title);
        Assert.Equal("Test shop", pdf.Information.Author);
        Assert.Equal(new DateTimeOffset(2026, 3, 14, 9, 26, 53, TimeSpan.Zero), pdf.Information.GetCreatedDateTimeOffset());
    }

    [Fact]
    public async Task Same_document_gives_the_same_bytes_also_from_several_threads()
    {
        var document = DrawnPdf.Document(
            new Paragraph("Ελληνικά и кириллица " + _sentence),
            new Table(["A", Column.Number("B")], [.. Enumerable.Range(0, 120).Select(i => new TableRow($"Row {i}", $"{i}.5"))]),
            new Photos(new Photo(TestPhotos.Jpeg(800, 600, 1))),
            new QrCode("https://example.test/j/1", "Online"),
            new Figure(Documents.Diagrams.VehicleOutline.Draw(Shop.Vehicles.BodyStyle.Saloon)));
        var first = DrawnPdf.Draw(document);

        var others = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(() => DrawnPdf.Draw(document))));

        Assert.All(others, other => Assert.True(first.AsSpan().SequenceEqual(other)));
    }

    [Fact]
    public void Stream_is_left_open()
    {
        using var stream = new MemoryStream();
        new PdfDrawing().Draw(DrawnPdf.Document(new Paragraph("Text")), stream, PaperSize.A4);

        Assert.True(stream.CanWrite);
        Assert.Equal("%PDF"u8.ToArray(), stream.ToArray()[..4]);
    }

    [Fact]
    public void Heading_is_never_the_last_thing_on_a_page()
    {
        // Filler of every length in turn pushes the heading through the foot of the page.
        for (var lines = 30; lines < 50; lines++)
        {
            var filler = new Bullets([.. Enumerable.Range(0, lines).Select(i => FormattedText.FromString($"Filler {i}"))]);
            using var pdf = DrawnPdf.Of(new PrintedDocument(
                new DocumentHead("T", "S"),
                new Section("Filling", filler),
                new Section("Heading", new Subheading("Under it"),
                    new Paragraph("Opening words. " + string.Concat(Enumerable.Repeat(_sentence, 6))))));

            var heading = PageWith(pdf, "Heading");
            Assert.Equal(heading, PageWith(pdf, "Under it"));
            Assert.Equal(heading, PageWith(pdf, "Opening words."));
        }
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Heading_shares_the_page_of_a_figure_as_tall_as_can_be(bool turned)
    {
        const string Svg = "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 900 900'><text x='10' y='450' font-size='40'>Inside</text></svg>";
        for (var lines = 1; lines < 6; lines++)
        {
            using var pdf = DrawnPdf.Of(new PrintedDocument(
                new DocumentHead("T", "S"),
                new Section("", new Bullets([.. Enumerable.Range(0, lines * 8).Select(i => FormattedText.FromString($"Filler {i}"))])),
                new Section("Heading", new Figure(Svg, "Caption", 2000) { Turned = turned })));

            Assert.Equal(PageWith(pdf, "Heading"), PageWith(pdf, "Inside"));
            Assert.Equal(PageWith(pdf, "Caption"), PageWith(pdf, "Inside"));
        }
    }

    [Fact]
    public void Turned_figure_reads_upwards_and_is_larger_than_an_upright_one()
    {
        const string Svg = "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 1400 500'><text x='10' y='250' font-size='40'>Wide</text></svg>";
        using var upright = DrawnPdf.OfBlocks(new Figure(Svg, "", 200));
        using var turned = DrawnPdf.OfBlocks(new Figure(Svg, "", 200) { Turned = true });

        var (flat, steep) = (Letters(upright, "Wide"), Letters(turned, "Wide"));
        Assert.True(flat[3].StartBaseLine.X > flat[0].StartBaseLine.X + 10);
        Assert.True(steep[3].StartBaseLine.Y > steep[0].StartBaseLine.Y + 10);
        Assert.Equal(steep[0].StartBaseLine.X, steep[3].StartBaseLine.X, 0.1);
        Assert.True(steep[3].StartBaseLine.Y - steep[0].StartBaseLine.Y > 1.25 * (flat[3].StartBaseLine.X - flat[0].StartBaseLine.X));
    }

    [Fact]
    public void Paragraph_leaves_at_least_two_lines_on_either_side_of_a_page_break()
    {
        // Line feeds make seven lines that can be told apart.
        for (var filler = 30; filler < 50; filler++)
        {
            var lines = string.Join('\n', Enumerable.Range(0, 7).Select(i => $"<{i}>"));
            using var pdf = DrawnPdf.OfBlocks(new Bullets([.. Enumerable.Range(0, filler)
                .Select(i => FormattedText.FromString($"Filler {i}"))]), new Paragraph(lines));

            Assert.Equal(PageWith(pdf, "<0>"), PageWith(pdf, "<1>"));
            Assert.Equal(PageWith(pdf, "<5>"), PageWith(pdf, "<6>"));
        }
    }

    [Fact]
    public void Kept_together_blocks_move_to_the_next_page_as_one()
    {
        for (var lines = 30; lines < 50; lines++)
        {
            using var pdf = DrawnPdf.OfBlocks(
                new Bullets([.. Enumerable.Range(0, lines).Select(i => FormattedText.FromString($"Filler {i}"))]),
                new KeepTogether(new Paragraph("Alpha one"), new Checklist("Beta two", "Beta three"),
                    new Signatures(new Signature("Gamma four"))));

            var page = PageWith(pdf, "Alpha one");
            Assert.Equal(page, PageWith(pdf, "Beta three"));
            Assert.Equal(page, PageWith(pdf, "Gamma four"));
        }
    }

    [Fact]
    public void Group_longer_than_a_page_is_still_drawn_whole()
    {
        using var pdf = DrawnPdf.OfBlocks(new KeepTogether(new NumberedSteps([.. Enumerable.Range(0, 150)
            .Select(i => FormattedText.FromString($"Step [{i}]"))])));

        for (var i = 0; i < 150; i++)
            Assert.Equal(1, Occurrences(pdf.Text, $"Step [{i}]"));
    }

    [Fact]
    public void Page_break_starts_a_new_page_and_two_in_a_row_only_one()
    {
        using var pdf = DrawnPdf.OfBlocks(new Paragraph("First"), new PageBreak(), new PageBreak(), new Paragraph("Second"),
            new PageBreak());

        Assert.Equal(2, pdf.Pages.Count);
        Assert.Contains("Second", pdf.Pages[1].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Sections_are_numbered_without_those_that_have_no_title()
    {
        using var pdf = DrawnPdf.Of(new PrintedDocument(
            new DocumentHead("T", "S"), new Section("Alpha", new Paragraph("a")), new Section("", new Paragraph("b")), new Section("Beta",
                new Paragraph("c"))));

        Assert.Contains("1Alpha", pdf.Text, StringComparison.Ordinal);
        Assert.Contains("2Beta", pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Cautions_are_told_apart_by_word()
    {
        using var pdf = DrawnPdf.OfBlocks(
            new Caution(CautionKind.Danger, "Fire."), new Caution(CautionKind.Caution, "Noise."), new Caution(CautionKind.Note, "Fuses."));

        Assert.Contains("DangerFire.", pdf.Text, StringComparison.Ordinal);
        Assert.Contains("CautionNoise.", pdf.Text, StringComparison.Ordinal);
        Assert.Contains("NoteFuses.", pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Signature_that_is_no_path_is_refused_before_anything_is_written()
    {
        using var stream = new MemoryStream();
        var document = DrawnPdf.Document(new Signatures(new Signature("Client") { Strokes = new SignatureStrokes("no path", 10, 10) }));

        var error = Assert.Throws<ArgumentException>(() => new PdfDrawing().Draw(document, stream, PaperSize.A4));

        Assert.Contains("Client", error.Message, StringComparison.Ordinal);
        Assert.Equal(0, stream.Length);
    }

    [Theory]
    [InlineData("not svg at all")]
    [InlineData("<svg xmlns='http://www.w3.org/2000/svg'><rect")]
    [InlineData("")]
    public void Figure_that_cannot_be_read_says_so(string svg)
    {
        using var pdf = DrawnPdf.OfBlocks(new Figure(svg), new Paragraph("After"));

        Assert.Contains("This figure could not be read.", pdf.Text, StringComparison.Ordinal);
        Assert.Contains("After", pdf.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("xlink:href")]
    [InlineData("href")]
    public void Figure_does_not_show_files_of_the_machine(string attribute)
    {
        var file = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName() + ".jpg");
        File.WriteAllBytes(file, TestPhotos.Jpeg(40, 40, 1));
        try
        {
            using var pdf = DrawnPdf.OfBlocks(new Figure(
                $"<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink' viewBox='0 0 100 20'><image width='20' height='20' {attribute}='file://{file}'/></svg>"));

            Assert.All(pdf.Pages, page => Assert.Empty(page.GetImages()));
        }
        finally
        {
            File.Delete(file);
        }
    }

    [Fact]
    public void Only_the_letters_in_use_go_into_the_file()
    {
        using var pdf = DrawnPdf.OfBlocks(new Paragraph("Plain " + FormattedText.Strong("strong") + FormattedText.Italic(" italic")));

        // The three whole faces are about 1.2 MB; their files in this project say so.
        Assert.True(pdf.Bytes.Length < 60_000, $"{pdf.Bytes.Length} bytes");
    }

    [Fact]
    public void Figure_does_not_read_entities_from_files()
    {
        var secret = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName() + ".txt");
        File.WriteAllText(secret, "secret words");
        try
        {
            var svg = $"<!DOCTYPE svg [<!ENTITY x SYSTEM 'file://{secret}'>]><svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 100 20'><text y='15'>&x;</text></svg>";
            using var pdf = DrawnPdf.OfBlocks(new Figure(svg));

            Assert.DoesNotContain("secret words", pdf.Text, StringComparison.Ordinal);
        }
        finally
        {
            File.Delete(secret);
        }
    }

    internal static int Occurrences(string text, string part)
    {
        var count = 0;
        for (var at = text.IndexOf(part, StringComparison.Ordinal); at >= 0; at = text.IndexOf(part, at + part.Length,
            StringComparison.Ordinal))
            count++;
        return count;
    }

    private static List<UglyToad.PdfPig.Content.Letter> Letters(DrawnPdf pdf, string word)
    {
        var letters = pdf.Pages.SelectMany(page => page.Letters).ToList();
        var at = string.Concat(letters.Select(letter => letter.Value)).IndexOf(word, StringComparison.Ordinal);
        return letters.GetRange(at, word.Length);
    }

    private static int PageWith(DrawnPdf pdf, string text) =>
        pdf.Pages.Single(page => page.Text.Contains(text, StringComparison.Ordinal)).Number;
}
