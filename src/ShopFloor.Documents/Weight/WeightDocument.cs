using System.Globalization;
using ShopFloor.Documents.Composition;
using ShopFloor.Documents.Diagrams;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Mass;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Documents.Weight;

/// <summary>The paper on weight: every item with its place, loads against the labels, the scales, how the heavy things are held and how fuses are reached.</summary>
public static class WeightDocument
{
    public static PrintedDocument Compose(WeightSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        var text = new UnitText(sheet.Letterhead.Units, CultureInfo.CurrentCulture);
        var head = Paper.Head(sheet.Letterhead, $"{sheet.JobReference}   Weight and holds", $"{sheet.Vehicle}: {sheet.JobTitle}", "Added weight, axle loads, restraint, service access") with
        {
            ShopContact = [],
            FooterText = $"Weight and holds · {sheet.JobReference} · {sheet.Vehicle}",
        };
        return new PrintedDocument(head, [.. new[] { Opening(sheet.Weight, text), Loads(sheet.Weight, text), Scales(sheet.Weight, text), Items(sheet.Weight, text), Restraints(sheet, text), Service(sheet.Service), Findings(sheet) }.OfType<Section>()]);
    }

    private static Section Opening(WeightPlanView view, UnitText text) => new(
        "",
        Paper.Facts(
            2,
            ("Net added", text.Kilograms(view.Result.NetKilograms)),
            ("Put in", text.Kilograms(view.Result.InstalledKilograms)),
            ("Taken out", text.Kilograms(view.Result.RemovedKilograms)),
            ("Payload left", view.Result.RemainingPayloadKilograms is { } left ? $"{text.Kilograms(left)} of {text.Kilograms(view.Label.PayloadKilograms ?? 0)}" : ""),
            ("Budget", view.Target is { } target ? $"{text.Percent(100 * target.UsedShare)} of {text.Kilograms(target.NetKilograms + target.LeftKilograms)} used" : ""),
            ("Middle of the change", view.Balance.Center is { } center ? $"{text.Meters(center.RearwardMeters)} behind the front axle, {Side(center.LeftMeters, text)}, {text.Millimeters(center.UpMeters)} above the floor" : "")));

    private static Section? Loads(WeightPlanView view, UnitText text) => view.Loads.Count == 0
        ? null
        : new Section(
            "Loads",
            new Figure(VehicleLoadPlan.Draw(view, text), "From above, nose to the left. At the wheels: load after the build, and the change. Circles put in, squares taken out; the cross is the centre of mass.", 90),
            LoadTable(view.Loads, text),
            new Paragraph("Change by equilibrium of moments. Sums, axles and sides are exact; single wheels take equal roll stiffness front and rear for granted.") { Secondary = true });

    internal static Table LoadTable(IReadOnlyList<LoadRow> loads, UnitText text) => new(
        [new Column("Load", Width: 1.4), Column.Number("Before"), Column.Number("Change"), Column.Number("Reckoned"), Column.Number("Weighed"), Column.Number("Label")],
        [.. loads.Select(row => new TableRow(row.Name, Mass(row.Before, text), LoadRow.Signed(row.Change, text), Mass(row.After, text), Mass(row.Weighed, text), Mass(row.Rating, text)) { Emphasis = row.IsOver ? RowEmphasis.Strong : RowEmphasis.None })]);

    internal static Table ScaleTable(IReadOnlyList<CornerReconciliation> rows, UnitText text) => new(
        [new Column("Change", Width: 1.4), Column.Number("Reckoned"), Column.Number("Weighed"), Column.Number("Difference"), Column.Number("Scales leave open"), new Column("Verdict", Width: 1.4)],
        [.. rows.Select(row => new TableRow(
            row.Name, LoadRow.Signed(row.PredictedKilograms, text), LoadRow.Signed(row.MeasuredKilograms, text), LoadRow.Signed(row.MeasuredKilograms - row.PredictedKilograms, text),
            "± " + text.Kilograms(row.ToleranceKilograms), row.Agrees ? "agrees" : "differs"))]);

    private static Section? Scales(WeightPlanView view, UnitText text) => view.Balance.Corners is not { Reconciled.Count: > 0 } corners
        ? null
        : new Section("Scales against the parts", ScaleTable(corners.Reconciled, text));

