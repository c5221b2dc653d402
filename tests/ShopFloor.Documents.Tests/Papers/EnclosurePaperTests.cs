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
    public void Of_a_band_pass_the_bench_reads_both_chambers_and_how_the_port_lies_in_front()
    {
        var view = View(null, form =>
        {
            form.Alternatives = [new BoxAlternative { Kind = EnclosureKind.BandPass, NetCubicMeters = 0.028, FrontCubicMeters = 0.02, TuningHertz = 55, PortDiameterMeters = 0.1 }];
            form.Chosen = 0;
            form.Volume = new BoxVolumeForm { WidthMeters = 0.4, HeightMeters = 0.3, DepthMeters = 0.25 };
            form.FrontVolume = new BoxVolumeForm { WidthMeters = 0.3, HeightMeters = 0.3, DepthMeters = 0.25 };
        });

        using var pdf = DrawnPdf.Of(EnclosureDocument.Compose(Sheet(null) with { Enclosures = [("Boot box", view)] }));

        foreach (var expected in new[] { "in the chamber before the cone", "fits", "as a pipe at", "behind the cone 30", "before the cone", "left for the air" })
            Assert.Contains(expected, pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_job_without_a_box_says_so()
    {
        using var pdf = DrawnPdf.Of(EnclosureDocument.Compose(Sheet(null) with { Enclosures = [] }));

        Assert.Contains("No enclosure is designed", pdf.Text, StringComparison.Ordinal);
    }

    private static EnclosureSheet Sheet(double? mechanical) => new(SampleJob.Letterhead, "J-0042", "Deep bass", "2028 Verano Lince", [("Boot box", View(mechanical))]);

    // An invented driver.
    private static EnclosureView View(double? mechanical, Action<EnclosureForm>? change = null)
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
        change?.Invoke(form);
        return EnclosureStudies.Of(form, new EnclosureFacts([new EnclosureDriver(part, "Woofer", 1, data, null, null)], 3.1), Guid.CreateVersion7(), "Boot box", UnitText.Invariant);
    }
}
