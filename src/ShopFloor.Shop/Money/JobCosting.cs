namespace ShopFloor.Shop.Money;

/// <summary>
/// What a job has cost, what it will cost and what is left. Pure arithmetic over facts that were entered elsewhere:
/// each line is rounded once, and a missing cost is named, never taken as zero without a word.
/// </summary>
public static class JobCosting
{
    /// <param name="quoted">Net price the client approved; null when none is approved.</param>
    /// <param name="usualCostPerHour">Cost of an hour when nobody has worked on the job yet; null when it is not known.</param>
    public static JobMoneySheet Compute(
        Currency currency,
        Amount? quoted,
        IReadOnlyList<CostedPart> parts,
        IReadOnlyList<CostedHours> hours,
        IReadOnlyList<CostedStage> stages,
        decimal? usualCostPerHour)
    {
        ArgumentNullException.ThrowIfNull(parts);
        ArgumentNullException.ThrowIfNull(hours);
        ArgumentNullException.ThrowIfNull(stages);
        var gaps = new List<string>();
        gaps.AddRange(parts.Where(part => part.UnitCost is null).Select(part => $"'{part.Name}' has no cost."));
        gaps.AddRange(hours.Where(entry => entry.CostPerHour == 0).Select(entry => entry.Person).Distinct().Select(person => $"Hours of {person} have no cost rate."));

        Amount PartsCost(Func<CostedPart, bool> which) =>
            Amount.Sum(parts.Where(which).Select(part => new Amount((part.UnitCost ?? 0) * part.Quantity, currency)), currency);

        var labour = Amount.Sum(hours.Select(entry => new Amount(entry.Hours * entry.CostPerHour, currency)), currency);
        var worked = hours.Sum(entry => entry.Hours);
        var goods = PartsCost(part => part.Stage != CostStage.Needed && !part.IsMaterial);
        var materials = PartsCost(part => part.Stage != CostStage.Needed && part.IsMaterial);
        var toBuy = PartsCost(part => part.Stage == CostStage.Needed);
        var hoursLeft = stages.Where(stage => !stage.IsDone).Sum(stage => Math.Max(0, stage.PlannedHours - stage.WorkedHours));

        // Hours nobody gave a rate would drag the average down, so it is taken over those that have one.
        var rated = hours.Where(entry => entry.CostPerHour > 0).ToList();
        var ratedHours = rated.Sum(entry => entry.Hours);
        var rate = ratedHours > 0 ? rated.Sum(entry => entry.Hours * entry.CostPerHour) / ratedHours : usualCostPerHour;
        if (rate is null && hoursLeft > 0)
        {
            gaps.Add("Nobody has a cost rate, so the hours still to work are counted without cost.");
        }

        var labourLeft = new Amount(hoursLeft * (rate ?? 0), currency);
        var soFar = goods + materials + labour;
        var forecast = soFar + toBuy + labourLeft;
        return new JobMoneySheet(
            currency.Code,
            quoted?.Value,
            goods.Value,
            materials.Value,
            PartsCost(part => part.Stage == CostStage.Fitted).Value,
            labour.Value,
            soFar.Value,
            toBuy.Value,
            hoursLeft,
            rate,
            labourLeft.Value,
            forecast.Value,
            quoted is { } price ? (price - soFar).Value : null,
            quoted is { } agreed ? (agreed - forecast).Value : null,
            quoted is { } total ? Margin.Of(total, forecast) : null,
            worked,
            stages.Sum(stage => stage.PlannedHours),
            [.. Enum.GetValues<CostStage>().Select(stage => new CostStageCount(stage, parts.Count(part => part.Stage == stage), PartsCost(part => part.Stage == stage).Value))],
            gaps);
    }
}

/// <summary>How far a part has come, as far as money is concerned: from "ordered" on it is owed.</summary>
public enum CostStage
{
    Needed,
    Ordered,
    Received,
    Fitted,
}

/// <summary>A part that goes into the car. Parts taken out of it cost nothing and are not among these.</summary>
public sealed record CostedPart(string Name, CostStage Stage, bool IsMaterial, decimal Quantity, decimal? UnitCost);

/// <summary>Time worked at the cost rate the person had then.</summary>
public sealed record CostedHours(string Person, decimal Hours, decimal CostPerHour);

/// <summary>A planned stage and the time worked on it.</summary>
public sealed record CostedStage(string Name, decimal PlannedHours, decimal WorkedHours, bool IsDone);

/// <param name="Stage">How far.</param>
/// <param name="Count">Parts that have come so far.</param>
/// <param name="Cost">Their cost.</param>
public sealed record CostStageCount(CostStage Stage, int Count, decimal Cost);

/// <summary>The owner's view of a job's money. Net of tax throughout.</summary>
/// <param name="Currency">ISO 4217 code.</param>
/// <param name="Quoted">What the client approved; null when nothing is approved.</param>
/// <param name="Parts">Cost of parts ordered or beyond, without materials.</param>
/// <param name="Materials">Cost of sheet goods, treatment and the like ordered or beyond.</param>
/// <param name="Fitted">Cost of what is already in the car; part of the two before.</param>
/// <param name="Labour">Hours worked at their cost rates, running clocks up to now.</param>
/// <param name="CostSoFar">Parts, materials and labour.</param>
/// <param name="ToBuy">Cost of parts still to order.</param>
/// <param name="HoursLeft">Planned hours of open stages that are not worked yet.</param>
/// <param name="CostPerHour">Rate the hours left are counted with; null when not known.</param>
/// <param name="LabourLeft">Cost of the hours left.</param>
/// <param name="ForecastCost">Cost when the job is finished as planned.</param>
/// <param name="MarginNow">Quoted less cost so far.</param>
/// <param name="MarginForecast">Quoted less forecast cost.</param>
/// <param name="MarginForecastShare">Forecast margin as a share of the quoted price.</param>
/// <param name="HoursWorked">Hours worked.</param>
/// <param name="HoursPlanned">Hours planned.</param>
/// <param name="ByStage">Parts counted by how far they have come.</param>
/// <param name="Gaps">What is missing for the numbers to be whole.</param>
public sealed record JobMoneySheet(
    string Currency,
    decimal? Quoted,
    decimal Parts,
    decimal Materials,
    decimal Fitted,
    decimal Labour,
    decimal CostSoFar,
    decimal ToBuy,
    decimal HoursLeft,
    decimal? CostPerHour,
    decimal LabourLeft,
    decimal ForecastCost,
    decimal? MarginNow,
    decimal? MarginForecast,
    decimal? MarginForecastShare,
    decimal HoursWorked,
    decimal HoursPlanned,
    IReadOnlyList<CostStageCount> ByStage,
    IReadOnlyList<string> Gaps);
