using CsCheck;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Fabrication.Volume;
using ShopFloor.Engineering.Geometry;

namespace ShopFloor.Engineering.Tests.Fabrication;

public class BoxVolumeTests
{
    private static readonly Gen<double> Length = Gen.Double[0.01, 2];

    private static readonly Gen<Solid> AnySolid = Gen.OneOf<Solid>(
        Gen.Select(Length, Length, Length).Select((a, b, c) => (Solid)new BoxSolid(a, b, c)),
        Gen.Select(Length, Length, Length, Length).Select((a, b, c, d) => (Solid)new WedgeSolid(a, b, c, d)),
        Gen.Select(Length, Length).Select((a, b) => (Solid)new CylinderSolid(a, b)),
        Gen.Select(Length, Length, Length).Select((a, b, c) => (Solid)new RoundFrustum(a, b, c)),
        Gen.Select(Length, Length, Length, Length, Length).Select((a, b, c, d, e) => (Solid)new RectangularFrustum(a, b, c, d, e)),
        Gen.Select(Length, Length, Length).Select((a, b, c) => (Solid)new PrismSolid([new(0, 0), new(a, 0), new(a / 3, b)], c)));

    // Moscow Mathematical Papyrus, problem 14: base 4, top 2, height 6 is 56 (here in tenths).
    [Fact]
    public void The_papyrus_frustum_is_56() => Assert.Equal(0.056, new RectangularFrustum(0.4, 0.4, 0.2, 0.2, 0.6).CubicMeters, 1e-15);

    // π/4·0.1²·0.2 and π·0.3·(0.04 + 0.02 + 0.01)/12, worked by hand.
    [Fact]
    public void Round_bodies_are_those_of_the_formula_book()
    {
        Assert.Equal(1.570796e-3, new CylinderSolid(0.1, 0.2).CubicMeters, 5e-10);
        Assert.Equal(5.497787e-3, new RoundFrustum(0.2, 0.1, 0.3).CubicMeters, 5e-10);
        Assert.Equal(new CylinderSolid(0.15, 0.3).CubicMeters, new RoundFrustum(0.15, 0.15, 0.3).CubicMeters, 1e-15);
    }

    [Fact]
    public void A_body_between_two_rectangles_is_what_its_mesh_encloses() =>
        Gen.Select(Length, Length, Length, Length, Length).Sample((w, d, tw, td, h) =>
        {
            var corners = new Point3[] { new(0, 0, 0), new(w, 0, 0), new(w, d, 0), new(0, d, 0), new(0, 0, h), new(tw, 0, h), new(tw, td, h), new(0, td, h) };
            var mesh = MeshMeasure.Of(new TriangleMesh(corners, [0, 2, 1, 0, 3, 2, 4, 5, 6, 4, 6, 7, 0, 1, 5, 0, 5, 4, 1, 2, 6, 1, 6, 5, 2, 3, 7, 2, 7, 6, 3, 0, 4, 3, 4, 7]));
            Assert.Equal(mesh.VolumeCubicMeters!.Value, new RectangularFrustum(w, d, tw, td, h).CubicMeters, 1e-12);
        });

    [Fact]
    public void All_lengths_twice_as_long_hold_eight_times_as_much() =>
        AnySolid.Sample(body => Assert.Equal(8 * body.CubicMeters, Doubled(body).CubicMeters, 1e-9 * body.CubicMeters));

    [Fact]
    public void The_net_volume_is_the_sum_of_its_rows() =>
        Gen.Select(AnySolid.Array[1, 6], AnySolid.Array[0, 4]).Sample((added, taken) =>
        {
            var result = BoxVolume.Compute(new BoxVolumeInput
            {
                Rows = [.. added.Select(body => new VolumeRow { Name = "a", Shape = body }), .. taken.Select(body => new VolumeRow { Name = "t", Shape = body, Subtracted = true, Count = 2 })],
            });
            Assert.Equal(added.Sum(body => body.CubicMeters), result.GrossCubicMeters, 1e-12);
            Assert.Equal(result.GrossCubicMeters - 2 * taken.Sum(body => body.CubicMeters), result.NetCubicMeters, 1e-9);
            Assert.Equal(result.NetCubicMeters <= 0, result.Findings.Any(finding => finding.Code == "volume-used-up"));
        });

