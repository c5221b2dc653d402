using System.Numerics;
using CsCheck;
using ShopFloor.Engineering.Tuning.Filters;

namespace ShopFloor.Engineering.Tests.Tuning;

public class FilterTests
{
    private static readonly double[] _shown = [20, 63, 80, 100, 250, 500, 1000, 2500, 5000, 8000, 10000, 16000, 20000];

    private static readonly Gen<FilterSetting> _anyFilter = Gen.Select(Gen.Enum<FilterKind>(), Gen.Double[1.4, 4.3], Gen.Double[-24, 24], Gen.Double[-1, 1.3], (kind, decade, gain, q) =>
        new FilterSetting { Kind = kind, Hertz = Math.Pow(10, decade), GainDecibels = gain, Q = Math.Pow(10, q) });

    /// <summary>Fixture: the Audio EQ Cookbook's formulas, each set checked against scipy.signal.bilinear of the prewarped prototype; 21 filters at 48 and 96 kHz.</summary>
    [Fact]
    public void Coefficients_are_those_of_the_cookbook_to_twelve_places()
    {
        var checkedRows = 0;
        foreach (var row in Fixture.Rows("biquads.csv").Where(row => row["type"] != "bpf_skirt"))
        {
            double rate = Fixture.Number(row["fs"]), hertz = Fixture.Number(row["f0"]), gain = Fixture.Number(row["gain_db"]);
            var q = row["Q"] is { Length: > 0 } given ? Fixture.Number(given)
                : row["S"] is { Length: > 0 } slope ? CookbookFilters.QOfSlope(Fixture.Number(slope), gain)
                : CookbookFilters.QOfBandwidth(Fixture.Number(row["BW_oct"]), hertz, rate);
            var section = CookbookFilters.Design(new FilterSetting { Kind = Kind(row["type"]), Hertz = hertz, GainDecibels = gain, Q = q }, rate);
            Assert.Equal(Fixture.Number(row["b0"]), section.B0, 1e-12);
            Assert.Equal(Fixture.Number(row["b1"]), section.B1, 1e-12);
            Assert.Equal(Fixture.Number(row["b2"]), section.B2, 1e-12);
            Assert.Equal(Fixture.Number(row["a1"]), section.A1, 1e-12);
            Assert.Equal(Fixture.Number(row["a2"]), section.A2, 1e-12);
            foreach (var at in _shown)
            {
                var expected = Fixture.Number(row[$"db_at_{at}"]);
                if (expected > -120) // below, rounding decides
                    Assert.Equal(expected, Decibels(section.At(at, rate)), 6e-6);
            }

            checkedRows++;
        }

        Assert.Equal(40, checkedRows);
    }

    [Fact]
    public void Chains_respond_as_scipy_says()
    {
        var chain = new ChannelSetting
        {
            Id = "c", Name = "Channel", GainDecibels = -3, Inverted = true,
            HighPass = new Crossover(CrossoverShape.Bessel, 75, 18), LowPass = new Crossover(CrossoverShape.LinkwitzRiley, 2_800, 36),
            Filters =
            [
                new FilterSetting { Kind = FilterKind.Peaking, Hertz = 160, GainDecibels = -7, Q = 3 },
                new FilterSetting { Kind = FilterKind.HighShelf, Hertz = 1_800, GainDecibels = 4, Q = 0.6 },
                new FilterSetting { Kind = FilterKind.AllPass, Hertz = 400, Q = 1.1 },
                new FilterSetting { Kind = FilterKind.FirstOrderAllPass, Hertz = 900 },
            ],
        };
        var grid = FrequencyGrid.LogSpaced(10, 20_000, 487, 48_000); // not a multiple of any vector's width
        var sections = chain.Sections(48_000);
        var answer = Scipy.Ask(
            "w,h=ss.sosfreqz(np.array(given['sos']),worN=np.array(given['hertz']),fs=48000)\nanswer=dict(re=h.real.tolist(),im=h.imag.tolist())",
            new { sos = sections.Select(s => new[] { s.B0, s.B1, s.B2, 1, s.A1, s.A2 }), hertz = grid.Hertz });
        var (re, im) = (answer.GetProperty("re").Numbers(), answer.GetProperty("im").Numbers());
        var ours = chain.Response(grid);
        for (var i = 0; i < ours.Length; i++)
            Assert.True((ours[i] + Math.Pow(10, -3.0 / 20) * new Complex(re[i], im[i])).Magnitude < 1e-8, $"{grid.Hertz[i]} Hz");
    }

