using ShopFloor.Engineering.Electrical;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Tests.Electrical;

public class RunSizingTests
{
    // 33 CFR 183.425 table 5 with notes 1 and 2; ABYC E-11 prints the engine-space values rounded.
    [Theory]
    [InlineData("10 AWG", 105, false, 1, 60)]
    [InlineData("10 AWG", 105, true, 1, 51.0)]
    [InlineData("10 AWG", 105, true, 5, 30.6)]
    [InlineData("4 AWG", 105, true, 1, 136)]
    [InlineData("2/0 AWG", 105, true, 1, 280.5)]
    [InlineData("8 AWG", 60, true, 1, 31.9)]
    public void Derated_ampacity_matches_the_regulation(string size, double insulation, bool engineSpace, int bundled, double amperes)
    {
        var result = RunSizing.Size(Runs.Run(5).WithRun(r => r with
        {
            ForcedSize = size, InsulationCelsius = insulation, EngineSpace = engineSpace, BundledConductors = bundled,
        }));

        Assert.Equal(amperes, result.DeratedAmperes, 9);
        Assert.Equal("33 CFR 183.425 table 5", result.TableName);
        Assert.Equal((size, insulation), (result.TableRow, result.TableColumnCelsius));
    }

    [Fact]
    public void A_40_a_fuse_on_16_awg_is_above_the_legal_ceiling_and_35_a_is_not()
    {
        // 16 AWG, 105 °C: 25 A in table 5, 150 % is 37.5 A.
        RunSizingResult With(double fuse) => RunSizing.Size(Runs.Run(10).WithRun(r => r with { ForcedSize = "16 AWG", ForcedFuseAmperes = fuse }));

        Assert.Equal(37.5, With(40).FuseCeilingAmperes, 9);
        Assert.Equal(Severity.Stop, With(40).Findings.Of("fuse-above-ceiling")!.Severity);
        Assert.Null(With(35).Findings.Of("fuse-above-ceiling"));
        // The ceiling is only the outer bound: 35 A still does not protect a conductor allowed 25 A.
        Assert.Equal(Severity.Stop, With(35).Findings.Of("fuse-above-ampacity")!.Severity);
        Assert.Null(With(25).Findings.Of("fuse-above-ampacity"));
    }

    [Fact]
    public void The_ceiling_of_4_awg_at_75_degrees_is_187_5_a()
    {
        Assert.Equal(187.5, RunSizing.Size(Runs.Run(5).WithRun(r => r with { ForcedSize = "4 AWG", InsulationCelsius = 75 })).FuseCeilingAmperes, 9);
    }

    [Fact]
    public void Ampacity_decides_a_short_run()
    {
        // 105 °C: 8 AWG 80 A, 10 AWG 60 A. 62 A asks for a 77.5 A fuse -> 80 A, which 8 AWG just allows.
        var result = RunSizing.Size(Runs.Run(62, 0.3));

        Assert.Equal("8 AWG", result.Conductor.Label);
        Assert.Equal(80, result.Fuse!.RatingAmperes);
        Assert.Equal(SizeDecision.Ampacity, result.DecidedBy);
        Assert.True(result.KeepsAllLimits);
        // 80 A on exactly 80 A leaves nothing for SAE cable, which carries less.
        Assert.Equal(["sae-wire-smaller"], result.Findings.Select(f => f.Code));
    }

    [Fact]
    public void The_fuse_can_decide_when_no_standard_rating_fits_below_the_ampacity()
    {
        // 55 A: 10 AWG may carry 60 A, but the least fuse is 68.75 A -> 70 A, which needs 8 AWG (80 A).
        var result = RunSizing.Size(Runs.Run(55, 0.3));

        Assert.Equal("8 AWG", result.Conductor.Label);
        Assert.Equal(70, result.Fuse!.RatingAmperes);
        Assert.Equal(SizeDecision.FuseRating, result.DecidedBy);
        Assert.Contains("fuse rating", result.Explanation.DecidedBy, StringComparison.Ordinal);
    }

