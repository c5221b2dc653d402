using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Money;

namespace ShopFloor.Shop.Phases.Estimate;

/// <summary>What an estimate would say now: made from the parts list and the planned stages, nothing typed again.</summary>
public sealed record EstimateDraft(
    string Currency,
    IReadOnlyList<EstimateLine> Lines,
    decimal TaxPercent,
    decimal Net,
    decimal Tax,
    decimal Gross,
    IReadOnlyList<EstimateGap> Gaps)
{
    public const string WorkGroup = "Work";

    /// <summary>SHA-256 of the draft; issuing names it, so that nobody issues what they have not seen.</summary>
    public string ContentHash => EstimateHash.Of(0, Currency, Lines, TaxPercent, "");

    /// <summary>The lines under their headings, in order.</summary>
    public IEnumerable<IGrouping<string, EstimateLine>> Groups => Lines.GroupBy(line => line.Group);

    /// <summary>
    /// Goods: price times quantity, by kind. Work: planned hours of each stage times the shop's price of an hour.
    /// Every line is rounded once; tax is worked out once on the net total.
    /// </summary>
    public static EstimateDraft Compose(IEnumerable<PricedPart> parts, IEnumerable<PlannedStage> stages, ShopSettingsForm settings)
    {
        var currency = SettingsReading.CurrencyOf(settings);
        var lines = new List<EstimateLine>();
        var gaps = new List<EstimateGap>();
        foreach (var part in parts.OrderBy(part => part.Kind).ThenBy(part => part.Order))
        {
            if (part.UnitPrice is not { } price)
            {
                gaps.Add(new EstimateGap(part.Id, part.Name, $"'{part.Name}' has no price. Enter one, or 0 if it is free of charge."));
                continue;
            }

            lines.Add(new EstimateLine(
                PartKinds.Of(part.Kind).Plural, part.Name, part.Quantity, part.Unit.Symbol(), price, new Amount(price * part.Quantity, currency).Value, IsLabour: false, part.Id));
        }

        foreach (var stage in stages.Where(stage => stage.PlannedHours > 0).OrderBy(stage => stage.Order))
        {
            lines.Add(new EstimateLine(
                WorkGroup, stage.Name, stage.PlannedHours, "h", settings.PricePerHour, new Amount(stage.PlannedHours * settings.PricePerHour, currency).Value, IsLabour: true, stage.Id));
        }

        var net = Amount.Sum(lines.Select(line => new Amount(line.Total, currency)), currency);
        if (!TaxRate.TryCreate(settings.TaxPercent, out var rate, out var problem))
        {
            gaps.Add(new EstimateGap(null, "Tax", problem));
        }

        if (currency == default)
        {
            gaps.Add(new EstimateGap(null, "Currency", $"The shop's currency '{settings.Currency}' is not known. Choose one in the settings."));
        }

        var tax = rate.On(net);
        return new EstimateDraft(currency.Code, lines, rate.Percent, net.Value, tax.Value, (net + tax).Value, gaps);
    }
}

/// <summary>What keeps an estimate from being issued.</summary>
/// <param name="PartId">The part it is about, or null.</param>
/// <param name="Subject">Name of what it is about.</param>
/// <param name="Message">What is missing and what would fill it.</param>
public sealed record EstimateGap(Guid? PartId, string Subject, string Message);

/// <summary>A part as the estimate sees it.</summary>
public sealed record PricedPart(Guid Id, int Order, PartKind Kind, string Name, decimal Quantity, PartUnit Unit, decimal? UnitPrice);
