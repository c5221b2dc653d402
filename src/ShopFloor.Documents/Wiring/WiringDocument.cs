using System.Globalization;
using ShopFloor.Documents.Composition;
using ShopFloor.Documents.Diagrams;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Safety;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Documents.Wiring;

/// <summary>The sheet the looms are made by: single-line diagram, every conductor, every fuse, what to cut from, spares.</summary>
public static class WiringDocument
{
    /// <param name="schedule">What the bench makes.</param>
    /// <param name="measured">What is measured before it is given free; empty leaves the table out.</param>
    public static PrintedDocument Compose(WiringSchedule schedule, IReadOnlyList<MeasuredFact>? measured = null)
    {
        ArgumentNullException.ThrowIfNull(schedule);
        var text = new UnitText(schedule.Letterhead.Units, CultureInfo.CurrentCulture);
        var head = Paper.Head(schedule.Letterhead, $"{schedule.JobReference}   Wiring", $"{schedule.Vehicle}: {schedule.JobTitle}", "Wiring schedule") with
        {
            ShopContact = [],
            FooterText = $"Wiring · {schedule.JobReference} · {schedule.Vehicle}",
        };
        return new PrintedDocument(head, [.. Sections(schedule, measured ?? [], text)]);
    }

    private static IEnumerable<Section> Sections(WiringSchedule schedule, IReadOnlyList<MeasuredFact> measured, UnitText text)
    {
        var front = new List<Block>();
        if (schedule.Stops.Count > 0)
        {
            front.Add(new Caution(
                CautionKind.Danger,
                FormattedText.Strong("Not to be built from yet. ") + $"The plan has {schedule.Stops.Count.ToString(CultureInfo.CurrentCulture)} open stop findings, the first: {schedule.Stops[0].Subject}: {schedule.Stops[0].Text}"));
        }

        front.AddRange(Cautions(schedule.Safety));
        if (PlanDiagram.Of(schedule.Plan, text) is { } tree)
        {
            front.Add(new Figure(FeedDiagram.Draw(tree), "Single-line diagram: W wires, F fuses. Lengths are those of the route.", 120));
        }

        yield return new Section("", front);
        yield return new Section(
            "Before work on the supply, and when it comes back",
            NumberedSteps.From([.. WorkSafety.BeforeWork(schedule.Safety.HighVoltage), "Work on the supply. " + WorkSafety.RestraintRule, .. WorkSafety.AfterWork]),
            new Paragraph($"Order and steps are {Unsourced.CommonPractice}. {WorkSafety.MakersFirst}") { Secondary = true });
        yield return new Section("Wires", Wires(schedule, text), new Paragraph(
            $"Cut lengths hold {text.Meters(schedule.ServiceLoopMeters)} for ends and a service loop. Colours are the shop's convention. Terminals: where none is named, the maker of the part or the distribution says which; size them to bolt and conductor and crimp with the tool their maker names.") { Secondary = true });
        if (Restraints(schedule) is { Count: > 0 } restraints)
        {
            yield return new Section("Airbags and belts on the way", [.. restraints]);
        }

        yield return new Section("Fuses", new Table(
            ["Fuse", Column.Number("Rating"), new Column("Form", Width: 1.6), new Column("Fed at", Width: 2.4), new Column("Protects", Width: 2.4), new Column("From the source", Width: 1.6)],
            [.. schedule.Fuses.Select(fuse => new TableRow(fuse.Mark, text.Amperes(fuse.RatingAmperes), fuse.Form, fuse.Place, fuse.Protects, fuse.FromSourceMeters is { } meters ? text.Meters(meters) : "to be measured"))])
        {
            WhenEmpty = "No fuse is planned yet.",
        });
        yield return new Section("Cut from", new Table(
            ["Size", new Column("Insulation", Width: 1.2), "Colour", Column.Number("Pieces"), Column.Number("Length")],
            [.. schedule.ToCut.Select(wire => new TableRow(PlanDiagram.SizeText(wire.Size, wire.AreaSquareMillimeters, text), text.Celsius(wire.InsulationCelsius), wire.Colour, wire.Pieces.ToString(CultureInfo.CurrentCulture), Both(wire.Meters)))])
        {
            WhenEmpty = "Nothing to cut yet.",
        });
        if (measured.Count > 0)
        {
            yield return new Section("As measured", MeasuredTable.ForBench(measured));
        }

        if (schedule.Spares.Count > 0)
        {
            yield return new Section("Spares to leave in the car", new Paragraph(string.Join("; ", schedule.Spares.Select(fuse => $"{text.Amperes(fuse.RatingAmperes)} {fuse.Form}")) + "."),
                new Paragraph($"One of each fuse that is changed by hand. A bolted fuse opens for a fault that is to be found first ({Unsourced.CommonPractice}).") { Secondary = true });
        }
    }

    private static IEnumerable<Caution> Cautions(SupplySafety safety) =>
        WorkSafety.Supply(safety.HighVoltage).Where(caution => caution.IsDanger).Concat(safety.Batteries)
            .Select(caution => new Caution(caution.IsDanger ? CautionKind.Danger : CautionKind.Caution, caution.Text));

    private static List<Caution> Restraints(WiringSchedule schedule) =>
    [
        .. from wire in schedule.Wires
           let run = schedule.Plan.Runs.FirstOrDefault(found => found.Place.RunId == wire.RunId)
           where run is not null
           let caution = SupplySafety.RouteCaution(run.Place.From, run.Place.To)
           where caution is not null
           group wire.Mark by caution into same
           select new Caution(CautionKind.Danger, FormattedText.Strong(string.Join(", ", same) + ". ") + same.Key),
    ];

    private static Table Wires(WiringSchedule schedule, UnitText text) => new(
        ["Wire", new Column("From", Width: 2.4), new Column("To", Width: 2.4), new Column("Size", Width: 1.5), "Colour", Column.Number("Cut"), "Fuse", new Column("Route and notes", Width: 2.2)],
        [.. schedule.Wires.Select(wire => new TableRow(
            wire.Mark,
            End(wire.From, wire.FromTerminal),
            End(wire.To, wire.ToTerminal),
            $"{PlanDiagram.SizeText(wire.Size, wire.AreaSquareMillimeters, text)}, {text.Celsius(wire.InsulationCelsius)}",
            wire.Colour,
            Both(wire.CutMeters),
            wire.FuseMark,
            string.Join(" ", new[] { wire.Route, wire.Notes }.Where(part => part.Length > 0))))])
    {
        WhenEmpty = "No run is sized yet.",
    };

    private static string End(string place, string terminal) => terminal.Length > 0 ? $"{place}: {terminal}" : place;

    /// <summary>Metres and feet: whoever cuts reads the tape they have.</summary>
    private static string Both(double meters) => string.Create(CultureInfo.CurrentCulture, $"{meters:0.00} m ({meters / 0.3048:0.0} ft)");
}
