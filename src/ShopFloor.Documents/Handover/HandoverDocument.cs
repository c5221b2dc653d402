using System.Globalization;
using ShopFloor.Documents.Composition;
using ShopFloor.Documents.Enclosures;
using ShopFloor.Documents.Weight;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Phases.Intake;

namespace ShopFloor.Documents.Handover;

/// <summary>The document the client keeps: how to use the system, what is where, and what to take care of.</summary>
public static class HandoverDocument
{
    private static readonly IReadOnlyDictionary<string, ReadOnlyMemory<byte>> NoPhotos = new Dictionary<string, ReadOnlyMemory<byte>>();

    /// <param name="facts">What the job says.</param>
    /// <param name="photos">Pictures by their name in the photo store; one that is missing is told, not left out.</param>
    public static PrintedDocument Compose(HandoverFacts facts, IReadOnlyDictionary<string, ReadOnlyMemory<byte>>? photos = null)
    {
        ArgumentNullException.ThrowIfNull(facts);
        var head = Paper.Head(facts.Letterhead, "Your system", facts.Vehicle.Title, facts.JobReference) with
        {
            DateText = facts.DeliveredOn is { } day ? Paper.Day(day) : "Preview, not handed over",
            Watermark = facts.ReleaseNumber is null ? "Preview" : "",
            FooterText = $"{facts.Letterhead.ShopName} · {facts.JobReference}" + (facts.ReleaseNumber is { } number ? string.Create(CultureInfo.InvariantCulture, $" · handover {number}") : " · preview"),
        };
        return new PrintedDocument(
            head,
            [.. new[]
            {
                Opening(facts),
                Sources(facts),
                Cautions(facts),
                System(facts),
                Fuses(facts),
                Measured(facts),
                HandoverSound.Of(facts),
                HandoverTuning.Of(facts),
                Access(facts),
                Boxes(facts),
                HandoverBuild.Of(facts),
                Settings(facts),
                Weight(facts),
                Held(facts),
                Functions(facts),
                WarrantyAndCare(facts),
                Photos(facts, photos ?? NoPhotos),
            }.OfType<Section>()]);
    }

    private static Section Opening(HandoverFacts facts)
    {
        var blocks = new List<Block>
        {
            Paper.Facts(
                2,
                ("For", facts.ClientName),
                ("Vehicle", facts.Vehicle.Title),
                ("Plate", facts.Vehicle.Plate),
                ("Colour", facts.Vehicle.Colour),
                ("Identification number", facts.Vehicle.Vin),
                ("Drive", facts.Vehicle.Drive),
                ("Job", $"{facts.JobReference}, {facts.JobTitle}")),
        };
        blocks.AddRange(Paper.Lines(facts.Overview).Select(line => new Paragraph(line)));
        return new Section("", blocks);
    }

    private static Section? Sources(HandoverFacts facts)
    {
        if (facts.Sources.Count == 0)
        {
            return null;
        }

        var blocks = new List<Block>();
        foreach (var source in facts.Sources)
        {
            var steps = Paper.Lines(source.HowTo).ToList();
            blocks.Add(new Subheading(source.Name));
            blocks.Add(steps.Count switch
            {
                0 => new Paragraph("Ask us when you fetch the car.") { Secondary = true },
                1 => new Paragraph(steps[0]),
                _ => NumberedSteps.From(steps),
            });
        }

        return new Section("Using your system", blocks);
    }

    private static Section? Cautions(HandoverFacts facts) => facts.Cautions.Count == 0
        ? null
        : new Section(
            "Take care",
            [.. facts.Cautions.Select(caution => new Caution(caution.IsDanger ? CautionKind.Danger : CautionKind.Caution, caution.Text))]);

    private static Section? System(HandoverFacts facts)
    {
        if (facts.System.Count == 0)
        {
            return null;
        }

        var numbers = HandoverPlans.PartNumbers(facts);
        var table = new Table(
            [.. new Column?[]
            {
                numbers.Count > 0 ? new Column("No.", Width: 0.6) : null,
                new Column("Part", Width: 3), Column.Number("Quantity"), new Column("Place", Width: 2.4), new Column("Data", Width: 3.4),
            }.OfType<Column>()],
            [.. facts.System.SelectMany(group => group.Parts
                .Select(part => numbers.Count > 0
                    ? new TableRow(numbers.GetValueOrDefault(part, ""), part.Name, part.Quantity, part.Place, part.Data)
                    : new TableRow(part.Name, part.Quantity, part.Place, part.Data))
                .Prepend(TableRow.Group(group.Kind)))]);
        return new Section("What was fitted", [.. new Block?[] { HandoverPlans.Parts(facts), table }.OfType<Block>()]);
    }

