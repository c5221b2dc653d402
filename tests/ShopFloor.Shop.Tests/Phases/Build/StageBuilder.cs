using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Phases.Build;

namespace ShopFloor.Shop.Tests.Phases.Build;

/// <summary>Plans jobs for tests with as few stages and steps as the test is about.</summary>
internal static class StageBuilder
{
    public static readonly StepMeasure Resting = new("Battery voltage at rest", "V", 12.2, 13.0);

    public static TemplateStage Stage(string name, params TemplateStep[] steps) => new(name, JobPhase.Build, 2, steps);

    public static TemplateStep Step(string text = "Lay the main run") => new(text);

    /// <summary>Opens a job with these stages.</summary>
    public static async Task<WorkSheet> PlannedJobAsync(this TestShop shop, params TemplateStage[] stages)
    {
        var jobId = await shop.OpenJobAsync();
        await shop.PlanAsync(jobId, stages);
        return await shop.SheetAsync(jobId);
    }

    public static async Task PlanAsync(this TestShop shop, Guid jobId, params TemplateStage[] stages)
    {
        var form = new TemplateForm { Name = "Template of a test", Stages = [.. stages.Select(StageForm.Of)] };
        var template = await shop.Get<StageTemplates>().AddAsync(shop.Owner, form, CancellationToken.None);
        Assert.True(template.Succeeded, template.Message);
        var planned = await shop.Get<StagePlan>().PlanAsync(shop.Desk, jobId, template.Value, CancellationToken.None);
        Assert.True(planned.Succeeded, planned.Message);
    }

    public static async Task<WorkSheet> SheetAsync(this TestShop shop, Guid jobId) =>
        await shop.Get<WorkSheets>().SheetAsync(shop.Technician, jobId, CancellationToken.None) ?? throw new InvalidOperationException("The job is not there.");

    public static Task<JobProgress> ProgressAsync(this TestShop shop, Guid jobId) =>
        shop.Store.ReadAsync(db => db.Jobs.Where(job => job.Id == jobId).Select(job => job.Progress).SingleAsync(), CancellationToken.None);

    public static async Task SetZoneAsync(this TestShop shop, string zone) =>
        await shop.Store.WriteAsync<Common.Done>(
            shop.Owner,
            db =>
            {
                db.ShopSettings.Add(new ShopSettings(new ShopSettingsForm { Name = "Test shop", TimeZoneId = zone }));
                return Task.FromResult<Common.Outcome<Common.Done>>(Common.Done.Value);
            },
            CancellationToken.None);

    /// <summary>Puts a photo on file without a picture behind it.</summary>
    public static async Task AddPhotoRowAsync(this TestShop shop, Guid jobId, PhotoSubject subject, Guid? subjectId) =>
        await shop.Store.WriteAsync<Common.Done>(
            shop.Technician,
            db =>
            {
                db.Photos.Add(new Photo(jobId, new string('a', 64), 4, 3, subject, subjectId, shop.Technician.Name, shop.Time.GetUtcNow()));
                return Task.FromResult<Common.Outcome<Common.Done>>(Common.Done.Value);
            },
            CancellationToken.None);

    public static Guid NewId() => Guid.CreateVersion7();
}
