using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Electrical.Fusing;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Tests.Electrical.Fusing;

public class FuseDutyTests
{
    private static FuseDutyInput Sound { get; } = new()
    {
        Id = "f1",
        Name = "Amplifier fuse",
        RatingAmperes = 30,
        Series = FuseRatings.Blade,
        ContinuousAmperes = 20,
        ProspectiveAmperes = 800,
        FarEndFaultAmperes = 200,
        Conductors = [new("10 AWG", 60), new("12 AWG", 35)],
        SourceToFuseMeters = 0.1,
    };

    [Fact]
    public void A_sound_fuse_passes_every_limit()
    {
        var result = FuseDuty.Check(Sound);

        Assert.True(result.KeepsAllLimits);
        Assert.All(result.Explanation.Limits, l => Assert.True(l.Passed, l.Name));
        Assert.Equal("12 AWG", result.WeakestConductor.Name);
        Assert.Equal(24, result.CapacityAmperes, 9);
        // 200 A is 667 %: beyond 600 % the latest time of the band stays 0.1 s.
        Assert.Equal(0.1, result.LatestSeconds!.Value, 9);
    }

    // Published: a 40 A fuse for 32 A continuous at 80 % (marine fuse catalogue); and 15 A at 65 °C with 0.75 and 0.2 %/°C needs
    // 15/(0.75·0.92) = 21.7 A, so 25 A passes and 20 A does not.
    [Theory]
    [InlineData(40, 32, 0.80, 25, 0, true)]
    [InlineData(35, 32, 0.80, 25, 0, false)]
    [InlineData(25, 15, 0.75, 65, 0.002, true)]
    [InlineData(20, 15, 0.75, 65, 0.002, false)]
    [InlineData(20, 15, 0.75, 65, 0, true)]
    public void Load_and_heat_decide_the_least_rating(double rating, double load, double loading, double celsius, double derating, bool passes)
    {
        var result = FuseDuty.Check(Sound with
        {
            RatingAmperes = rating, ContinuousAmperes = load, ContinuousLoading = loading, AmbientCelsius = celsius, DeratingPerCelsius = derating,
            Conductors = [new("cable", 100)],
        });

        Assert.Equal(passes, result.Findings.Of("fuse-below-load") is null);
        Assert.Equal(passes, result.KeepsAllLimits);
    }

    // FAA AC 43.13-1B table 11-3: copper wire and the largest fuse for it.
    [Theory]
    [InlineData(18, 10)]
    [InlineData(16, 10)]
    [InlineData(14, 15)]
    [InlineData(12, 20)]
    [InlineData(10, 30)]
    [InlineData(8, 50)]
    [InlineData(6, 70)]
    [InlineData(4, 70)]
    [InlineData(2, 100)]
    [InlineData(1, 150)]
    [InlineData(0, 150)]
    public void Fuses_of_the_aircraft_table_never_exceed_the_boat_table_for_warm_insulation(int awg, double fuse)
    {
        // Two public tables made apart: single wires in 33 CFR 183.425 (105 °C) carry at least the fuse FAA puts before them.
        var conductor = new ProtectedConductor("wire", PublishedTables.Cfr33Part183425.Amperes(Engineering.Units.WireGauge.Label(awg), 105));

        var result = FuseDuty.Check(Sound with { RatingAmperes = fuse, ContinuousAmperes = 1, Series = FuseRatings.BoltInLarge, Conductors = [conductor], FarEndFaultAmperes = null });

        Assert.Null(result.Findings.Of("fuse-above-ampacity"));
    }

