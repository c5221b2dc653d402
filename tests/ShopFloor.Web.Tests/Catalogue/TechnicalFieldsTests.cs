using Bunit;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Web.Catalogue;
using ShopFloor.Web.Components;
using ShopFloor.Web.Layout;
using ShopFloor.Web.Tests.Components;

namespace ShopFloor.Web.Tests.Catalogue;

public sealed class TechnicalFieldsTests : ComponentTest
{
    private readonly FieldGate _gate = new();
    private readonly FormProblems _problems = new();

    public static TheoryData<PartKind> Kinds => [.. Enum.GetValues<PartKind>()];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Every_datum_of_a_kind_has_its_field_with_its_unit(PartKind kind)
    {
        var form = Form(PartData.Empty(kind));

        var labels = form.FindAll("label").Select(label => label.TextContent).ToList();
        // What only levels, turn-on and drain need is folded behind the rest.
        var inOrder = PartKinds.Of(kind).Fields.OrderBy(field => field.IsFine).ToList();
        Assert.Equal(inOrder.Select(field => field.Label), labels);
        Assert.Equal(
            inOrder.Where(field => field.IsNumber).Select(field => field.Unit),
            form.FindAll(".input-unit").Select(unit => unit.TextContent.Trim()));
    }

    [Fact]
    public void The_fold_opens_where_something_in_it_is_known_or_refused()
    {
        Assert.False(Form(new AmplifierData()).Find("details.fine-fields").HasAttribute("open"));
        Assert.True(Form(new AmplifierData { DampingFactor = 200 }).Find("details.fine-fields").HasAttribute("open"));
        Assert.Empty(Form(PartData.Empty(PartKind.Battery)).FindAll("details.fine-fields"));
    }

    [Fact]
    public void What_is_typed_reaches_the_data()
    {
        var data = new AmplifierData();
        var form = Form(data);

        Input(form, "Channels").Change("4");
        Input(form, "Power per channel at 4 Ω").Change("150.5");

        Assert.Equal((4, 150.5), (data.Channels, data.WattsAtFourOhms));
        Assert.True(_gate.Open);
    }

    [Theory]
    [InlineData("Channels", "2.5")]
    [InlineData("Channels", "many")]
    [InlineData("Power per channel at 4 Ω", "-3")]
    public void What_cannot_be_is_kept_in_sight_and_bars_the_saving(string label, string typed)
    {
        var data = new AmplifierData { Channels = 4, WattsAtFourOhms = 150 };
        var form = Form(data);

        Input(form, label).Change(typed);

        Assert.Equal((4, 150), (data.Channels, data.WattsAtFourOhms));
        Assert.Equal(typed, Input(form, label).GetAttribute("value"));
        Assert.StartsWith(label, Assert.Single(_gate.Messages), StringComparison.Ordinal);
        Assert.StartsWith(label, form.Find(".field-problem span").TextContent, StringComparison.Ordinal);

        Input(form, label).Change("8");
        Assert.True(_gate.Open);
    }

    [Fact]
    public void A_refusal_is_shown_at_its_field()
    {
        _problems.Show([new Problem(nameof(FuseData.RatingAmperes), "Rating is 5000 A; accepted is 0.5 to 1000 A.")]);

        var form = Form(new FuseData());

        Assert.Contains("5000", Assert.Single(form.FindAll(".field-problem span")).TextContent, StringComparison.Ordinal);
        Assert.Equal("true", Input(form, "Rating").GetAttribute("aria-invalid"));
    }

    [Fact]
    public void Us_readers_type_inches_and_the_data_keep_millimetres()
    {
        var data = new LoudspeakerData();
        var form = Form(data, UnitSystem.Us);

        Input(form, "Nominal size").Change("10");

        Assert.Equal(254, data.SizeMillimeters!.Value, 9);
    }

    private static AngleSharp.Dom.IElement Input(IRenderedComponent<TechnicalFields> form, string label) =>
        form.Find("#" + form.FindAll("label").First(found => found.TextContent == label).GetAttribute("for"));

    private IRenderedComponent<TechnicalFields> Form(PartData data, UnitSystem units = UnitSystem.Metric) => Render<TechnicalFields>(parameters => parameters
        .AddCascadingValue(units)
        .AddCascadingValue(_gate)
        .Add(form => form.Data, data)
        .Add(form => form.Problems, _problems));
}
