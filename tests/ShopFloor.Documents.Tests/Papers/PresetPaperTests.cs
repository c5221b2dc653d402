using ShopFloor.Documents.Composition;
using ShopFloor.Documents.Drawing;
using ShopFloor.Documents.Handover;
using ShopFloor.Documents.Tests.Drawing;
using ShopFloor.Documents.Tuning;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Processors;
using ShopFloor.Engineering.Tuning.Verification;
using ShopFloor.Shop.Phases.Tuning.Factory;
using ShopFloor.Shop.Phases.Tuning.Presets;

namespace ShopFloor.Documents.Tests.Papers;

/// <summary>The sheet of a preset and its page of the handover, drawn as PDF and read back.</summary>
public sealed class PresetPaperTests
{
    private static readonly ChannelSetting Tweeter = new()
    {
        Id = "t", Name = "Tweeter, left", GainDecibels = -3.5, DelaySeconds = 0.00125, Inverted = true, HighPass = new Crossover(CrossoverShape.LinkwitzRiley, 3_150, 24),
        Filters = [new FilterSetting { Kind = FilterKind.Peaking, Hertz = 6_300, GainDecibels = -2.4, Q = 3 }],
    };

    private static readonly FactoryNote Left = new() { Side = ImageSide.Left, Outputs = 2, FromHertz = 40, ToHertz = 18_000, PlainLossDecibels = 17, JoinedLossDecibels = 0.1, ApartSeconds = 0.00115, Filters = 5 };

    [Fact]
    public void Inputs_that_undo_a_factory_signal_stand_before_the_channels_with_what_it_came_to()
    {
        var profile = new ProcessorProfile { Name = "Ten filters" };
        var input = new ChannelSetting { Id = "in", Name = "Front door left", DelaySeconds = 0.0015, Filters = [new FilterSetting { Kind = FilterKind.AllPass, Hertz = 900, Q = 0.8 }] };
        var form = new PresetForm { PresetId = Guid.CreateVersion7(), Number = 1, SavedBy = new DoneBy("Tom Tech", new DateTimeOffset(2031, 3, 3, 9, 0, 0, TimeSpan.Zero)), Profile = profile, Target = TargetCurve.BuiltIn[1], Channels = [Tweeter], Inputs = [input], Factory = [Left] };
        using var pdf = DrawnPdf.Of(PresetDocument.Compose(new PresetPaper(SampleJob.Letterhead, "J-7", "Front stage", "Verano Lince", "Driver's seat", form, PresetSheet.Of(form.Settings("Driver's seat"), profile, 343))));

        // 1.5 ms at 48 kHz are 72 samples.
        foreach (var expected in new[] { "before the inputs are mixed", "Front door left", "1.500", "72", "Filters: Input: Front door left", "All-pass", "undone by 5 filters" })
            Assert.Contains(expected, pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_handover_tells_what_the_factory_signal_came_to_where_there_was_one()
    {
        var tuning = new TuningFact { Label = "Driver's seat, version 3", Processor = "Ten filters", Target = "Even slope", Channels = [Tweeter] };
        using var with = DrawnPdf.Of(HandoverDocument.Compose(SampleJob.Handover with { Tuning = tuning with { Factory = [Left] } }));
        using var without = DrawnPdf.Of(HandoverDocument.Compose(SampleJob.Handover with { Tuning = tuning }));

        Assert.Contains("Factory signal", with.Text, StringComparison.Ordinal);
        Assert.Contains("undone by 5 filters", with.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Factory signal", without.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_processor_is_typed_up_from_one_sheet_high_passes_first()
    {
        var profile = new ProcessorProfile { Name = "Ten filters" };
        var form = new PresetForm { PresetId = Guid.CreateVersion7(), Number = 3, SavedBy = new DoneBy("Tom Tech", new DateTimeOffset(2031, 3, 3, 9, 0, 0, TimeSpan.Zero)), Profile = profile, Target = TargetCurve.BuiltIn[1], Channels = [Tweeter] };
        using var pdf = DrawnPdf.Of(PresetDocument.Compose(new PresetPaper(SampleJob.Letterhead, "J-7", "Front stage", "Verano Lince", "Driver's seat", form, PresetSheet.Of(form.Settings("Driver's seat"), profile, 343))));

        // 1.25 ms at 48 kHz is 60 samples.
        foreach (var expected in new[] { "Driver's seat, version 3", "Tweeter, left", "1.250", "60", "turned", "3150", "24 dB/oct", "6300", "Bell", "High-passes first", "Coefficients" })
            Assert.Contains(expected, pdf.Text.Replace(",150", "150", StringComparison.Ordinal).Replace(",300", "300", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Fact]
    public void The_client_reads_what_the_tuning_reached_and_what_was_heard()
    {
        using var pdf = DrawnPdf.Of(HandoverDocument.Compose(SampleJob.Handover with { Tuning = Tuned([Tweeter], [new HeardFact("Is it one person in the middle?", true, "")]) }));
        using var without = DrawnPdf.Of(HandoverDocument.Compose(SampleJob.Handover));

        foreach (var expected in new[] { "How the sound was tuned", "0.8 dB, 4.0 dB before", "Asked at the seat, and answered yes each time: Is it one person in the middle?", "Left and right at the seat before", "as tuned" })
            Assert.Contains(expected, pdf.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("How the sound was tuned", without.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(7, PaperSize.A4)]
    [InlineData(7, PaperSize.Letter)]
    [InlineData(12, PaperSize.A4)]
    [InlineData(12, PaperSize.Letter)]
    public void The_tuning_is_one_page_of_the_handover(int channels, PaperSize paper)
    {
        List<ChannelSetting> settings = [.. Enumerable.Range(1, channels).Select(n => Tweeter with { Id = $"{n}", Name = $"Midrange, right ({n})", LowPass = new Crossover(CrossoverShape.LinkwitzRiley, 12_500, 24) })];
        List<HeardFact> heard = [.. ListeningChecklist.Points.Select((point, at) => new HeardFact(point.Question, at != 3, at == 3 ? "the voice sinks with the window open" : ""))];
        using var pdf = DrawnPdf.Of(HandoverDocument.Compose(SampleJob.Handover with { Tuning = Tuned(settings, heard) }), paper);

        var from = Page(pdf, "How the sound was tuned");
        Assert.Equal(from, Page(pdf, "We keep all settings of this preset."));
        Assert.Contains("Not yet as it should be: Are both above the dashboard", DrawnPdf.TextOf(pdf.Pages[from]), StringComparison.Ordinal);
    }

    private static int Page(DrawnPdf pdf, string text) => pdf.Pages.ToList().FindIndex(page => DrawnPdf.TextOf(page).Contains(text, StringComparison.Ordinal));

    private static TuningFact Tuned(IReadOnlyList<ChannelSetting> channels, IReadOnlyList<HeardFact> heard)
    {
        double[] hertz = [.. Enumerable.Range(0, 121).Select(n => 20 * Math.Pow(1000, n / 120.0))];
        double[] level = [.. hertz.Select(f => 80 - Math.Log2(f / 20))];
        return new TuningFact
        {
            Label = "Driver's seat, version 3", Processor = "Ten filters", Target = "Even slope", Channels = channels, Hertz = hertz, LeftBefore = level, RightBefore = [.. level.Select(one => one - 4)], Left = level, Right = level,
            LargestDecibels = 0.8, LargestBeforeDecibels = 4, ArrivalSeconds = 0.000012, FromHertz = 100, ToHertz = 10_000, Heard = heard,
        };
    }
}