    // A box of 400 × 350 × 300 mm in 18 mm with a double baffle: inside 364 × 314 × 246 mm = 28.117 L; worked by hand.
    [Fact]
    public void A_double_baffle_takes_its_depth_from_the_inside()
    {
        var result = BoxVolume.Compute(new BoxVolumeInput
        {
            Shell = Shell with { FrontLayers = 2 },
            Rows = [new VolumeRow { Name = "Driver", Shape = new KnownSolid(0.0021), Subtracted = true, Reason = "data sheet" }, new VolumeRow { Name = "Brace", Shape = new BoxSolid(0.364, 0.05, 0.018), Subtracted = true }],
            WantedCubicMeters = 0.028,
        });

        Assert.Equal(0.364 * 0.314 * 0.246, result.GrossCubicMeters, 1e-12);
        Assert.Equal(0.028116816 - 0.0021 - 0.0003276, result.NetCubicMeters, 1e-9);
        Assert.Equal(0.246, result.Shell!.InsideTopDepthMeters, 1e-12);
        Assert.Contains(result.Findings, finding => finding.Code == "volume-missed" && finding.Text.Contains("less", StringComparison.Ordinal));
    }

    [Fact]
    public void The_boards_to_cut_are_all_the_wood_of_the_shell() =>
        Gen.Select(Gen.Double[0.2, 2], Gen.Double[0.2, 2], Gen.Double[0.3, 2], Gen.Double[0.003, 0.02], Gen.Int[1, 2], Gen.Int[1, 2]).Sample((w, h, d, t, front, side) =>
        {
            var shell = BoxVolume.Compute(new BoxVolumeInput { Shell = new BoxShell { WidthMeters = w, HeightMeters = h, BottomDepthMeters = d, WallMeters = t, FrontLayers = front, SideLayers = side } }).Shell!;
            // Two layers on a side lie side by side, both inside the front and the back.
            Assert.Equal(shell.BoardCubicMeters, shell.Panels.Sum(panel => panel.LengthMeters * panel.WidthMeters * t * panel.Count), 1e-9);
        });

    // By symmetry the centre is half way in width and height; in depth Σ t·A·x / Σ t·A over front, back and four level boards.
    [Fact]
    public void A_heavier_front_moves_the_centre_of_mass_forward()
    {
        var shell = BoxVolume.Compute(new BoxVolumeInput { Shell = Shell with { FrontLayers = 2, BoardKilogramsPerCubicMeter = 700 } }).Shell!;
        var (face, around) = (0.4 * 0.35, 0.4 * 0.35 - 0.364 * 0.314);
        var wood = face * 0.054 + around * 0.246;

        Assert.Equal(0.2, shell.Center.X, 1e-12);
        Assert.Equal(0.175, shell.Center.Z, 1e-12);
        Assert.Equal((face * 0.036 * 0.018 + face * 0.018 * 0.291 + around * 0.246 * 0.159) / wood, shell.Center.Y, 1e-12);
        Assert.Equal(700 * wood, shell.Kilograms!.Value, 1e-9);
        Assert.Equal(2 * (0.4 * 0.35 + 0.4 * 0.3 + 0.35 * 0.3), shell.OutsideSquareMeters, 1e-12);
    }

    // The back leans at 45°: a board of 10 mm takes 10·√2 mm of level depth.
    [Fact]
    public void A_slanted_back_takes_more_depth_than_its_thickness()
    {
        var shell = BoxVolume.Compute(new BoxVolumeInput { Shell = new BoxShell { WidthMeters = 0.5, HeightMeters = 0.3, BottomDepthMeters = 0.5, TopDepthMeters = 0.2, WallMeters = 0.01 } }).Shell!;

        Assert.Equal(0.49 - 0.01 - 0.01 * Math.Sqrt(2), shell.InsideBottomDepthMeters, 1e-12);
        Assert.Equal(0.21 - 0.01 - 0.01 * Math.Sqrt(2), shell.InsideTopDepthMeters, 1e-12);
        Assert.Empty(shell.Panels);
    }

    // 18.24 kg of beads, 0.5 L of them weigh 304 g: 608 kg/m³, so 30 L; √((5 g/18.24 kg)² + 2 %² + (5/304)²) = 2.589 %.
    [Fact]
    public void Beads_weighed_in_a_cup_give_the_volume_and_how_sure_it_is()
    {
        var result = BoxVolume.Compute(new BoxVolumeInput { Fill = new FillMeasurement { FillKilograms = 18.24, CupCubicMeters = 0.0005, CupKilograms = 0.304 } });

        Assert.Equal(0.030, result.NetCubicMeters, 1e-12);
        Assert.Equal(0.030 * 0.02589, result.Fill!.UncertaintyCubicMeters, 5e-7);
    }

    // 30 l poured, packing ± 2 % and 0.3 l read: √(0.6² + 0.3²) = 0.6708 l (JCGM 100:2008, 5.1.6).
    [Fact]
    public void Beads_by_the_litre_are_as_sure_as_packing_and_jug()
    {
        var fill = BoxVolume.Compute(new BoxVolumeInput { Fill = new FillMeasurement { PouredCubicMeters = 0.030, JugCubicMeters = 0.0003 } }).Fill!;

        Assert.Equal(0.030, fill.CubicMeters, 1e-12);
        Assert.Equal(0.0006708, fill.UncertaintyCubicMeters, 5e-8);
        Assert.NotEmpty(new BoxVolumeInput { Fill = new FillMeasurement { PouredCubicMeters = 0.03, FillKilograms = 30 } }.Validate());
    }

