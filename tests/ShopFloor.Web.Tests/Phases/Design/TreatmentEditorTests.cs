using Bunit;
using Microsoft.Extensions.DependencyInjection;
using ShopFloor.Engineering.Fabrication.Treatment;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Layout;
using ShopFloor.Web.Phases.Build;
using ShopFloor.Web.Phases.Design;
using ShopFloor.Web.Tests.Components;

namespace ShopFloor.Web.Tests.Phases.Design;

public sealed class TreatmentEditorTests : ComponentTest, IAsyncLifetime
{
    private static readonly TreatmentProduct Butyl = new(Guid.CreateVersion7(), "Butyl", TreatmentKind.Damping, 3.3, 0.5, 0.375, PartUnit.SquareMeter);
    private readonly ShopApplication _shop = new();

    async Task IAsyncLifetime.InitializeAsync()
    {
        await _shop.InitializeAsync();
        Services.AddSingleton(_shop.Get<Treatments>());
        Services.AddSingleton(_shop.Get<Rattles>());
        Services.AddSingleton(_shop.Get<JobChangeFeed>());
    }

    async Task IAsyncLifetime.DisposeAsync()
    {
        await ((IAsyncLifetime)_shop).DisposeAsync();
        await DisposeAsync();
    }

    [Fact]
    public void What_stays_free_and_the_solvent_are_warned_of_before_anything_is_glued()
    {
        var cautions = Editor(ShopRole.FrontDesk, Form(50)).Markup;

        Assert.Contains("Drain holes", cautions, StringComparison.Ordinal);
        Assert.Contains("solvent", cautions, StringComparison.Ordinal);
    }

    [Fact]
    public void Sheets_and_mass_follow_a_change_of_the_share_covered()
    {
        var editor = Editor(ShopRole.FrontDesk, Form(50));
        Assert.Contains("3 sheets", editor.Markup, StringComparison.Ordinal);

        editor.FindAll("input").First(input => input.GetAttribute("value") == "50").Change("100");
        editor.Render();

        Assert.Contains("5 sheets", editor.Markup, StringComparison.Ordinal); // 0.8 / 0.9 / 0.1875 = 4.7
        Assert.Contains("2.64", editor.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void A_technician_reads_and_finds_no_button()
    {
        var editor = Editor(ShopRole.Technician, Form(50));

        Assert.DoesNotContain(editor.FindAll("button"), button => button.TextContent.Contains("parts list", StringComparison.Ordinal) || button.TextContent.Contains("Add", StringComparison.Ordinal));
        Assert.All(editor.FindAll("input"), input => Assert.True(input.HasAttribute("disabled")));
    }

    [Fact]
    public void What_is_missing_is_named_instead_of_numbers()
    {
        var form = Form(50);
        form.Panels[0].SquareMeters = null;

        Assert.Contains("Left door: the area is needed.", Editor(ShopRole.FrontDesk, form).Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void The_list_of_rattles_begins_with_its_tones_and_asks_where_and_at_which()
    {
        var panel = Render<RattlePanel>(parameters => parameters.Add(shown => shown.JobId, Guid.CreateVersion7()).AddCascadingValue(ViewerOf(ShopRole.Technician)));

        Assert.Equal("/documents/test-signals/steps.wav", panel.Find("a").GetAttribute("href"));
        Assert.Equal(25, panel.FindAll(".rattle-steps li").Count);
    }

    private static TreatmentForm Form(double percent) => new()
    {
        Panels = [new TreatedPanelRow { Id = "left", Name = "Left door", SquareMeters = 0.8, Layers = [new TreatmentLayerRow { ProductId = Butyl.Id, CoveragePercent = percent }] }],
    };

    private IRenderedComponent<TreatmentEditor> Editor(ShopRole role, TreatmentForm form) => Render<TreatmentEditor>(parameters => parameters
        .Add(shown => shown.JobId, Guid.CreateVersion7())
        .Add(shown => shown.Draft, new DesignDraft<TreatmentForm>(new LoadedDesign<TreatmentForm>(Guid.CreateVersion7(), Guid.CreateVersion7(), "Doors", form), form, () => { }))
        .Add(shown => shown.Products, [Butyl])
        .AddCascadingValue(ViewerOf(role)));

    private Viewer ViewerOf(ShopRole role) => new(_shop.Actor(role), ShopFloor.Engineering.Units.UnitSystem.Metric, TimeZoneInfo.Utc, "EUR", "Shop");
}
