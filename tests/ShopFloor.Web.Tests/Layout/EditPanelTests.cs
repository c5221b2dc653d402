using Bunit;
using Microsoft.AspNetCore.Components;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Components;
using ShopFloor.Web.Layout;
using ShopFloor.Web.Tests.Components;

namespace ShopFloor.Web.Tests.Layout;

public sealed class EditPanelTests : ComponentTest
{
    private readonly Guid _loaded = Guid.CreateVersion7();
    private readonly Guid _newer = Guid.CreateVersion7();
    private readonly List<(Guid Version, decimal? Price)> _saves = [];
    private Func<Guid, Outcome<Guid>> _answer = version => version;

    [Fact]
    public void A_field_that_cannot_be_read_keeps_the_form_from_being_saved()
    {
        var panel = Panel();
        panel.Find("button").Click();
        panel.Find("input").Change("eighty");
        panel.Find(".button-primary").Click();

        Assert.Empty(_saves);
        Assert.Contains("eighty", panel.Find("[role=alert]").TextContent, StringComparison.Ordinal);

        panel.Find("input").Change("80");
        panel.Find(".button-primary").Click();

        Assert.Equal([(_loaded, 80m)], _saves);
    }

    [Fact]
    public void A_version_that_went_on_without_a_difference_is_saved_over_without_a_question()
    {
        _answer = version => version == _newer ? version : new EditConflict("Rates", "Dana", DateTimeOffset.UnixEpoch, _newer, []);
        var panel = Panel();
        panel.Find("button").Click();
        panel.Find("input").Change("80");
        panel.Find(".button-primary").Click();

        Assert.Equal([_loaded, _newer], _saves.Select(save => save.Version));
        Assert.Empty(panel.FindAll("input"));
    }

    private IRenderedComponent<EditPanel<Rates>> Panel()
    {
        RenderFragment Fields(EditPanel<Rates>.EditForm form) => builder =>
        {
            builder.OpenComponent<MoneyField>(0);
            builder.AddComponentParameter(1, nameof(MoneyField.Label), "Price of an hour");
            builder.AddComponentParameter(2, nameof(MoneyField.Currency), "EUR");
            builder.AddComponentParameter(3, nameof(MoneyField.Value), form.Draft.Price);
            builder.AddComponentParameter(4, nameof(MoneyField.ValueChanged), EventCallback.Factory.Create<decimal?>(this, price => form.Draft.Price = price));
            builder.CloseComponent();
        };

        var actor = new Actor(Guid.CreateVersion7(), "Olive", ShopRole.Owner, ActorVia.Desk);
        return Render<EditPanel<Rates>>(parameters => parameters
            .AddCascadingValue(new Viewer(actor, ShopFloor.Engineering.Units.UnitSystem.Metric, TimeZoneInfo.Utc, "EUR", "Shop"))
            .Add(panel => panel.Title, "Rates")
            .Add(panel => panel.MayEdit, true)
            .Add(panel => panel.Load, () => Task.FromResult((_loaded, new Rates { Price = 60 })))
            .Add(panel => panel.Save, (version, rates) =>
            {
                _saves.Add((version, rates.Price));
                return Task.FromResult(_answer(version));
            })
            .Add(panel => panel.Form, Fields));
    }

    internal sealed class Rates
    {
        public decimal? Price { get; set; }
    }
}