    // 27 l drawn, filled before the driver of 3 l came in: 26.95 kg of water are 27 l, no contradiction; 24 l are left.
    [Fact]
    public void What_came_in_after_filling_is_not_looked_for_in_the_filled_volume()
    {
        var driver = new VolumeRow { Name = "Driver", Shape = new KnownSolid(0.003), Subtracted = true, AfterFill = true };
        var input = new BoxVolumeInput { Rows = [new VolumeRow { Name = "Box", Shape = new BoxSolid(0.3, 0.3, 0.3) }, driver], Fill = new FillMeasurement { FillKilograms = 26.95 } };

        var result = BoxVolume.Compute(input);

        Assert.Equal(0.024, result.NetCubicMeters, 1e-12);
        Assert.DoesNotContain(result.Findings, finding => finding.Code == "fill-differs");
        Assert.Contains(BoxVolume.Compute(input with { Rows = [input.Rows[0], driver with { AfterFill = false }] }).Findings, finding => finding.Code == "fill-differs");
    }

    [Fact]
    public void A_measurement_that_contradicts_the_drawing_is_said()
    {
        var input = new BoxVolumeInput { Rows = [new VolumeRow { Name = "Box", Shape = new BoxSolid(0.3, 0.3, 0.3) }], Fill = new FillMeasurement { FillKilograms = 26.95 } };

        Assert.DoesNotContain(BoxVolume.Compute(input).Findings, finding => finding.Code == "fill-differs");
        var other = input with { Fill = input.Fill! with { FillKilograms = 25 } };
        Assert.Equal(Severity.Warn, BoxVolume.Compute(other).Findings.Single(finding => finding.Code == "fill-differs").Severity);
    }

    [Fact]
    public void A_crossing_outline_is_refused_and_both_sides_are_named()
    {
        var bow = new PrismSolid([new(0, 0), new(0.2, 0.2), new(0.2, 0), new(0, 0.2)], 0.1);
        var problem = Assert.Single(new BoxVolumeInput { Rows = [new VolumeRow { Name = "Bow", Shape = bow }] }.Validate());

        Assert.Equal("Rows[0].Shape.Outline", problem.Field);
        Assert.Contains("corner 1 crosses or touches the side after corner 3", problem.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(double.NaN, "not a number")]
    [InlineData(0, "0.1 mm")]
    [InlineData(-1, "0.1 mm")]
    public void A_length_that_is_none_is_named(double width, string said)
    {
        var problem = Assert.Single(new BoxVolumeInput { Rows = [new VolumeRow { Name = "Box", Shape = new BoxSolid(width, 1, 1) }] }.Validate());

        Assert.Equal("Rows[0].Shape.WidthMeters", problem.Field);
        Assert.Contains(said, problem.Message.Replace('\u00a0', ' '), StringComparison.Ordinal);
    }

    [Fact]
    public void Boards_thicker_than_the_box_are_refused() =>
        Assert.Equal("Shell.WallMeters", Assert.Single(new BoxVolumeInput { Shell = Shell with { WallMeters = 0.18 } }.Validate()).Field);

    private static BoxShell Shell => new() { WidthMeters = 0.4, HeightMeters = 0.35, BottomDepthMeters = 0.3, WallMeters = 0.018 };

    private static Solid Doubled(Solid body) => body switch
    {
        BoxSolid s => new BoxSolid(2 * s.WidthMeters, 2 * s.HeightMeters, 2 * s.DepthMeters),
        WedgeSolid s => new WedgeSolid(2 * s.WidthMeters, 2 * s.HeightMeters, 2 * s.TopDepthMeters, 2 * s.BottomDepthMeters),
        CylinderSolid s => new CylinderSolid(2 * s.DiameterMeters, 2 * s.LengthMeters),
        RoundFrustum s => new RoundFrustum(2 * s.LargeMeters, 2 * s.SmallMeters, 2 * s.HeightMeters),
        RectangularFrustum s => new RectangularFrustum(2 * s.BottomWidthMeters, 2 * s.BottomDepthMeters, 2 * s.TopWidthMeters, 2 * s.TopDepthMeters, 2 * s.HeightMeters),
        PrismSolid s => new PrismSolid([.. s.Outline.Select(p => new Point2(2 * p.X, 2 * p.Y))], 2 * s.LengthMeters),
        _ => throw new ArgumentOutOfRangeException(nameof(body)),
    };
}
