using ShopFloor.Documents.Diagrams;
using ShopFloor.Documents.Handover;
using ShopFloor.Documents.Tests.Drawing;
using ShopFloor.Documents.Weight;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Fabrication.Restraint;
using ShopFloor.Engineering.Fabrication.Service;
using ShopFloor.Engineering.Mass;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Documents.Tests.Papers;

/// <summary>The paper of weights and holds drawn as PDF and read back.</summary>
public sealed class WeightPaperTests
{
    // 30 kg 3 m behind the front axle of a 2.5 m wheelbase: 30 · 3/2.5 = 36 kg on the rear axle, −6 kg on the front; by hand.
    private static readonly PlacedMass[] _masses = [new("b", "Battery", 30, 3, 0.4)];

    [Fact]
    public void It_says_every_item_load_reading_and_hold_with_its_verdict()
    {
        using var pdf = DrawnPdf.Of(WeightDocument.Compose(Sheet()));

        foreach (var expected in new[]
        {
            "+36 kg", "−6 kg", "736", "Battery", "Boot floor, left, measured", "3 m", "agrees", "Bass box", "4 bolts M8 class 8.8", "to the front", "Clear of: Belts", "Tess Tech", "Main fuse", "Open the bonnet", "by hand",
        })
            Assert.Contains(expected, pdf.Text.Replace('\u00a0', ' '), StringComparison.Ordinal);
    }

    [Fact]
    public void The_drawing_gives_each_wheel_its_load_and_its_change()
    {
        var svg = VehicleLoadPlan.Draw(Sheet().Weight, UnitText.Invariant).Replace('\u00a0', ' ');

        // Rear left: 36 kg · (1/2 + 0.4/1.6) = 27 kg more, weighed 377.
        foreach (var expected in new[] { ">377 kg<", ">+27 kg<", ">+9 kg<", ">Front<", "Left " })
            Assert.Contains(expected, svg, StringComparison.Ordinal);
    }

