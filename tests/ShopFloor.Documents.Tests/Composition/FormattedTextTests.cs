using ShopFloor.Documents.Composition;

namespace ShopFloor.Documents.Tests.Composition;

public sealed class FormattedTextTests
{
    [Fact]
    public void Strings_and_emphasis_join_in_order()
    {
        var text = "Fit " + FormattedText.Strong("F1") + " last" + FormattedText.Italic("!");

        Assert.Equal("Fit F1 last!", text.ToString());
        Assert.Equal([Emphasis.None, Emphasis.Strong, Emphasis.None, Emphasis.Italic], text.Runs.Select(run => run.Emphasis));
    }

    [Fact]
    public void Asterisks_and_angle_brackets_in_text_are_not_markup()
    {
        FormattedText text = "*4 ohm* <b>";

        Assert.Equal(new TextRun("*4 ohm* <b>"), Assert.Single(text.Runs));
    }

    [Fact]
    public void Null_and_empty_strings_become_empty_text()
    {
        FormattedText fromNull = (string?)null;

        Assert.True(fromNull.IsEmpty);
        Assert.True(FormattedText.FromString("").IsEmpty);
    }

    [Fact]
    public void Pairs_of_strings_become_facts()
    {
        var facts = new KeyValues(("Mileage", "81 200 km"), ("Plate", "HL 52 KTO"));

        Assert.Equal(["Mileage", "Plate"], facts.Facts.Select(fact => fact.Name));
        Assert.Equal("81 200 km", facts.Facts[0].Value.ToString());
    }
}