    /// <summary>scipy.signal.butter and bessel (norm 'mag') make the digital filters from their own prototypes, second-order sections of their own pairing.</summary>
    [Fact]
    public void Crossovers_of_every_shape_and_slope_are_those_of_scipy()
    {
        var cases = (from shape in Enum.GetValues<CrossoverShape>()
                     from slope in Enumerable.Range(1, 8).Select(n => 6 * n)
                     where shape != CrossoverShape.LinkwitzRiley || slope % 12 == 0
                     from high in new[] { false, true }
                     from hertz in new[] { 63.0, 2_500, 9_000 }
                     select (shape, slope, high, hertz)).ToList();
        var grid = FrequencyGrid.LogSpaced(20, 20_000, 60, 48_000);
        var answer = Scipy.Ask(
            """
            answer=[]
            for c in given['cases']:
                n=c['slope']//6; kind='high' if c['high'] else 'low'
                if c['shape']=='Bessel': s=ss.bessel(n,c['hertz'],kind,fs=48000,norm='mag',output='sos')
                elif c['shape']=='Butterworth': s=ss.butter(n,c['hertz'],kind,fs=48000,output='sos')
                else: s=np.vstack([ss.butter(n//2,c['hertz'],kind,fs=48000,output='sos')]*2)
                h=ss.sosfreqz(s,worN=np.array(given['hertz']),fs=48000)[1]
                answer.append(dict(re=h.real.tolist(),im=h.imag.tolist()))
            """,
            new { cases = cases.Select(c => new { shape = c.shape.ToString(), c.slope, c.high, c.hertz }), hertz = grid.Hertz });
        foreach (var ((shape, slope, high, hertz), theirs) in cases.Zip(answer.EnumerateArray()))
        {
            var ours = grid.Response(CrossoverSections.Of(new Crossover(shape, hertz, slope), high, 48_000));
            var (re, im) = (theirs.GetProperty("re").Numbers(), theirs.GetProperty("im").Numbers());
            for (var i = 0; i < ours.Length; i++)
                Assert.True((ours[i] - new Complex(re[i], im[i])).Magnitude < 1e-7, $"{shape} {slope} dB/oct {(high ? "above" : "below")} {hertz} Hz at {grid.Hertz[i]} Hz: {ours[i]} and {re[i]} {im[i]}");
        }
    }

    /// <summary>Fixture: analogue halves by scipy.signal.butter, bessel and freqs. At a rate far above the frequency the bilinear transform's warping vanishes.</summary>
    [Fact]
    public void Halves_and_sums_are_those_of_the_analogue_prototypes()
    {
        const double Rate = 768_000, Cutoff = 100;
        var rows = Fixture.Rows("crossovers.csv");
        foreach (var row in rows)
        {
            var (shape, order) = row["type"] switch
            {
                ['B', 'W', .. var n] => (CrossoverShape.Butterworth, n),
                ['L', 'R', .. var n] => (CrossoverShape.LinkwitzRiley, n),
                var bessel => (CrossoverShape.Bessel, bessel[3..4]),
            };
            var crossover = new Crossover(shape, Cutoff, 6 * int.Parse(order, System.Globalization.CultureInfo.InvariantCulture));
            var grid = new FrequencyGrid([Cutoff * Fixture.Number(row["f_over_fc"])], Rate);
            var (low, high) = (grid.Response(CrossoverSections.Of(crossover, false, Rate))[0], grid.Response(CrossoverSections.Of(crossover, true, Rate))[0]);
            Assert.Equal(Fixture.Number(row["lp_db"]), Decibels(low), 3e-3);
            Assert.Equal(Fixture.Number(row["hp_db"]), Decibels(high), 3e-3);
            Assert.Equal(0, Math.IEEERemainder(low.Phase * 180 / Math.PI - Fixture.Number(row["lp_phase_deg"]), 360), 0.03);
            Assert.Equal(0, Math.IEEERemainder(high.Phase * 180 / Math.PI - Fixture.Number(row["hp_phase_deg"]), 360), 0.03);
            if (Fixture.Number(row["sum_db"]) > -60) // a null has no number
                Assert.Equal(Fixture.Number(row["sum_db"]), Decibels(low + high), 5e-3);
            if (Fixture.Number(row["sum_hp_inverted_db"]) > -60)
                Assert.Equal(Fixture.Number(row["sum_hp_inverted_db"]), Decibels(low - high), 5e-3);
        }

        Assert.Equal(90, rows.Count);
    }

    // S. H. Linkwitz, JAES 24 (1976): both halves −6.02 dB and in phase; at 12 and 36 dB per octave one of them has to be turned.
    [Theory]
    [InlineData(12, true)]
    [InlineData(24, false)]
    [InlineData(36, true)]
    [InlineData(48, false)]
    public void Linkwitz_Riley_halves_sum_to_flat_at_every_rate(int slope, bool turned)
    {
        foreach (var (rate, hertz) in new[] { (48_000.0, 80.0), (48_000, 2_500), (96_000, 6_000), (44_100, 15_000) })
        {
            var crossover = new Crossover(CrossoverShape.LinkwitzRiley, hertz, slope);
            var grid = FrequencyGrid.LogSpaced(10, 0.49 * rate, 300, rate);
            var low = grid.Response(CrossoverSections.Of(crossover, false, rate));
            var high = grid.Response(CrossoverSections.Of(crossover, true, rate));
            Assert.All(low.Zip(high), pair => Assert.Equal(0, Decibels(turned ? pair.First - pair.Second : pair.First + pair.Second), 1e-7));
            var at = new FrequencyGrid([hertz], rate);
            Assert.Equal(-6.0206, Decibels(at.Response(CrossoverSections.Of(crossover, false, rate))[0]), 1e-4);
        }
    }