    private static Section? Fuses(HandoverFacts facts) => facts.Fuses.Count == 0
        ? null
        : new Section(
            "Fuse map",
            [.. new Block?[]
            {
                HandoverPlans.Fuses(facts),
                HandoverPlans.Feed(facts),
                new Table(
                    [new Column("No.", Width: 0.6), Column.Number("Rating", 0.9), new Column("Protects", Width: 2.4), new Column("Place", Width: 2.6), new Column("Form", Width: 1.8), new Column("Fuse", Width: 2.2)],
                    [.. facts.Fuses.Select((fuse, index) => new TableRow(HandoverPlans.MarkOf(fuse, index), HandoverPlans.Rating(fuse), fuse.Protects, fuse.Place, fuse.Form, fuse.Fuse))]),
                facts.Spares.Count == 0 ? null : new Paragraph($"Spare fuses in the car: {string.Join("; ", facts.Spares.Select(spare => $"{spare.RatingAmperes.ToString("0.#", CultureInfo.CurrentCulture)}\u00a0A {spare.Form}".TrimEnd()))}. Fit only the same rating and form; if it opens again, drive without it and call us."),
                new Paragraph("The fuses of the car itself are in the vehicle maker's book.") { Secondary = true },
            }.OfType<Block>()]);

    private static Section? Measured(HandoverFacts facts) => facts.Measured.Count == 0
        ? null
        : new Section(
            "As measured when it left us",
            MeasuredTable.ForClient(facts.Measured),
            new Paragraph("Taken with a meter on the finished car: batteries after a rest, the rest with the car running and music playing, the last with the car locked and asleep. Keep it: whoever looks for a fault later compares with it.") { Secondary = true });

    private static Section? Access(HandoverFacts facts)
    {
        var blocks = new List<Block>();
        if (facts.Access.Count > 0)
        {
            blocks.Add(facts.Access.Any(row => row.Tools.Length > 0)
                ? new Table(
                    [new Column("Part", Width: 2), new Column("Place", Width: 2), new Column("How to get at it", Width: 3), new Column("Tools", Width: 1.4)],
                    [.. facts.Access.Select(row => new TableRow(row.Part, row.Place, row.Way, row.Tools))])
                : new Table(
                    [new Column("Part", Width: 2), new Column("Place", Width: 2), new Column("How to get at it", Width: 3)],
                    [.. facts.Access.Select(row => new TableRow(row.Part, row.Place, row.Way))]));
        }

        blocks.AddRange(Paper.Lines(facts.ServiceAccess).Select(line => new Paragraph(line)));
        return blocks.Count == 0 ? null : new Section("Service access", blocks);
    }

    private static Section? Boxes(HandoverFacts facts)
    {
        var text = new UnitText(facts.Letterhead.Units, CultureInfo.CurrentCulture);
        return facts.Boxes.Count == 0
            ? null
            : new Section(
                "Enclosures",
                new Table(
                    [new Column("Box", Width: 2), new Column("Loudspeaker", Width: 2), new Column("Kind", Width: 1.4), Column.Number("Net volume"), Column.Number("Tuning"), Column.Number("High-pass to keep", 1.4)],
                    [.. facts.Boxes.Select(box => new TableRow(
                        box.Name, box.Loudspeaker, box.Kind, EnclosureWords.Volume(box.NetCubicMeters, text, facts.Letterhead.Units), box.TuningHertz is { } hertz ? text.With(hertz, "Hz") : "–", box.HighPassHertz is { } corner ? text.With(corner, "Hz") : "none"))]),
                new Paragraph("The high-pass keeps the cone within its travel: whoever sets the processor anew sets it again.") { Secondary = true });
    }

    private static Section? Settings(HandoverFacts facts) => facts.Settings.Count == 0
        ? null
        : new Section(
            "Settings when it left us",
            new Table(
                [new Column("Setting", Width: 2), new Column("Value", Width: 3)],
                [.. facts.Settings.GroupBy(row => row.Device).SelectMany(device => device.Select(row => new TableRow(row.Setting, row.Value)).Prepend(TableRow.Group(device.Key)))]),
            new Paragraph("Write down what you change, so that the way back is known.") { Secondary = true });