    [Fact]
    public void The_voltage_drop_decides_a_long_run_and_matches_a_hand_calculation()
    {
        // 20 A over 6 m, 3 % of 13.8 V = 0.414 V.
        // 8 AWG, 80 A: T = 30 + 75·√(20/80) = 67.5 °C; R = 1.02·0.017241·(234.5+67.5)/254.5·12/8.366 = 29.93 mΩ -> 0.599 V: too much.
        // 6 AWG, 120 A: T = 30 + 75·√(20/120) = 60.62 °C; R = 1.02·0.017241·295.12/254.5·12/13.302 = 18.40 mΩ -> 0.368 V.
        var result = RunSizing.Size(Runs.Run(20, 6));

        Assert.Equal("6 AWG", result.Conductor.Label);
        Assert.Equal(SizeDecision.VoltageDrop, result.DecidedBy);
        Assert.Equal(60.62, result.RatedDrop.ConductorCelsius, 0.01);
        Assert.Equal(0.368, result.RatedDrop.Volts, 0.0005);
        Assert.Equal(2.667, result.RatedDrop.Percent, 0.005);
        Assert.Equal(25, result.Fuse!.RatingAmperes);
    }

    [Fact]
    public void A_body_return_halves_the_conductor_and_adds_its_own_resistance()
    {
        var dedicated = RunSizing.Size(Runs.Run(50, 3).WithRun(r => r with { ForcedSize = "4 AWG" }));
        var body = RunSizing.Size(Runs.Run(50, 3).WithRun(r => r with { ForcedSize = "4 AWG", ReturnPath = ReturnPath.VehicleBody, BodyReturnOhms = 0.0012 }));

        Assert.Equal(dedicated.RatedDrop.Volts / 2 + 50 * 0.0012, body.RatedDrop.Volts, 9);
        Assert.Equal((6.0, 3.0), (dedicated.ConductorMeters, body.ConductorMeters));
        Assert.Equal(dedicated.CopperKilograms / 2, body.CopperKilograms, 9);
        Assert.Null(body.Findings.Of("return-not-measured"));
    }

    [Fact]
    public void Terminations_add_their_own_resistance_whatever_the_size()
    {
        var without = RunSizing.Size(Runs.Run(50, 3).WithRun(r => r with { ForcedSize = "4 AWG" }));
        var with = RunSizing.Size(Runs.Run(50, 3).WithRun(r => r with { ForcedSize = "4 AWG", TerminationOhms = 0.002 }));

        // Ohm's law: 50 A through 2 mΩ.
        Assert.Equal(without.RatedDrop.Volts + 0.1, with.RatedDrop.Volts, 9);
        Assert.Contains(with.Explanation.Inputs, i => i.Name == "Resistance of the terminations");
        Assert.DoesNotContain(without.Explanation.Inputs, i => i.Name == "Resistance of the terminations");
    }

    [Fact]
    public void An_unmeasured_body_return_uses_the_default_and_says_so()
    {
        var result = RunSizing.Size(Runs.Run(50, 3).WithRun(r => r with { ReturnPath = ReturnPath.VehicleBody }));

        Assert.Equal(ElectricalDefaults.BodyReturnOhms, result.RatedDrop.BodyOhms);
        Assert.Equal(Severity.Note, result.Findings.Of("return-not-measured")!.Severity);
        Assert.Contains(result.Explanation.Inputs, i => i.Unit == "Ω" && i.Origin.Contains("from memory", StringComparison.Ordinal));
    }

    [Fact]
    public void An_engine_space_is_taken_as_50_degrees_for_the_conductor_temperature_too()
    {
        // 10 AWG, 105 °C in an engine space: 51 A; 50 + 55·√(12.75/51) = 77.5 °C although 30 °C was entered.
        var result = RunSizing.Size(Runs.Run(12.75).WithRun(r => r with { EngineSpace = true, ForcedSize = "10 AWG" }));

        Assert.Equal(77.5, result.RatedDrop.ConductorCelsius, 9);
    }

    [Fact]
    public void Music_drops_less_than_full_output()
    {
        var result = RunSizing.Size(Runs.Run(100, 5) with { MusicAmperes = 30 });

        Assert.Equal(30, result.MusicDrop.Amperes);
        Assert.True(result.MusicDrop.Volts < 0.3 * result.RatedDrop.Volts, "less current in a cooler conductor");
    }

    [Fact]
    public void The_drop_limit_can_be_kept_on_music_and_the_larger_drop_at_rated_current_is_still_shown()
    {
        var rated = RunSizing.Size(Runs.Run(50, 6) with { MusicAmperes = 15 });
        var music = RunSizing.Size(Runs.Run(50, 6) with { MusicAmperes = 15, Rules = Runs.EverySize with { DropBasis = DropBasis.MusicCurrent } });

        Assert.True(music.Conductor.AreaSquareMillimeters < rated.Conductor.AreaSquareMillimeters);
        Assert.True(music.MusicDrop.Volts <= 0.414 && music.RatedDrop.Volts > 0.414);
        Assert.True(music.KeepsAllLimits);
        Assert.Contains(music.Limits, l => l.Name == "Voltage drop there and back on music" && l.Actual == music.MusicDrop.Volts);
        // Ampacity and fuse still follow the rated current.
        Assert.Equal(rated.Fuse!.RatingAmperes, music.Fuse!.RatingAmperes);
    }