    [Fact]
    public void A_job_without_a_wheelbase_prints_its_items_and_what_is_missing()
    {
        var sheet = Sheet();
        var bare = sheet.Weight with { Measures = new VehicleMeasures(), Balance = sheet.Weight.Balance with { Axles = null, Corners = null, CornerChange = null, Missing = [new MissingFact("Wheelbase", FactPlace.Vehicle)] } };

        using var pdf = DrawnPdf.Of(WeightDocument.Compose(sheet with { Weight = bare, Restraints = sheet.Restraints with { Items = [] } }));

        Assert.Contains("Not known: Wheelbase", pdf.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("At the wheels", pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_handover_tells_loads_scales_holds_and_tools()
    {
        var weight = Sheet().Weight;
        var facts = SampleJob.Handover with
        {
            Mass = new MassFact(30, 0, 400) { Loads = weight.Loads, Reconciled = weight.Balance.Corners!.Reconciled },
            Held = [new HeldFact("Bass box", 20, "4 bolts M8 class 8.8", 13, "Tess Tech")],
            Access = [new AccessRow("Main fuse", "Engine bay, left", "Open the bonnet") { Tools = "by hand" }],
        };

        using var pdf = DrawnPdf.Of(HandoverDocument.Compose(facts));

        foreach (var expected in new[] { "Rear axle", "Scales leave open", "How the heavy parts are held", "Bass box", "Tess Tech", "by hand" })
            Assert.Contains(expected, pdf.Text, StringComparison.Ordinal);
    }

    private static WeightSheet Sheet()
    {
        var before = new CornerReadings(400, 400, 350, 350);
        var after = new CornerReadings(395.5, 398.5, 377, 359);
        var corners = CornerLoads.Compute(new CornerLoadsInput { WheelbaseMeters = 2.5, TrackMeters = 1.6, Before = before, After = after, Masses = _masses });
        var axles = AxleLoads.Compute(new AxleLoadsInput { WheelbaseMeters = 2.5, TrackMeters = 1.6, FrontKilograms = 800, RearKilograms = 700, Masses = _masses });
        var part = new PlacedPart(Guid.CreateVersion7(), "Battery", PartDirection.Installed, "boot-floor-left", 30, 3, 0.4, 0.2, PlaceOrigin.Measured, "Boot floor, left, measured");
        var weight = new WeightPlanView(
            AddedMass.Compute(new AddedMassInput { Items = [new AddedMassItem { Id = "b", Name = "Battery", Zone = "boot-floor-left", UnitMassKilograms = 30 }] }),
            new PayloadLabel { PayloadKilograms = 400 }, BodyStyle.Estate, [new ZoneWeight("boot-floor-left", "Boot floor, left", 30, 0, 30)], [], [])
        {
            Placed = [part],
            Balance = new MassBalance(axles, true, CornerLoads.Change(_masses, 2.5, 1.6), corners, null, new AddedCenter(3, 0.4, 0.2), 0, 1, [], []),
            Measures = new VehicleMeasures { WheelbaseMeters = 2.5, TrackMeters = 1.6 },
            Scales = new LoadedDesign<CornerScalesForm>(Guid.CreateVersion7(), Guid.CreateVersion7(), "Corner scales", new CornerScalesForm
            {
                BeforeFrontLeft = 400, BeforeFrontRight = 400, BeforeRearLeft = 350, BeforeRearRight = 350, AfterFrontLeft = 395.5, AfterFrontRight = 398.5, AfterRearLeft = 377, AfterRearRight = 359,
            }),
        };
        var form = new RestraintForm
        {
            BaseLengthMeters = 0.4, BaseWidthMeters = 0.6, CenterHeightMeters = 0.15,
            Fasteners = [new HeldAt { Mark = "1", ForwardMeters = 0.17, LeftMeters = 0.27 }, new HeldAt { Mark = "2", ForwardMeters = 0.17, LeftMeters = -0.27 }, new HeldAt { Mark = "3", ForwardMeters = -0.17, LeftMeters = 0.27 }, new HeldAt { Mark = "4", ForwardMeters = -0.17, LeftMeters = -0.27 }],
        };
        var held = ItemRestraint.Compute(new RestraintInput
        {
            Name = "Bass box", Kilograms = 20, BaseLengthMeters = 0.4, BaseWidthMeters = 0.6, CenterHeightMeters = 0.15,
            Hold = new BoltHold { Thread = CoarseThread.M8, In = HeldIn.BackedSheet }, Fasteners = [.. form.Fasteners.Select(place => new FastenerPlace(place.Mark, place.ForwardMeters, place.LeftMeters))],
        });
        var carried = new CarriedPart(Guid.CreateVersion7(), "Box", "boot-floor-left", 20);
        var tick = new RestraintTick(RestraintHazard.Belts, "Tess Tech", new DateTimeOffset(2031, 3, 3, 8, 0, 0, TimeSpan.Zero));
        var item = new RestraintView(
            new LoadedDesign<RestraintForm>(Guid.CreateVersion7(), Guid.CreateVersion7(), "Bass box", form), 20, [carried], held, new Decelerations(),
            [new RestraintCheck(RestraintHazard.Belts, RestraintPlans.Words(RestraintHazard.Belts), tick)], []);
        var fuse = new ServiceRow(Guid.CreateVersion7(), Guid.CreateVersion7(), "Main fuse", ServiceKind.Fuse, "Engine bay, left", "", "Open the bonnet", ["Open the bonnet"], new ReachForm());
        return new WeightSheet(
            SampleJob.Letterhead, "J-0042", "Bass", "2028 Verano Lince", weight, new RestraintsView([item], [carried], [], new Decelerations(), false), new ServiceView([fuse], [new Finding("x", Severity.Note, "y", "Fuse", "One thing.", "Do it.", "")]));
    }
}