    private static Section Weight(HandoverFacts facts)
    {
        var units = facts.Letterhead.Units;
        var other = units == UnitSystem.Us ? UnitSystem.Metric : UnitSystem.Us;
        var added = $"{Paper.Mass(facts.Mass.AddedKilograms, units)} ({Paper.Mass(facts.Mass.AddedKilograms, other)})";
        var blocks = new List<Block>
        {
            Paper.Facts(
                1,
                ("Added to the car", added),
                ("Load its label allows", facts.Mass.PayloadKilograms is { } payload ? $"{Paper.Mass(payload, units)} ({Paper.Mass(payload, other)})" : ""),
                ("Left for people and luggage", facts.Mass.PayloadKilograms is { } allowed
                    ? $"{Paper.Mass(allowed - facts.Mass.AddedKilograms, units)} ({Paper.Mass(allowed - facts.Mass.AddedKilograms, other)})"
                    : "")),
        };
        if (facts.Mass.UnknownParts > 0)
        {
            blocks.Add(new Paragraph(string.Create(CultureInfo.CurrentCulture, $"The mass of {facts.Mass.UnknownParts} parts is not known and not counted.")) { Secondary = true });
        }

        if (facts.Mass.PayloadKilograms is null)
        {
            blocks.Add(new Paragraph("The load label of the vehicle was not written down. What the parts add counts against the load it allows.") { Secondary = true });
        }

        var text = new UnitText(units, CultureInfo.CurrentCulture);
        List<Block> section = [new KeepTogether(blocks)];
        if (facts.Mass.Loads.Count > 0)
        {
            section.Add(WeightDocument.LoadTable(facts.Mass.Loads, text));
        }

        if (facts.Mass.Reconciled.Count > 0)
        {
            section.Add(new Paragraph("On four scales before and after: what the parts list says the build adds, against what the scales say."));
            section.Add(WeightDocument.ScaleTable(facts.Mass.Reconciled, text));
        }

        return new Section("Added weight", section);
    }

    private static Section? Held(HandoverFacts facts)
    {
        if (facts.Held.Count == 0)
        {
            return null;
        }

        var text = new UnitText(facts.Letterhead.Units, CultureInfo.CurrentCulture);
        return new Section(
            "How the heavy parts are held",
            new Table(
                [new Column("What", Width: 1.8), Column.Number("Mass"), new Column("Held by", Width: 3), Column.Number("Least safety factor"), new Column("Looked at by", Width: 1.6)],
                [.. facts.Held.Select(row => new TableRow(row.Name, text.Kilograms(row.Kilograms), row.HeldBy, row.SafetyFactor is { } factor ? text.Number(factor) : "not known", row.CheckedBy.Length > 0 ? row.CheckedBy : "nobody yet"))]),
            new Paragraph("Safety factor: what the worst fastener bears over what it has to in a hard stop or a crash; at least 1.5 is wanted. Do not loosen the fasteners, and let us look after an accident.") { Secondary = true });
    }

    private static Section? Functions(HandoverFacts facts) => facts.Functions.Count == 0
        ? null
        : new Section(
            "Factory functions, before and after",
            new Table(
                [new Column("Function", Width: 2.6), new Column("At check-in", Width: 1.2), new Column("At handover", Width: 1.2), new Column("Remarks", Width: 3)],
                [.. facts.Functions.GroupBy(function => function.Group).SelectMany(group => group
                    .Select(function => new TableRow(
                        function.Name,
                        FactoryFunctions.Text(function.Before),
                        FactoryFunctions.Text(AfterOf(function)),
                        string.Join(" ", new[] { function.BeforeNote, function.Explanation }.Where(text => text.Length > 0).Select(text => text.TrimEnd('.') + ".")))
                    {
                        Emphasis = function.Before == AfterOf(function) ? RowEmphasis.None : RowEmphasis.Strong,
                    })
                    .Prepend(TableRow.Group(group.Key)))]));

    /// <summary>What the car never had is not tried again, and is no difference.</summary>
    private static FunctionResult AfterOf(FunctionFact function) =>
        function is { Before: FunctionResult.NotFitted, After: FunctionResult.NotTried } ? FunctionResult.NotFitted : function.After;

    private static Section? WarrantyAndCare(HandoverFacts facts)
    {
        var blocks = new List<Block>();
        foreach (var (title, text) in new[] { ("Warranty", facts.Warranty), ("Care", facts.Care) })
        {
            var lines = Paper.Lines(text).ToList();
            if (lines.Count > 0)
            {
                blocks.Add(new Subheading(title));
                blocks.AddRange(lines.Select(line => new Paragraph(line)));
            }
        }

        if (facts.Letterhead.Contact.Count > 0)
        {
            blocks.Add(new Subheading("If something is not right"));
            blocks.Add(new Paragraph($"{facts.Letterhead.ShopName}, {string.Join(", ", facts.Letterhead.Contact)}. Name the job: {facts.JobReference}."));
        }

        return blocks.Count == 0 ? null : new Section("Warranty and care", blocks);
    }

    private static Section? Photos(HandoverFacts facts, IReadOnlyDictionary<string, ReadOnlyMemory<byte>> photos) => facts.Photos.Count == 0
        ? null
        : new Section(
            "Photos",
            new Photos([.. facts.Photos.Select(photo => new Photo(photos.GetValueOrDefault(photo.Hash), photo.Caption) { Key = photo.Id.ToString() })]) { PerRow = 2 });
}
