using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Tests;

/// <summary>Puts parts, stages and results on a job, straight into the database: the tests are about what is made of them.</summary>
internal static class JobFilling
{
    public static async Task<Guid> AddPartAsync(this TestShop shop, Guid jobId, string name, Action<JobPartDetails>? change = null, PartState state = PartState.Needed)
    {
        var details = new JobPartDetails { Name = name, UnitCost = 10, UnitPrice = 20 };
        change?.Invoke(details);
        details.Data = details.Data.Kind == details.Kind ? details.Data : PartData.Empty(details.Kind);
        Assert.Empty(details.Problems());
        var part = new JobPart(jobId, details, null, 0);
        part.MoveTo(state);
        await shop.SaveAsync(db => db.JobParts.Add(part));
        return part.Id;
    }

    public static Task EditPartAsync(this TestShop shop, Guid partId, Action<JobPartDetails> change) => shop.SaveAsync(db =>
    {
        var part = db.JobParts.Single(found => found.Id == partId);
        var details = JobPartDetails.Of(part);
        change(details);
        part.Apply(details);
    });

    public static async Task<JobStage> AddStageAsync(this TestShop shop, Guid jobId, string name, decimal plannedHours, params string[] steps)
    {
        var stage = new JobStage(jobId, new TemplateStage(name, JobPhase.Build, plannedHours, [.. steps.Select(step => new TemplateStep(step))]), 0);
        await shop.SaveAsync(db => db.JobStages.Add(stage));
        return stage;
    }

    public static Task TickAllAsync(this TestShop shop, Guid jobId) => shop.SaveAsync(db =>
    {
        foreach (var step in db.JobSteps.Where(step => step.JobId == jobId))
        {
            step.Tick(shop.Technician.Id, shop.Technician.Name, shop.Time.GetUtcNow(), null);
        }
    });

    public static Task SettingsAsync(this TestShop shop, Action<ShopSettingsForm> change) => shop.SaveAsync(db =>
    {
        var form = new ShopSettingsForm { Name = "Test shop" };
        change(form);
        var saved = db.ShopSettings.SingleOrDefault();
        if (saved is null)
        {
            db.ShopSettings.Add(new ShopSettings(form));
        }
        else
        {
            saved.Apply(form);
        }
    });

    /// <summary>A job nothing stands against: signed, worked, tried and written up.</summary>
    public static async Task<Guid> ReadyJobAsync(this TestShop shop)
    {
        var jobId = await shop.OpenJobAsync();
        await shop.AddPartAsync(jobId, "Two-way loudspeakers", part => (part.Kind, part.UnitMassKilograms) = (PartKind.Loudspeaker, 1.2), PartState.Fitted);
        await shop.SaveAsync(db =>
        {
            var vehicle = db.Vehicles.Single();
            var label = VehicleDetails.Of(vehicle);
            (label.PayloadKilograms, label.Seats) = (480, 5);
            vehicle.Apply(label);
        });
        await shop.AddStageAsync(jobId, "Wiring", 6, "Run the main cable");
        await shop.TickAllAsync(jobId);
        await shop.SaveAsync(db =>
        {
            db.CheckIns.Single(checkIn => checkIn.JobId == jobId).Sign("Clea Client", "M0 0L10 10", new string('0', 64), "Dora Desk", shop.Time.GetUtcNow());
            foreach (var function in db.FactoryFunctions.Where(function => function.JobId == jobId))
            {
                function.TryBefore(FunctionResult.Works, "", "Dora Desk", shop.Time.GetUtcNow());
                function.TryAfter(FunctionResult.Works, "", "Tom Tech", shop.Time.GetUtcNow());
            }

            db.HandoverNotes.Add(new HandoverNotes(jobId, new HandoverNotesForm { Overview = "Clear and calm." }));
        });
        return jobId;
    }

    public static async Task SaveAsync(this TestShop shop, Action<ShopDbContext> change)
    {
        var outcome = await shop.Store.WriteAsync<Done>(
            shop.Owner,
            db =>
            {
                change(db);
                return Task.FromResult<Outcome<Done>>(Done.Value);
            },
            CancellationToken.None);
        Assert.True(outcome.Succeeded, outcome.Message);
    }

    public static Task<TResult> ReadAsync<TResult>(this TestShop shop, Func<ShopDbContext, Task<TResult>> read) => shop.Store.ReadAsync(read, CancellationToken.None);
}