    [Fact]
    public void A_thin_separate_conductor_is_raised_to_16_awg_and_18_is_allowed_in_a_sheath()
    {
        // 33 CFR 183.425: 16 AWG at least, 18 AWG inside a sheath.
        var open = RunSizing.Size(Runs.Run(0.5));
        var sheathed = RunSizing.Size(Runs.Run(0.5).WithRun(r => r with { SheathedWholeWay = true }));

        Assert.Equal(("16 AWG", SizeDecision.MinimumSize), (open.Conductor.Label, open.DecidedBy));
        Assert.Equal(("18 AWG", SizeDecision.MinimumSize), (sheathed.Conductor.Label, sheathed.DecidedBy));
        Assert.Equal(Severity.Warn, RunSizing.Size(Runs.Run(0.5).WithRun(r => r with { ForcedSize = "18 AWG" })).Findings.Of("conductor-below-minimum")!.Severity);
    }

    [Fact]
    public void A_load_no_size_can_carry_is_stopped_and_has_no_fuse()
    {
        // 4/0 at 105 °C is allowed 445 A; 400 A asks for a 500 A fuse.
        var result = RunSizing.Size(Runs.Run(400));

        Assert.Equal(SizeDecision.NoneFits, result.DecidedBy);
        Assert.Null(result.Fuse);
        Assert.False(result.KeepsAllLimits);
        Assert.Equal(Severity.Stop, result.Findings.Of("no-size-carries")!.Severity);
    }

    [Fact]
    public void A_load_above_every_fuse_is_stopped()
    {
        Assert.Equal(Severity.Stop, RunSizing.Size(Runs.Run(450)).Findings.Of("no-fuse-rating")!.Severity);
    }

    [Fact]
    public void Surroundings_as_warm_as_the_insulation_leave_no_current_at_all()
    {
        var result = RunSizing.Size(Runs.Run(5).WithRun(r => r with { AmbientCelsius = 105 }));

        Assert.Equal(0, result.DeratedAmperes);
        Assert.Equal(SizeDecision.NoneFits, result.DecidedBy);
        Assert.NotNull(result.Findings.Of("no-size-carries"));
    }

    [Fact]
    public void A_run_too_long_for_every_size_shows_the_largest_and_the_drop()
    {
        var result = RunSizing.Size(Runs.Run(200, 30));

        Assert.Equal("4/0 AWG", result.Conductor.Label);
        Assert.Equal(SizeDecision.VoltageDrop, result.DecidedBy);
        Assert.Equal(Severity.Stop, result.Findings.Of("drop-over-limit")!.Severity);
        Assert.False(result.KeepsAllLimits);
    }

    [Fact]
    public void A_size_chosen_by_hand_is_kept_and_told_what_breaks()
    {
        var result = RunSizing.Size(Runs.Run(100, 5).WithRun(r => r with { ForcedSize = "10 AWG" }));

        Assert.Equal(("10 AWG", SizeDecision.Forced), (result.Conductor.Label, result.DecidedBy));
        Assert.Equal(Severity.Stop, result.Findings.Of("conductor-too-small")!.Severity);
        Assert.NotNull(result.Findings.Of("drop-over-limit"));
        // The fuse still protects the conductor, so it is too small for the load.
        Assert.Equal(60, result.Fuse!.RatingAmperes);
        Assert.Equal(Severity.Stop, result.Findings.Of("fuse-below-load")!.Severity);
    }

    [Fact]
    public void A_fuse_chosen_by_hand_makes_the_conductor_thick_enough_for_it()
    {
        // 100 A fuse on a 20 A load: 105 °C asks for 6 AWG (120 A); 8 AWG has only 80 A.
        var result = RunSizing.Size(Runs.Run(20, 0.5).WithRun(r => r with { ForcedFuseAmperes = 100 }));

        Assert.Equal(("6 AWG", 100.0, SizeDecision.FuseRating), (result.Conductor.Label, result.Fuse!.RatingAmperes, result.DecidedBy));
        Assert.Empty(result.Findings);
    }

