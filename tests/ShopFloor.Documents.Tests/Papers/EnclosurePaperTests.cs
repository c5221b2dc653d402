using ShopFloor.Documents.Enclosures;
using ShopFloor.Documents.Tests.Drawing;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Documents.Tests.Papers;

/// <summary>The enclosure sheet drawn as PDF and read back.</summary>
public sealed class EnclosurePaperTests
{
    [Fact]
    public void The_bench_reads_the_box_its_port_its_limits_and_why()
    {
        using var pdf = DrawnPdf.Of(EnclosureDocument.Compose(Sheet(null)));

        foreach (var expected in new[] { "B: Vented, 42", "31", "High-pass to keep", "Alternatives", "Closed, 24", "long", "Excursion of the cone", "Helmholtz", "Dust of boards", "hearing protection", "filled in" })
            Assert.Contains(expected, pdf.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Not to be played", pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_cone_that_would_break_stands_before_everything_else()
    {
        using var pdf = DrawnPdf.Of(EnclosureDocument.Compose(Sheet(5)));

        var at = pdf.Text.IndexOf("Not to be played like this", StringComparison.Ordinal);
        Assert.True(at > 0 && at < pdf.Text.IndexOf("To be built", StringComparison.Ordinal));
    }

    [Fact]
    public void A_job_without_a_box_says_so()
    {
        using var pdf = DrawnPdf.Of(EnclosureDocument.Compose(Sheet(null) with { Enclosures = [] }));

        Assert.Contains("No enclosure is designed", pdf.Text, StringComparison.Ordinal);
    }

    private static EnclosureSheet Sheet(double? mechanical) => new(SampleJob.Letterhead, "J-0042", "Deep bass", "2028 Verano Lince", [("Boot box", View(mechanical))]);

    // An invented driver.
    private static EnclosureView View(double? mechanical)
    {
        var part = Guid.CreateVersion7();
        var data = new LoudspeakerData
        {
            NominalOhms = 4, Coils = 1, RatedWatts = 500, ResonanceHertz = 29, Qes = 0.51, Qms = 5.8, VasLitres = 36, PistonSquareCentimeters = 346, ReOhms = 3.4, XmaxMillimeters = 15, MechanicalMillimeters = mechanical,
        };
        var form = new EnclosureForm
        {
            LoudspeakerPartId = part,
            Watts = 300,
            Chosen = 1,
            Alternatives = [new BoxAlternative { NetCubicMeters = 0.024 }, new BoxAlternative { Kind = EnclosureKind.Vented, NetCubicMeters = 0.042, TuningHertz = 31, PortDiameterMeters = 0.12, HighPassHertz = 25 }],
        };
        return EnclosureStudies.Of(form, new EnclosureFacts([new EnclosureDriver(part, "Woofer", 1, data, null, null)], 3.1), Guid.CreateVersion7(), "Boot box", UnitText.Invariant);
    }
}
