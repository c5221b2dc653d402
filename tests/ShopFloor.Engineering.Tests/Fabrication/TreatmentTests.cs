using CsCheck;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Fabrication.Service;
using ShopFloor.Engineering.Fabrication.Treatment;

namespace ShopFloor.Engineering.Tests.Fabrication;

public class TreatmentTests
{
    private static readonly SoundTreatmentInput Doors = new(
        [new("butyl", "Butyl 2 mm", TreatmentKind.Damping, 3.5, 0.7, 0.5), new("foam", "Foam 10 mm", TreatmentKind.Absorber, 0.3, 1, 1, 0)],
        [new("left", "Left door", 0.9, [new("butyl", 0.4), new("foam", 1)]), new("right", "Right door", 0.9, [new("butyl", 0.4), new("foam", 1)])]);

    [Fact]
    public void Mass_and_sheets_by_area_and_share()
    {
        // By hand: 0.72 m² of butyl, 2.52 kg, 0.8 m² with offcuts of sheets of 0.35 m²: 3; 1.8 m² of foam, 0.54 kg, 2 sheets.
        var result = SoundTreatment.Compute(Doors);

        Assert.Equal(3.06, result.Kilograms, 9);
        Assert.Equal([3, 2], result.Materials.Select(total => total.Sheets));
        Assert.Equal(2.52, result.Materials[0].Kilograms, 9);
        Assert.Equal(1.53, result.Panels[0].Kilograms, 9);
        Assert.Empty(result.Findings);
    }

    [Fact]
    public void Panels_and_materials_sum_to_the_same_mass() =>
        Gen.Select(Gen.Double[0.05, 5], Gen.Double[0.05, 1]).Array[1, 20].Sample(panels =>
        {
            var result = SoundTreatment.Compute(Doors with { Panels = [.. panels.Select((panel, n) => new TreatedPanel($"{n}", $"Panel {n}", panel.Item1, [new("butyl", panel.Item2)]))] });
            return Math.Abs(result.Kilograms - result.Materials.Sum(total => total.Kilograms)) < 1e-9 && result.Materials[0].Sheets * 0.35 * 0.9 >= result.Materials[0].SquareMeters - 1e-6;
        });

    [Fact]
    public void Damping_all_over_is_told_to_be_much() =>
        Assert.Equal("damping-much", Assert.Single(SoundTreatment.Compute(Doors with { Panels = [new("roof", "Roof", 1.5, [new("butyl", 1)])] }).Findings).Code);

    [Fact]
    public void An_unknown_material_is_refused() =>
        Assert.Equal("Roof: “cork” is none of the materials.", Assert.Single((Doors with { Panels = [new("roof", "Roof", 1.5, [new("cork", 1)])] }).Validate()).Message);

    [Fact]
    public void A_rattle_is_open_until_the_same_tone_is_silent()
    {
        Rattle[] list = [new("a", "Rear shelf", 63), new("b", "Plate", 41, 105, "felt", false), new("c", "Door card", 48, Remedy: "clip", StillHeard: true), new("d", "Mirror", 55, Remedy: "foam")];

        Assert.Equal([RattleState.Found, RattleState.Gone, RattleState.Returned, RattleState.Treated], list.Select(RattleList.StateOf));
        Assert.Equal(["Door card", "Mirror", "Rear shelf"], RattleList.Open(list).Select(finding => finding.Subject));
        Assert.Equal("At 48 Hz it rattles again after: clip.", RattleList.Open(list)[0].Text);
        Assert.Equal("Rattles[0].Remedy", Assert.Single(RattleList.Validate([new("a", "Shelf", 50, StillHeard: false)])).Field);
    }

    [Fact]
    public void A_fuse_behind_screws_is_far_and_behind_glue_a_stop()
    {
        ServiceItem[] items =
        [
            new("main", "Main fuse", ServiceKind.Fuse, ["open the bonnet"], []),
            new("amp", "Amplifier fuse", ServiceKind.Fuse, ["lift the floor", "unscrew the cover", "swing the panel"], ["Torx 20"]),
            new("gain", "Gain", ServiceKind.Adjustment, ["lift the floor"], ["screwdriver"]),
            new("wheel", "Spare wheel", ServiceKind.VehicleItem, ["cut the carpet"], ["knife"], true),
        ];
        var findings = ServiceAccess.Check(new ServiceAccessInput(items, new ServiceLimits()));

        Assert.Equal([("service-destroys", Severity.Stop, "wheel"), ("service-far", Severity.Warn, "amp")], findings.Select(finding => (finding.Code, finding.Severity, finding.SubjectId)));
        Assert.Equal("3 steps and 1 tool to reach it; 2 steps and 0 tools are the limit.", findings[1].Text);
        Assert.Equal("Limits.FuseTools", Assert.Single(new ServiceAccessInput(items, new ServiceLimits(FuseTools: 99)).Validate()).Field);
    }
}
