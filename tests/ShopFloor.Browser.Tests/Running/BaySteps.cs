using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace ShopFloor.Browser.Tests.Running;

/// <summary>Steps of the usual stages, and how a pair of hands in the bay finds them on the tablet.</summary>
public static class BaySteps
{
    public const string Compare = "Compare condition marks with the car";
    public const string RoundPhoto = "Photos all round";
    public const string Battery = "Measure the battery after the car has rested";
    public const string Polarity = "Polarity of every supply run confirmed";

    /// <summary>Opens a job with the usual stages planned.</summary>
    public static async Task<Guid> PlannedJobAsync(this Visitor desk, string title, string plate)
    {
        var job = await desk.OpenJobAsync(title, "Imre Palk", plate);
        await desk.PlanStagesAsync(job);
        return job;
    }

    public static Task UnfoldAsync(this Visitor visitor, string stage) =>
        visitor.Page.Locator("details.stage > summary").Filter(new() { HasText = stage }).ClickAsync();

    public static ILocator Step(this Visitor visitor, string text) => visitor.Page.Locator(".step").Filter(new() { HasText = text });

    public static ILocator Tick(this Visitor visitor, string text) =>
        visitor.Page.GetByRole(AriaRole.Button, new() { NameRegex = new Regex($"^Tick:\\s+{Regex.Escape(text)}") });
}
