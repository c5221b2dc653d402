using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Electrical.Commissioning;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Demo.Drawings;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Estimate;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Phases.Parts;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Demo;

/// <summary>The moves the demo's story is told in. Each goes through the same use case a person's tap would.</summary>
internal sealed class DemoScript(
    ShopStore store,
    DemoClock clock,
    JobDesk jobDesk,
    CheckInDesk checkInDesk,
    FactoryFunctions functions,
    PartsList parts,
    Purchasing purchasing,
    StagePlan stagePlan,
    StageWork stageWork,
    TimeClock timeClock,
    MeasuredValues measured,
    Estimates estimates,
    JobPhotos photos)
{
    private Dictionary<string, Guid> _catalogue = [];
    private int _photoSeed;

    public Actor Owner { get; private set; } = Actor.Shop;

    public Actor Desk { get; private set; } = Actor.Shop;

    public Actor Tarik { get; private set; } = Actor.Shop;

    public Actor Mila { get; private set; } = Actor.Shop;

    public async Task MeetEverybodyAsync()
    {
        var people = await store.ReadAsync(db => db.Users.ToDictionaryAsync(member => member.UserName!, member => member), default); // staff always have a user name
        Owner = As(people["olive"], ActorVia.Desk);
        Desk = As(people["dana"], ActorVia.Desk);
        Tarik = As(people["tarik"], ActorVia.Tablet);
        Mila = As(people["mila"], ActorVia.Tablet);
        _catalogue = await store.ReadAsync(db => db.CatalogueParts.ToDictionaryAsync(part => part.Name, part => part.Id), default);
    }

    /// <summary>Sets the clock to a working hour some days before the demo was made.</summary>
    public void Wait(double minutes) => clock.Pass(TimeSpan.FromMinutes(minutes));

    public void At(DateTimeOffset today, int daysAgo, double hour) => clock.Set(today.AddDays(-daysAgo).AddHours(hour));

    public async Task<Guid> OpenAsync(OpenJob command) => Must(await jobDesk.OpenAsync(Desk, command, default));

    public async Task CheckInAsync(Guid jobId, double volts, string belongings, string signer, IReadOnlyList<NewConditionMark> marks, int photoCount)
    {
        foreach (var mark in marks)
        {
            Must(await checkInDesk.AddMarkAsync(Desk, jobId, mark, default));
        }

        var view = await checkInDesk.LoadAsync(Desk, jobId, default);
        view.Details.BatteryVolts = volts;
        view.Details.NoWarningLights = true;
        view.Details.EnergyPercent = 60;
        view.Details.Belongings = belongings;
        Must(await checkInDesk.SaveAsync(Desk, jobId, view.Version, view.Details, default));
        foreach (var function in await functions.ListAsync(Desk, jobId, default))
        {
            var result = function.Name is "Seat heating" or "Child locks" ? FunctionResult.NotFitted : FunctionResult.Works;
            Must(await functions.TryBeforeAsync(Mila, jobId, function.Id, result, "", default));
        }

        DrawnScene[] scenes = [DrawnScene.CarInBay, DrawnScene.ScratchCloseUp, DrawnScene.Dashboard, DrawnScene.BootEmpty];
        foreach (var scene in scenes.Take(photoCount))
        {
            await PhotoAsync(jobId, scene, PhotoSubject.CheckIn, null, Caption(scene), shown: false, Desk);
        }

        if (signer.Length > 0)
        {
            clock.Pass(TimeSpan.FromMinutes(12));
            var shown = await checkInDesk.LoadAsync(Desk, jobId, default);
            Must(await checkInDesk.SignAsync(Desk, jobId, new CheckInSignature(signer, Strokes(signer), shown.ContentHash), default));
        }
    }

    public async Task<Guid> PartAsync(Guid jobId, string name, decimal quantity, string zone, string access = "", Action<JobPartDetails>? change = null)
    {
        var id = Must(await parts.AddFromCatalogueAsync(Owner, jobId, _catalogue[name], quantity, zone, default));
        if (access.Length > 0 || change is not null)
        {
            var form = await parts.ForEditAsync(Owner, id, default) ?? throw new InvalidOperationException($"{name} was just added.");
            form.Details.Access = access;
            change?.Invoke(form.Details);
            Must(await parts.EditAsync(Owner, id, form.Version, form.Details, default));
        }

        return id;
    }

    public async Task TakeOutAsync(Guid jobId, string name, double massKilograms, string zone) =>
        Must(await parts.AddAsync(
            Owner,
            jobId,
            new JobPartDetails
            {
                Kind = PartKind.Accessory,
                Data = new AccessoryData { WorkingAmperes = 0 },
                Name = name,
                Direction = PartDirection.Removed,
                UnitMassKilograms = massKilograms,
                UnitCost = 0,
                UnitPrice = 0,
                Zone = zone,
                Place = "Kept in the client's box on shelf 3",
            },
            default));

    public async Task EstimateAsync(Guid jobId, bool approved, string client)
    {
        var sheet = await estimates.SheetAsync(Owner, jobId, default);
        var version = Must(await estimates.IssueAsync(Owner, jobId, sheet.Draft.ContentHash, "", default));
        if (approved)
        {
            clock.Pass(TimeSpan.FromHours(5));
            Must(await estimates.AnswerAsync(Desk, version, approved: true, client, AnswerWay.Phone, default));
        }
    }

    public async Task PlanStagesAsync(Guid jobId) => Must(await stagePlan.PlanAsync(Desk, jobId, null, default));

    public async Task PartsToAsync(Guid jobId, PartState state, DateOnly? expectedOn = null)
    {
        foreach (var row in (await parts.RowsAsync(Owner, jobId, default)).Where(row => row.Direction == PartDirection.Installed))
        {
            var from = row.State;
            while (from < state)
            {
                var to = from + 1;
                if (to == PartState.Ordered)
                {
                    Must(await purchasing.OrderAsync(Desk, [row.Id], "PO-" + row.Supplier[..Math.Min(3, row.Supplier.Length)].ToUpperInvariant(), expectedOn, default));
                }
                else
                {
                    Must(await purchasing.MoveAsync(Tarik, Guid.CreateVersion7(), row.Id, from, to, default));
                }

                from = to;
            }
        }
    }

    /// <summary>Works through the stages of a job in order, up to and including the named one; the clock of each stage runs its planned time.</summary>
    public async Task WorkThroughAsync(Guid jobId, string lastStage, DateTimeOffset today, int firstDayAgo, double pace = 1)
    {
        var day = firstDayAgo;
        foreach (var stage in await StagesAsync(jobId))
        {
            At(today, day, 8);
            var (worker, second) = stage.Order % 2 == 0 ? (Tarik, Mila) : (Mila, Tarik);
            if (stage.IsCommissioning)
            {
                await ReleaseCommissioningAsync(jobId);
            }

            Must(await timeClock.StartAsync(worker, Guid.CreateVersion7(), stage.Id, null, default));
            clock.Pass(TimeSpan.FromHours(Math.Max(0.3, (double)stage.PlannedHours * pace)));
            if (stage.IsCommissioning)
            {
                await MeasureAsync(jobId, worker);
            }

            if (LevelGate.Covers(stage.Phase))
            {
                await SetLevelsAsync(jobId, worker);
            }

            foreach (var step in stage.Steps.Where(step => step.Required))
            {
                await TickAsync(jobId, step, worker, second);
            }

            Must(await timeClock.StopAsync(worker, Guid.CreateVersion7(), null, default));
            if (stage.Name == lastStage)
            {
                return;
            }

            day = Math.Max(day - 1, 0);
        }
    }

    /// <summary>The owner reads what stands against switching on, and goes on in writing where nothing was left to mend.</summary>
    private async Task ReleaseCommissioningAsync(Guid jobId)
    {
        var sheet = await measured.SheetAsync(Owner, jobId, UnitText.Invariant, default);
        foreach (var alike in sheet.Design.Where(gated => gated.Stands).Select(gated => gated.Finding).GroupBy(finding => finding.Code))
        {
            Must(await measured.SignOffAsync(
                Owner,
                jobId,
                alike.Key,
                [.. alike.Select(finding => new ReadFinding(finding.SubjectId, finding.Text))],
                "Looked at with the bench: what the fuse interrupts is a figure from memory. The maker's data sheet is asked for, and the fuse is changed if it says less.",
                default));
        }
    }

    /// <summary>Measures what the plan asks for; a car is never quite what was computed.</summary>
    private async Task MeasureAsync(Guid jobId, Actor worker)
    {
        foreach (var (row, at) in (await measured.SheetAsync(worker, jobId, UnitText.Invariant, default)).Rows.Select((row, at) => (row, at)))
        {
            var point = row.Point;
            var value = point.Kind == CommissioningKind.KeyOffDrain
                ? point.Predicted!.Value + 14 // the car's own modules; the sum of the parts is always there
                : Math.Round(Math.Max(point.Predicted ?? 0, point.Lowest ?? 0) + (at % 2 == 0 ? 0.03 : 0.06), 2);
            Must(await measured.EnterAsync(worker, Guid.CreateVersion7(), new EnterMeasured(jobId, point.Id, value), null, default));
            clock.Pass(TimeSpan.FromMinutes(3));
        }
    }

    /// <summary>Sets every gain by its tone; a knob turned by hand is never quite on the line.</summary>
    private async Task SetLevelsAsync(Guid jobId, Actor worker)
    {
        foreach (var (row, at) in (await measured.LevelsAsync(worker, jobId, UnitText.Invariant, default)).Rows.Select((row, at) => (row, at)))
        {
            var value = Math.Round(row.Point.Predicted!.Value * (1 + (0.01 * ((at % 3) - 1))), 2); // a level has its target
            Must(await measured.EnterAsync(worker, Guid.CreateVersion7(), new EnterMeasured(jobId, row.Point.Id, value), null, default));
            clock.Pass(TimeSpan.FromMinutes(2));
        }
    }

    /// <summary>Begins a stage and leaves it with the first steps ticked and the clock running.</summary>
    public async Task BeginAsync(Guid jobId, string stageName, Actor worker, int steps)
    {
        var stage = (await StagesAsync(jobId)).Single(found => found.Name == stageName);
        Must(await timeClock.StartAsync(worker, Guid.CreateVersion7(), stage.Id, null, default));
        clock.Pass(TimeSpan.FromMinutes(40));
        foreach (var step in stage.Steps.Take(steps))
        {
            await TickAsync(jobId, step, worker, worker == Tarik ? Mila : Tarik);
        }
    }

    public async Task TryFunctionsAgainAsync(Guid jobId)
    {
        foreach (var function in (await functions.ListAsync(Desk, jobId, default)).Where(function => function.Before != FunctionResult.NotFitted))
        {
            var faulty = function.Name == "Boot lamp";
            Must(await functions.TryAfterAsync(
                Tarik,
                jobId,
                function.Id,
                faulty ? FunctionResult.NotFitted : FunctionResult.Works,
                faulty ? "Replaced by the light strip under the shelf, as agreed; the factory lamp is in your box." : "",
                default));
        }
    }

    public async Task PhotoAsync(Guid jobId, DrawnScene scene, PhotoSubject subject, Guid? subjectId, string caption, bool shown, Actor by)
    {
        using var jpeg = new MemoryStream(DrawnPhoto.Render(scene, ++_photoSeed, 1200, 900));
        var id = Must(await photos.AddAsync(by, new NewPhoto(jobId, subject, subjectId, caption), jpeg, default));
        if (shown)
        {
            Must(await photos.ShowToClientAsync(Desk, id, shown: true, default));
        }
    }

    public static TValue Must<TValue>(Outcome<TValue> outcome) =>
        outcome.Succeeded ? outcome.Value : throw new InvalidOperationException($"The demo cannot be told: {outcome.Message}");

    private async Task TickAsync(Guid jobId, JobStep step, Actor worker, Actor second)
    {
        if (step.NeedsPhoto)
        {
            await PhotoAsync(jobId, SceneFor(step.Text), PhotoSubject.Step, step.Id, step.Text.Split(':', ';', ',')[0], shown: _photoSeed % 2 == 0, worker);
        }

        var value = step.Measure is { } measure
            ? Math.Round(((measure.Lowest ?? 0) * 0.4) + ((measure.Highest ?? measure.Lowest ?? 0) * 0.6), 1)
            : (double?)null;
        Must(await stageWork.TickAsync(worker, Guid.CreateVersion7(), new TickStep(step.Id, value), null, default));
        if (step.NeedsSecondPerson)
        {
            Must(await stageWork.ConfirmAsync(second, Guid.CreateVersion7(), step.Id, null, default));
        }

        clock.Pass(TimeSpan.FromMinutes(4));
    }

    private Task<List<JobStage>> StagesAsync(Guid jobId) => store.ReadAsync(
        db => db.JobStages.Include(stage => stage.Steps.OrderBy(step => step.Order)).Where(stage => stage.JobId == jobId).OrderBy(stage => stage.Order).ToListAsync(),
        default);

    private static Actor As(StaffMember member, ActorVia via) => new(member.Id, member.DisplayName, member.Role, via);

    private static DrawnScene SceneFor(string step) => step switch
    {
        _ when step.Contains("Main run", StringComparison.Ordinal) => DrawnScene.WiringLoom,
        _ when step.Contains("Ground point", StringComparison.Ordinal) => DrawnScene.FuseHolderNearBattery,
        _ when step.Contains("Enclosure", StringComparison.Ordinal) => DrawnScene.EnclosureInClamps,
        _ when step.Contains("Damping", StringComparison.Ordinal) || step.Contains("Sheet metal", StringComparison.Ordinal) => DrawnScene.DoorWithTreatment,
        _ when step.Contains("Finished", StringComparison.Ordinal) => DrawnScene.BootWithFalseFloor,
        _ when step.Contains("Heavy parts", StringComparison.Ordinal) || step.Contains("Cables at", StringComparison.Ordinal) => DrawnScene.AmplifierRack,
        _ when step.Contains("Car clean", StringComparison.Ordinal) => DrawnScene.BootFinished,
        _ when step.Contains("Settings", StringComparison.Ordinal) => DrawnScene.Dashboard,
        _ when step.Contains("panel", StringComparison.Ordinal) => DrawnScene.SpeakerInDoor,
        _ => DrawnScene.CarInBay,
    };

    private static string Caption(DrawnScene scene) => scene switch
    {
        DrawnScene.CarInBay => "As it came in",
        DrawnScene.ScratchCloseUp => "Scratch, close up",
        DrawnScene.Dashboard => "Dashboard, ignition on",
        DrawnScene.BootEmpty => "Boot as it came in",
        _ => "",
    };

    // A hand that loops once for every letter: enough to look signed, nobody's real signature.
    private static string Strokes(string name)
    {
        var path = "M60 120";
        for (var at = 0; at < Math.Min(name.Length, 14); at++)
        {
            var x = 60 + (at * 36);
            var height = 40 + (name[at] % 50);
            path += $"L{x + 12} {120 - height}L{x + 24} {130 + (name[at] % 20)}L{x + 36} {112 - (name[at] % 12)}";
        }

        return path;
    }
}
