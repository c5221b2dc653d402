using System.Globalization;
using ShopFloor.Documents.Composition;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Handover;

namespace ShopFloor.Documents.Handover;

/// <summary>How boxes, panels, composites and treatments are built: short, for the client and whoever opens them years later. No money.</summary>
internal static class HandoverBuild
{
    public static Section? Of(HandoverFacts facts)
    {
        if (facts.Made.Count == 0)
        {
            return null;
        }

        var text = new UnitText(facts.Letterhead.Units, CultureInfo.CurrentCulture);
        List<Block> blocks = [];
        foreach (var made in facts.Made)
        {
            List<Block> one = [new Subheading(made.Name), new Paragraph(string.Join(", ", new[] { made.Kind, made.Place }.Where(word => word.Length > 0)) + ".") { Secondary = true }];
            if (made.Materials.Count > 0)
            {
                one.Add(new Table(
                    [new Column("Made of", Width: 3), Column.Number("In the car"), new Column("How", Width: 3)],
                    [.. made.Materials.Select(row => new TableRow(row.Name, row.Kilograms is { } kilograms ? Small(kilograms, facts.Letterhead.Units, text) : "–", row.Detail))]));
            }

            one.AddRange(new[] { ("Held together with", made.GluedWith), ("Comes off", made.ComesOff), ("Care", made.Care) }.Where(row => row.Item2.Length > 0).Select(row => new Paragraph(FormattedText.Strong(row.Item1 + ": ") + row.Item2)));
            blocks.Add(new KeepTogether(one));
        }

        return new Section("How it is built", blocks);
    }

    // Grams tell more than hundredths of a kilogram.
    private static string Small(double kilograms, UnitSystem units, UnitText text) =>
        units == UnitSystem.Us ? text.With(kilograms / ExactFactors.KilogramsPerOunce, "oz") : text.With(kilograms * 1000, "g", kilograms >= 1 ? 4 : 3);
}