    private static Section Items(WeightPlanView view, UnitText text) => new(
        "Every item",
        new Table(
            [new Column("Item", Width: 2.4), Column.Number("Mass"), new Column("Place", Width: 2.6), Column.Number("Behind front axle"), Column.Number("Left of middle")],
            [.. view.Placed.OrderByDescending(part => Math.Abs(part.Kilograms ?? 0)).Select(part => new TableRow(
                part.Name, part.Kilograms is { } kilograms ? LoadRow.Signed(kilograms, text) : "not weighed", part.PlaceText, part.RearwardMeters is { } x ? text.Meters(x) : "–", part.LeftMeters is { } y ? text.Meters(y) : "–"))]) { WhenEmpty = "No part is on the list." });

    private static Section? Restraints(WeightSheet sheet, UnitText text)
    {
        if (sheet.Restraints.Items.Count == 0)
        {
            return null;
        }

        List<Block> blocks = [];
        foreach (var item in sheet.Restraints.Items)
        {
            blocks.Add(new Subheading($"{item.Design.Name}, {text.Kilograms(item.Kilograms)}"));
            blocks.Add(new Paragraph($"{item.Design.Form.HeldByText}. Carries: {string.Join(", ", item.Carried.Select(part => part.Name))}."));
            if (item.Result is { } result)
            {
                blocks.Add(new Table(
                    ["Pushed", Column.Number("Against"), Column.Number("Force"), "Worst fastener", Column.Number("Pull on it"), Column.Number("Across it"), Column.Number("Margin")],
                    [.. result.Directions.Select(direction => new TableRow(
                        RestraintWords.Direction(direction.Direction), text.With(item.Against.Of(direction.Direction), "g"), text.With(direction.ForceNewtons, "N"), direction.WorstFastenerId,
                        direction.TensionNewtons is { } pull ? text.With(pull, "N") : "not held", text.With(direction.ShearNewtons, "N"), text.Number(direction.Margin ?? 0))
                        { Emphasis = direction == item.Worst ? RowEmphasis.Strong : RowEmphasis.None })]));
            }

            blocks.Add(new Checklist([.. item.Checks.Select(check => new ChecklistItem(
                $"Clear of: {check.Text}{(check.Tick is { } tick ? $" ({tick.By}, {Paper.Moment(sheet.Letterhead, tick.At)})" : "")}", check.Tick is not null))]));
        }

        return new Section("How it is held", blocks);
    }

    private static Section? Service(ServiceView service) => service.Rows.Count == 0
        ? null
        : new Section(
            "Service access",
            new Table(
                [new Column("Part", Width: 2), new Column("Place", Width: 1.8), new Column("How to get at it", Width: 3), new Column("Tools", Width: 1.4)],
                [.. service.Rows.Select(row => new TableRow(row.Name, row.Place.Length > 0 ? $"{row.Zone}: {row.Place}" : row.Zone, row.Way, row.ToolsText))]));

    private static Section? Findings(WeightSheet sheet)
    {
        List<Finding> findings = [.. sheet.Weight.Findings, .. sheet.Restraints.Items.SelectMany(item => item.Findings), .. sheet.Service.Findings];
        return findings.Count == 0 && sheet.Weight.Balance.Missing.Count == 0
            ? null
            : new Section(
                "Worth knowing",
                Bullets.From([.. findings.Select(finding => $"{finding.Subject}: {finding.Text} {finding.Remedy}"), .. sheet.Weight.Balance.Missing.Select(fact => $"Not known: {fact.Name}.")]));
    }

    private static string Mass(double? kilograms, UnitText text) => kilograms is { } known ? LoadRow.Load(known, text) : "–";

    private static string Side(double left, UnitText text) => Math.Abs(left) < 0.005 ? "in the middle" : $"{text.Millimeters(Math.Abs(left))} {(left > 0 ? "left" : "right")} of the middle";
}

/// <summary>Words of restraint for screens and papers.</summary>
public static class RestraintWords
{
    public static string Direction(Engineering.Fabrication.Restraint.ForceDirection direction) => direction switch
    {
        Engineering.Fabrication.Restraint.ForceDirection.Forward => "to the front",
        Engineering.Fabrication.Restraint.ForceDirection.Rearward => "to the rear",
        Engineering.Fabrication.Restraint.ForceDirection.Left => "to the left",
        Engineering.Fabrication.Restraint.ForceDirection.Right => "to the right",
        _ => "upward",
    };
}