    [Fact]
    public void Every_filter_is_stable() => _anyFilter.Sample(filter => CookbookFilters.Design(filter, 48_000).IsStable);

    [Fact]
    public void A_boost_and_the_same_cut_cancel() => _anyFilter.Where(filter => filter.Kind is FilterKind.Peaking or FilterKind.LowShelf or FilterKind.HighShelf).Sample(filter =>
    {
        var grid = FrequencyGrid.LogSpaced(10, 20_000, 50, 48_000);
        var both = grid.Response([CookbookFilters.Design(filter, 48_000), CookbookFilters.Design(filter with { GainDecibels = -filter.GainDecibels }, 48_000)]);
        return both.All(value => (value - 1).Magnitude < 1e-6);
    });

    [Fact]
    public void An_all_pass_leaves_every_level_alone() => _anyFilter.Where(filter => filter.Kind is FilterKind.AllPass or FilterKind.FirstOrderAllPass).Sample(filter =>
        FrequencyGrid.LogSpaced(10, 20_000, 50, 48_000).Response([CookbookFilters.Design(filter, 48_000)]).All(value => Math.Abs(value.Magnitude - 1) < 1e-8));

    [Fact]
    public void A_first_order_all_pass_turns_by_90_degrees_at_its_frequency()
    {
        var section = CookbookFilters.Design(new FilterSetting { Kind = FilterKind.FirstOrderAllPass, Hertz = 300 }, 48_000);
        Assert.Equal(-Math.PI / 2, section.At(300, 48_000).Phase, 1e-12);
        Assert.Equal(1, section.At(1e-3, 48_000).Real, 1e-6);
    }

    [Fact]
    public void A_delay_turns_the_phase_and_keeps_the_level()
    {
        var grid = FrequencyGrid.LogSpaced(20, 20_000, 30, 48_000);
        var response = new ChannelSetting { Id = "c", Name = "C", DelaySeconds = 0.00125 }.Response(grid);
        Assert.All(response.Zip(grid.Hertz), pair => Assert.True((pair.First - Complex.FromPolarCoordinates(1, -2 * Math.PI * pair.Second * 0.00125)).Magnitude < 1e-12));
    }

    [Fact]
    public void What_cannot_be_made_is_named_with_its_range()
    {
        var channel = new ChannelSetting
        {
            Id = "c", Name = "C", HighPass = new Crossover(CrossoverShape.LinkwitzRiley, 500, 18), LowPass = new Crossover(CrossoverShape.Bessel, 300, 24),
            Filters = [new FilterSetting { Kind = FilterKind.Peaking, Hertz = 30_000, Q = double.NaN }],
        };
        Assert.Equal(
            ["HighPass.SlopeDecibelsPerOctave: Slope: a Linkwitz-Riley of 18 dB per octave does not exist, as it is two equal halves; enter 12, 24, 36, 48, or another shape.",
             "LowPass: Low-pass: 300 Hz is not above the high-pass, 500 Hz; nothing would pass.",
             "Filters[0].Hertz: Frequency in Hz: 30,000 is not accepted; enter 1 to 23,520.",
             "Filters[0].Q: Q: the value is not a number; enter 0.05 to 50."],
            channel.Validate(48_000).Select(problem => $"{problem.Field}: {problem.Message}".Replace('\u202f', ',').Replace('\u00a0', ',')));
        Assert.Equal("Hertz", Assert.Throws<ArgumentOutOfRangeException>(() => channel.Filters.Select(filter => CookbookFilters.Design(filter, 48_000)).ToList()).ParamName);
    }

    private static FilterKind Kind(string type) => type switch
    {
        "peaking" => FilterKind.Peaking,
        "lowshelf" => FilterKind.LowShelf,
        "highshelf" => FilterKind.HighShelf,
        "lpf" => FilterKind.LowPass,
        "hpf" => FilterKind.HighPass,
        "bpf_peak0" => FilterKind.BandPass,
        "notch" => FilterKind.Notch,
        "apf" => FilterKind.AllPass,
        _ => throw new ArgumentOutOfRangeException(nameof(type), type, null),
    };

    private static double Decibels(Complex value) => 20 * Math.Log10(value.Magnitude);
}