    [Fact]
    public void A_fuse_below_the_loading_rule_is_a_warning_and_below_the_load_a_stop()
    {
        Finding Of(double fuse) => RunSizing.Size(Runs.Run(20).WithRun(r => r with { ForcedFuseAmperes = fuse })).Findings.Of("fuse-below-load")!;

        Assert.Equal(Severity.Warn, Of(20).Severity);
        Assert.Equal(Severity.Stop, Of(15).Severity);
    }

    [Fact]
    public void A_fuse_of_no_known_form_is_noted()
    {
        var result = RunSizing.Size(Runs.Run(20).WithRun(r => r with { ForcedFuseAmperes = 33 }));

        Assert.Null(result.Fuse!.Form);
        Assert.Equal(Severity.Note, result.Findings.Of("fuse-not-standard")!.Severity);
    }

    [Fact]
    public void The_makers_fuse_is_used_when_it_suits_the_load()
    {
        // 30 A asks for 37.5 A -> 40 A; the maker asks for 60 A, which 10 AWG (60 A) allows.
        var result = RunSizing.Size(Runs.Run(30, 0.5) with { MakerFuseAmperes = 60 });

        Assert.Equal((60.0, "10 AWG"), (result.Fuse!.RatingAmperes, result.Conductor.Label));
        Assert.DoesNotContain(result.Findings, f => f.Severity != Severity.Note);
    }

    [Fact]
    public void A_makers_fuse_too_small_for_the_load_data_is_reported()
    {
        var result = RunSizing.Size(Runs.Run(80, 0.5) with { MakerFuseAmperes = 60 });

        Assert.Equal(100, result.Fuse!.RatingAmperes);
        Assert.Equal(Severity.Warn, result.Findings.Of("fuse-above-maker")!.Severity);
    }

    [Fact]
    public void A_makers_fuse_no_size_can_carry_is_stopped_and_named()
    {
        var result = RunSizing.Size(Runs.Run(80, 0.5) with { MakerFuseAmperes = 1000 });

        var finding = result.Findings.Of("no-size-carries")!;
        Assert.Equal(Severity.Stop, finding.Severity);
        Assert.Contains("by its maker", finding.Text, StringComparison.Ordinal);
        Assert.Null(result.Fuse);
    }

    [Fact]
    public void A_blade_fuse_at_the_battery_is_noted_and_a_bolt_in_fuse_is_preferred()
    {
        var small = RunSizing.Size(Runs.Run(5) with { FedFromBattery = true });
        var large = RunSizing.Size(Runs.Run(40) with { FedFromBattery = true });

        Assert.NotNull(small.Findings.Of("fuse-interrupt-rating"));
        Assert.Equal(FuseForm.BoltInSmall, large.Fuse!.Form);
        Assert.Null(large.Findings.Of("fuse-interrupt-rating"));
    }

    [Fact]
    public void Sae_cable_is_pointed_out_where_it_would_miss_the_limit()
    {
        // The published 10 A, 6.4 m loop, 12 V, 3 % case, at 20 °C ambient: 12 AWG passes, 12 SAE does not.
        var input = Runs.Run(10, 3.2) with { SupplyVolts = 12, MaxDropVolts = 0.38 };
        var result = RunSizing.Size(input.WithRun(r => r with { AmbientCelsius = 20, InsulationCelsius = 60 }));

        Assert.Equal("12 AWG", result.Conductor.Label);
        Assert.Equal(Severity.Note, result.Findings.Of("sae-wire-smaller")!.Severity);
    }

    [Fact]
    public void Every_limit_and_formula_is_shown_with_its_source()
    {
        var result = RunSizing.Size(Runs.Run(62).WithRun(r => r with { BundledConductors = 3 }));

        Assert.All(result.Limits, l => Assert.False(string.IsNullOrWhiteSpace(l.Source)));
        Assert.All(result.Explanation.Steps, s => Assert.False(string.IsNullOrWhiteSpace(s.Source)));
        Assert.Contains(result.Explanation.Steps, s => s.Source.Contains("183.435(b)", StringComparison.Ordinal));
        Assert.Contains(result.Limits, l => l.Name.Contains("outer ceiling", StringComparison.Ordinal) && l.Source.Contains("183.455(c)(1)", StringComparison.Ordinal));
        Assert.Equal(result.Limits, result.Explanation.Limits);
    }
}
