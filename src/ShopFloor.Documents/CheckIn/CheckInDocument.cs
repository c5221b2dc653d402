using System.Globalization;
using ShopFloor.Documents.Composition;
using ShopFloor.Documents.Diagrams;
using ShopFloor.Shop.Phases.Intake;

namespace ShopFloor.Documents.CheckIn;

/// <summary>The receipt the client takes home when the car stays: its condition, what lies in it, and the signature.</summary>
public static class CheckInDocument
{
    // The pad on which the client signs is 600 by 200.
    private const double PadWidth = 600;
    private const double PadHeight = 200;

    public static PrintedDocument Compose(CheckInFacts facts, IReadOnlyDictionary<string, ReadOnlyMemory<byte>> photos)
    {
        ArgumentNullException.ThrowIfNull(facts);
        ArgumentNullException.ThrowIfNull(photos);
        var head = Paper.Head(facts.Letterhead, "Check-in receipt", facts.Vehicle, facts.JobReference) with
        {
            DateText = Paper.Day(facts.Letterhead, facts.SignedAt ?? facts.OpenedAt),
            FooterText = $"{facts.Letterhead.ShopName} · {facts.JobReference} · check-in",
        };
        return new PrintedDocument(
            head,
            [.. new[] { Opening(facts), Condition(facts), Functions(facts), Pictures(facts, photos), Signing(facts) }.OfType<Section>()]);
    }

    private static Section Opening(CheckInFacts facts)
    {
        var blocks = new List<Block>
        {
            Paper.Facts(
                2,
                ("Client", facts.ClientName),
                ("Phone", facts.ClientPhone),
                ("E-mail", facts.ClientEmail),
                ("Plate", facts.Plate),
                ("Vehicle", facts.Vehicle),
                ("Colour", facts.Colour),
                ("Identification number", facts.Vin),
                ("Odometer", facts.OdometerKilometers is { } distance ? Paper.Distance(distance, facts.Letterhead.Units) : ""),
                ("Keys handed over", facts.KeyCount?.ToString(CultureInfo.CurrentCulture) ?? ""),
                ("Battery, engine off", facts.BatteryVolts is { } volts ? $"{Paper.Number(volts)} V" : ""),
                ("Fuel or charge", facts.EnergyPercent is { } energy ? string.Create(CultureInfo.CurrentCulture, $"{energy} %") : ""),
                ("Warning lights", facts.WarningLights.Count > 0 ? string.Join(", ", facts.WarningLights) : facts.NoWarningLights ? "none" : "")),
        };
        foreach (var (title, text) in new[] { ("What was wished for", facts.Wish), ("Left in the car", facts.Belongings), ("Notes", facts.Notes) })
        {
            var lines = Paper.Lines(text).ToList();
            if (lines.Count > 0)
            {
                blocks.Add(new Subheading(title));
                blocks.AddRange(lines.Select(line => new Paragraph(line)));
            }
        }

        return new Section("", blocks);
    }

    private static Section Condition(CheckInFacts facts)
    {
        var outline = VehicleOutline.Draw(
            facts.BodyStyle,
            [.. facts.Marks.Select(mark => new DrawnMark(mark.X, mark.Y, mark.Kind, mark.Number.ToString(CultureInfo.InvariantCulture)))]);
        return new Section(
            "Condition",
            new Figure(outline, "", 105),
            new Table(
                [Column.Number("No.", 0.5), new Column("What", Width: 1.2), new Column("Where", Width: 2.4), new Column("Remark", Width: 3)],
                [.. facts.Marks.Select(mark => new TableRow(
                    mark.Number.ToString(CultureInfo.CurrentCulture), mark.Kind.ToString(), mark.Area, mark.Note))])
            {
                WhenEmpty = "No marks were found.",
            });
    }

    private static Section? Functions(CheckInFacts facts) => facts.Functions.Count == 0
        ? null
        : new Section("Factory functions", new Table(
            [new Column("Function", Width: 3), new Column("Result", Width: 1.3), new Column("Remark", Width: 3)],
            [.. facts.Functions.GroupBy(function => function.Group).SelectMany(group => group
                .Select(function => new TableRow(function.Name, FactoryFunctions.Text(function.Result), function.Note)
                {
                    Emphasis = function.Result == FunctionResult.Faulty ? RowEmphasis.Strong : RowEmphasis.None,
                })
                .Prepend(TableRow.Group(group.Key)))]));

    private static Section? Pictures(CheckInFacts facts, IReadOnlyDictionary<string, ReadOnlyMemory<byte>> photos) => facts.Photos.Count == 0
        ? null
        : new Section("Photos", new Photos([.. facts.Photos.Select(photo => new Photo(
            photos.GetValueOrDefault(photo.Hash),
            photo.MarkNumber is { } number ? string.Create(CultureInfo.CurrentCulture, $"Mark {number}. {photo.Caption}").Trim() : photo.Caption) { Key = photo.Id.ToString() })]));

    private static Section Signing(CheckInFacts facts)
    {
        var blocks = new List<Block>();
        blocks.AddRange(Paper.Lines(facts.Conditions).Select(line => new Paragraph(line) { Secondary = true }));
        blocks.Add(new Signatures(
            new Signature("Client, on check-in")
            {
                Name = facts.SignerName,
                DateText = facts.SignedAt is { } at ? Paper.Day(facts.Letterhead, at) : "",
                Strokes = facts.SignaturePath.Length > 0 ? new SignatureStrokes(facts.SignaturePath, PadWidth, PadHeight) : null,
            },
            new Signature($"For {facts.Letterhead.ShopName}")
            {
                Name = facts.SignedBefore,
                DateText = facts.SignedAt is { } signed ? Paper.Day(facts.Letterhead, signed) : "",
            }));
        return new Section("Signed", new KeepTogether(blocks));
    }
}
