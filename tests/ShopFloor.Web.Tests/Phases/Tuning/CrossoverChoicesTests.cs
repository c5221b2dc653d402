using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Processors;
using ShopFloor.Shop.Phases.Tuning.Presets;
using ShopFloor.Web.Phases.Tuning;

namespace ShopFloor.Web.Tests.Phases.Tuning;

public sealed class CrossoverChoicesTests
{
    private static readonly ProcessorProfile Small = ProcessorProfiles.Generic with { Shapes = [CrossoverShape.Butterworth, CrossoverShape.LinkwitzRiley], SlopesDecibelsPerOctave = [18, 12] };

    [Fact]
    public void Every_choice_is_a_filter_that_can_be_made()
    {
        var all = CrossoverChoices.Of(ProcessorProfiles.Generic, null);

        // Eight slopes of two shapes, four of Linkwitz-Riley, which goes in steps of 12 dB per octave.
        Assert.Equal(20, all.Count);
        Assert.All(all, kind => Assert.Empty(kind.At(1_000).Validate(48_000)));
    }

    [Fact]
    public void Only_what_the_processor_makes_is_offered_and_what_is_set_stays_to_be_seen()
    {
        CrossoverKind[] made = [new(CrossoverShape.Butterworth, 12), new(CrossoverShape.Butterworth, 18), new(CrossoverShape.LinkwitzRiley, 12)];
        Assert.Equal(made, CrossoverChoices.Of(Small, new Crossover(CrossoverShape.Butterworth, 80, 12)));
        Assert.Equal([new(CrossoverShape.Bessel, 24), .. made], CrossoverChoices.Of(Small, new Crossover(CrossoverShape.Bessel, 80, 24)));
    }

    [Fact]
    public void A_new_crossover_is_one_the_processor_makes_and_a_moved_one_keeps_its_shape()
    {
        Assert.Equal(new Crossover(CrossoverShape.LinkwitzRiley, 3_000, 24), CrossoverChoices.Half(ProcessorProfiles.Generic, null, 3_000));
        Assert.Equal(new Crossover(CrossoverShape.Butterworth, 3_000, 18), CrossoverChoices.Half(Small, null, 3_000));
        Assert.Equal(new Crossover(CrossoverShape.Bessel, 90, 24), CrossoverChoices.Half(Small, new Crossover(CrossoverShape.Bessel, 80, 24), 90));
        Assert.Null(CrossoverChoices.Half(Small, new Crossover(CrossoverShape.Bessel, 80, 24), null));
    }
}