    public static TheoryData<string, FuseDutyInput, Severity> Broken => new()
    {
        { "fuse-above-ampacity", Sound with { Conductors = [new("18 AWG tail", 15), new("10 AWG", 60)] }, Severity.Stop },
        { "fuse-voltage", Sound with { CircuitVolts = 48 }, Severity.Stop },
        { "fuse-interrupt", Sound with { ProspectiveAmperes = 1500 }, Severity.Stop },
        { "prospective-unknown", Sound with { ProspectiveAmperes = null }, Severity.Warn },
        { "fault-never-clears", Sound with { FarEndFaultAmperes = 38 }, Severity.Stop },
        { "fault-clears-slowly", Sound with { FarEndFaultAmperes = 45 }, Severity.Warn },
        { "fuse-curve-unknown", Sound with { Series = FuseRatings.FemaleBlock }, Severity.Note },
        { "fuse-too-far", Sound with { SourceToFuseMeters = 0.5 }, Severity.Stop },
        { "fuse-distance-unknown", Sound with { SourceToFuseMeters = null }, Severity.Warn },
        { "unfused-length", Sound, Severity.Note },
    };

    [Theory]
    [MemberData(nameof(Broken))]
    public void Each_fault_is_found_with_its_gravity(string code, FuseDutyInput input, Severity severity)
    {
        var result = FuseDuty.Check(input);

        var finding = result.Findings.Of(code);
        Assert.Equal(severity, finding!.Severity);
        Assert.NotEmpty(finding.Remedy);
        Assert.NotEmpty(finding.Source);
        Assert.Equal(severity != Severity.Stop, result.KeepsAllLimits);
    }

    [Fact]
    public void A_makers_curve_takes_the_place_of_the_band()
    {
        var maker = new FuseCurve { Name = "sheet", Source = "maker's data sheet", Points = [new(135, 1, 100), new(600, 0.01, 0.03)] };

        Assert.Equal(0.03, FuseDuty.Check(Sound with { MakerCurve = maker }).LatestSeconds!.Value, 9);
        Assert.Contains(FuseDuty.Check(Sound with { MakerCurve = maker }).Explanation.Steps, s => s.Source == "maker's data sheet");
    }

    public static TheoryData<string, FuseDutyInput> Impossible => new()
    {
        { "RatingAmperes", Sound with { RatingAmperes = 0 } },
        { "ContinuousAmperes", Sound with { ContinuousAmperes = double.NaN } },
        { "ContinuousLoading", Sound with { ContinuousLoading = 1.2 } },
        { "CircuitVolts", Sound with { CircuitVolts = 400 } },
        { "Conductors", Sound with { Conductors = [] } },
        { "Conductors[0].DeratedAmperes", Sound with { Conductors = [new("x", -1)] } },
        { "FarEndFaultAmperes", Sound with { FarEndFaultAmperes = 900 } },
        { "SourceToFuseMeters", Sound with { SourceToFuseMeters = -1 } },
        { "MakerCurve.Points", Sound with { MakerCurve = new FuseCurve { Name = "n", Source = "s", Points = [] } } },
    };

    [Theory]
    [MemberData(nameof(Impossible))]
    public void Impossible_input_is_refused_by_name(string field, FuseDutyInput input)
    {
        Assert.Contains(input.Validate(), p => p.Field == field);
        Assert.Equal(field, Assert.Throws<ArgumentOutOfRangeException>(() => FuseDuty.Check(input)).ParamName);
    }

    [Fact]
    public void One_spare_of_each_plug_in_rating_is_left_in_the_car()
    {
        FuseChoice Of(FuseForm? form, double amperes, string name) => new(amperes, form, name, 1000, 32);
        var spares = SpareFuses.For(
        [
            Of(FuseForm.Blade, 20, "blade"), Of(FuseForm.Blade, 5, "blade"), Of(FuseForm.Blade, 20, "blade"), Of(FuseForm.MiniBlade, 5, "small blade"),
            Of(FuseForm.BoltInLarge, 150, "large bolt-in"), Of(null, 17, "not in the shop's list"),
        ]);

        Assert.Equal(
            [new(5, FuseForm.MiniBlade, "small blade", 1), new(5, FuseForm.Blade, "blade", 1), new SpareFuse(20, FuseForm.Blade, "blade", 2)], spares);
    }
}
