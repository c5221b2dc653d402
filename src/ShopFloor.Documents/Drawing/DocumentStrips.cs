using System.Globalization;
using ShopFloor.Documents.Composition;
using SkiaSharp;

namespace ShopFloor.Documents.Drawing;

/// <summary>Turns a document into the strips of its pages, top to bottom.</summary>
internal sealed class DocumentStrips(PrintedDocument document, float width, float pageHeight)
{
    private const float BlockSpace = 8;
    private const float ListIndent = 18;

    // Nothing uncut is taller than a page less this, so that a heading above it still shares its page.
    private const float HeadingRoom = 64;

    private float TallestStrip => pageHeight - HeadingRoom;

    private DocumentWords Words => document.Head.Words;

    public List<Strip> Build()
    {
        var strips = Head();
        var number = 0;
        foreach (var section in document.Sections)
        {
            var part = new List<Strip>();
            if (section.Title.Length > 0)
                part.AddRange(Heading(section.Title, document.NumberSections ? ++number : null));
            part.AddRange(Blocks(section.Blocks, part.Count == 0 ? BlockSpace : 5));
            if (part.Count == 0)
                continue;
            part[0] = part[0] with
            {
                SpaceBefore = section.Title.Length > 0 ? 20 : BlockSpace,
                StartsNewPage = section.StartsNewPage || part[0].StartsNewPage,
            };
            // A heading without anything under it has nothing to hold to.
            part[^1] = part[^1] with { Hold = Hold.None };
            strips.AddRange(part);
        }
        return strips;
    }

    private List<Strip> Head()
    {
        var head = document.Head;
        var half = (width - 20) / 2;
        var contact = FormattedText.FromString(string.Join('\n', head.ShopContact));
        var strips = TextStrips.Row(
            [
                new RowCell(new ShapedText(FormattedText.FromString(head.ShopName), TextStyle.ShopName).Wrap(half), 0, half),
                new RowCell(new ShapedText(contact, TextStyle.Remark).Wrap(half), width - half, half, CellAlignment.End),
            ],
            0,
            pageHeight / 2);
        strips.AddRange(TextStrips.Lines(FormattedText.FromString(head.Title), TextStyle.DocumentTitle, 0, width).After(16));
        if (head.Subtitle.Length > 0)
            strips.AddRange(TextStrips.Lines(FormattedText.FromString(head.Subtitle), TextStyle.DocumentSubtitle, 0, width).After(1));
        var facts = string.Join("   ·   ", new[] { head.Reference, head.DateText }.Where(text => text.Length > 0));
        if (facts.Length > 0)
            strips.AddRange(TextStrips.Lines(FormattedText.FromString(facts), TextStyle.Label, 0, width).After(3));
        strips.Add(new Strip(3, (sheet, left, top) =>
        {
            TextStrips.Rule(sheet, left, left + width, top + 1.5f, 0.6f, TextStyle.Hairline);
            TextStrips.Rule(sheet, left, left + 72, top + 1.5f, 2.4f, TextStyle.Accent);
        })
        {
            SpaceBefore = 7,
        });
        return strips;
    }

    private List<Strip> Heading(string title, int? number)
    {
        var style = TextStyle.SectionTitle;
        if (number is not { } value)
            return TextStrips.Lines(FormattedText.FromString(title), style, 0, width).HoldingTo(Hold.Firm);
        var label = new ShapedText(value.ToString(CultureInfo.InvariantCulture), style with { Color = TextStyle.Accent,
            EqualDigits = true });
        var indent = Math.Max(ListIndent, label.NaturalWidth + 9);
        var mark = label.Wrap(width)[0];
        return TextStrips.Lines(FormattedText.FromString(title), style, indent, width - indent, (sheet, left, top) =>
            mark.Draw(sheet, left, top))
            .HoldingTo(Hold.Firm);
    }

    private List<Strip> Blocks(IReadOnlyList<Block> blocks, float spaceBeforeFirst)
    {
        var strips = new List<Strip>();
        var breakBefore = false;
        foreach (var block in blocks)
        {
            if (block is PageBreak)
            {
                breakBefore = true;
                continue;
            }
            var part = BlockStrips(block);
            if (part.Count == 0)
                continue;
            part[0] = part[0] with
            {
                SpaceBefore = strips.Count == 0 ? spaceBeforeFirst : block is Subheading ? 12 : BlockSpace,
                StartsNewPage = breakBefore,
            };
            breakBefore = false;
            strips.AddRange(part);
        }
        return strips;
    }

    private List<Strip> BlockStrips(Block block) => block switch
    {
        Paragraph paragraph => paragraph.Text.IsEmpty
            ? []
            : TextStrips.Lines(paragraph.Text, paragraph.Secondary ? TextStyle.Remark : TextStyle.Body, 0, width),
        Subheading subheading =>
            TextStrips.Lines(FormattedText.FromString(subheading.Text), TextStyle.Subheading, 0, width).HoldingTo(Hold.Firm),
        Bullets bullets => BulletList(bullets),
        NumberedSteps steps => Steps(steps),
        KeyValues facts => FormStrips.KeyValues(facts, width, TallestStrip),
        Table table => new TableStrips(table, width, TallestStrip).Build(),
        Caution caution => CautionStrips.Build(caution, Words, width),
        Figure figure => PictureStrips.Figure(figure, Words, width, TallestStrip),
        Photos photos => PictureStrips.Photos(photos, Words, width, TallestStrip),
        Labels labels => FormStrips.Labels(labels, width, TallestStrip),
        Checklist checklist => FormStrips.Checklist(checklist, width, TallestStrip),
        QrCode code => PictureStrips.QrCode(code, Words, width, TallestStrip),
        Signatures signatures => FormStrips.Signatures(signatures, Words, width),
        KeepTogether group => Together(group),
        _ => throw new ArgumentException($"A {block.GetType().Name} cannot be drawn here.", nameof(block)),
    };

    private List<Strip> Together(KeepTogether group)
    {
        var strips = Blocks(group.Blocks, BlockSpace);
        if (strips.Count == 0)
            return strips;
        var last = strips[^1];
        strips.HoldingTo(Hold.Together);
        strips[^1] = last;
        return strips;
    }

    private List<Strip> BulletList(Bullets bullets) => List(bullets.Items, _ => (sheet, left, top) =>
    {
        using var dot = new SKPaint { Color = TextStyle.Ink, IsAntialias = true };
        sheet.Canvas.DrawCircle(left + 6, top + TextStyle.Body.Baseline - 3.3f, 1.6f, dot);
    }, ListIndent);

    private List<Strip> Steps(NumberedSteps steps)
    {
        var style = TextStyle.Body with { Heavy = true, EqualDigits = true };
        var marks = steps.Items
            .Select((_, i) => new ShapedText((steps.FirstNumber + i).ToString(CultureInfo.InvariantCulture), style).Wrap(width)[0])
            .ToList();
        var numberWidth = marks.Select(mark => mark.Width).DefaultIfEmpty().Max();
        return List(
            steps.Items,
            i => (sheet, left, top) => marks[i].Draw(sheet, left + numberWidth - marks[i].Width, top),
            Math.Max(ListIndent, numberWidth + 8));
    }

    private List<Strip> List(IReadOnlyList<FormattedText> items, Func<int, Action<Sheet, float, float>> mark, float indent)
    {
        var strips = new List<Strip>();
        for (var i = 0; i < items.Count; i++)
            strips.AddRange(TextStrips.Lines(items[i], TextStyle.Body, indent, width - indent, mark(i)).After(i == 0 ? 0 : 2.5f));
        return strips;
    }
}
