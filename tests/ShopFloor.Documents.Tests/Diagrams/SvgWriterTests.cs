using System.Globalization;
using System.Xml.Linq;
using ShopFloor.Documents.Diagrams;

namespace ShopFloor.Documents.Tests.Diagrams;

public sealed class SvgWriterTests
{
    [Fact]
    public void Text_and_attributes_are_escaped_and_what_xml_forbids_is_left_out()
    {
        const string Nasty = "<script>alert(\"1\" & '2')</script>\u0000\u0008\uD83D";
        var svg = new SvgWriter(10, 10, Nasty).BeginGroup(Nasty).Text(1, 2, Nasty, new SvgTextStyle(12)).EndGroup().Finish();

        var root = XDocument.Parse(svg).Root!;
        const string Kept = "<script>alert(\"1\" & '2')</script>\uFFFD";
        Assert.Equal(Kept, root.Attribute("aria-label")!.Value);
        Assert.Equal(Kept, root.Descendants().Single(element => element.Name.LocalName == "text").Value);
        Assert.DoesNotContain(root.Descendants(), element => element.Name.LocalName == "script");
    }

    [Theory]
    [InlineData(1234.5, "1234.5")]
    [InlineData(-0.001, "0")]
    [InlineData(0.125, "0.12")]
    [InlineData(1e7, "10000000")]
    public void Numbers_are_written_the_same_in_every_culture(double value, string expected)
    {
        var before = CultureInfo.CurrentCulture;
        CultureInfo.CurrentCulture = new CultureInfo("de-DE");
        try
        {
            Assert.Equal(expected, SvgWriter.Number(value));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Numbers_that_are_none_are_refused(double value)
    {
        Assert.Throws<ArgumentException>(() => SvgWriter.Number(value));
    }

    [Fact]
    public void Open_group_is_noticed()
    {
        Assert.Throws<InvalidOperationException>(() => new SvgWriter(1, 1, "").BeginGroup("a").Finish());
        Assert.Throws<InvalidOperationException>(() => new SvgWriter(1, 1, "").EndGroup());
    }
}
