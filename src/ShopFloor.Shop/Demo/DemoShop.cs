using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Demo.Drawings;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Phases.Tuning;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Demo;

/// <summary>
/// Fills an empty shop with an invented one: people, clients, cars, parts and eight jobs at different stages,
/// told through the real use cases with the clock set back, so that every number on the screens was computed.
/// </summary>
public static class DemoShop
{
    /// <summary>
    /// Makes the demo in a folder that has no shop yet. It is told in a folder beside it and moved into place when it is whole,
    /// so that a start that was broken off leaves no half demo behind.
    /// </summary>
    /// <param name="folder">Where the shop will live; one that already has a database is left alone.</param>
    /// <param name="services">Adds what draws the handover of the delivered job to a service collection.</param>
    /// <param name="now">The moment the story ends.</param>
    /// <param name="cancellationToken">Stops between two chapters.</param>
    public static async Task MakeAsync(ShopFolder folder, Action<IServiceCollection> services, DateTimeOffset now, CancellationToken cancellationToken)
    {
        if (File.Exists(folder.Database))
        {
            return;
        }

        var beside = new ShopFolder(Path.TrimEndingDirectorySeparator(folder.Root) + ".filling");
        if (Directory.Exists(beside.Root))
        {
            Directory.Delete(beside.Root, recursive: true);
        }

        await TellAsync(beside, services, now, cancellationToken);
        Directory.CreateDirectory(folder.Root);
        foreach (var entry in Directory.GetFileSystemEntries(beside.Root))
        {
            Directory.Move(entry, Path.Combine(folder.Root, Path.GetFileName(entry)));
        }

        Directory.Delete(beside.Root);
    }

    private static async Task TellAsync(ShopFolder folder, Action<IServiceCollection> addPrint, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var clock = new DemoClock(now.AddDays(-60), now);
        var collection = new ServiceCollection()
            .AddSingleton<TimeProvider>(clock)
            .AddSingleton(clock)
            .AddShop(folder)
            .AddSingleton<DemoScript>();
        addPrint(collection);
        await using var services = collection.BuildServiceProvider();
        await services.GetRequiredService<ShopDatabase>().PrepareAsync(cancellationToken);
        var store = services.GetRequiredService<ShopStore>();
        DemoScript.Must(await services.GetRequiredService<DemoPeople>().AddToEmptyShopAsync(cancellationToken));
        DemoScript.Must(await store.WriteAsync<Done>(
            Actor.Shop,
            db =>
            {
                db.ShopSettings.Add(new ShopSettings(Settings()));
                db.StageTemplates.Add(new StageTemplate(UsualStages.Name, UsualStages.Stages) { IsDefault = true });
                foreach (var part in DemoCatalogue.Parts())
                {
                    db.CatalogueParts.Add(new CataloguePart(part));
                }

                return Task.FromResult<Outcome<Done>>(Done.Value);
            },
            cancellationToken));

        var script = services.GetRequiredService<DemoScript>();
        await script.MeetEverybodyAsync();
        var today = new DateTimeOffset(now.UtcDateTime.Date, TimeSpan.Zero);
        foreach (var chapter in (Func<DemoScript, IServiceProvider, DateTimeOffset, Task>[])[TheCoupeAsync, TheEstateAsync, TheElectricAsync, TheLateHatchbackAsync, TheVanAsync, TheSaloonAsync, TheWaitingSuvAsync, TheNewArrivalAsync])
        {
            cancellationToken.ThrowIfCancellationRequested();
            await chapter(script, services, today);
        }

        SqliteConnection.ClearAllPools();
    }

    private static ShopSettingsForm Settings() => new()
    {
        Name = "Brindle & Oar Car Sound",
        Address = "Unit 4, Millrace Yard, Marrowby",
        Phone = "555 0140",
        Email = "bench@brindle-oar.example",
        Currency = "EUR",
        TaxPercent = 20,
        PricePerHour = 88,
        TimeZoneId = "Europe/Vienna",
        CheckInConditions = "The shop may drive the car in the yard and on a test drive nearby. Nothing is cut or drilled that the job card does not allow. Belongings not listed here are not in the shop's keeping.",
        Warranty = "Two years on parts and work of the shop from the day of delivery. Fuses, misuse and changes made by others are not covered.",
        Care = "Let the battery rest charged. Clean panels with a damp cloth, no solvents. If a fuse opens, replace it once with the same rating; if it opens again, call the shop.",
    };

    /// <summary>Delivered: the whole story with its handover.</summary>
    private static async Task TheCoupeAsync(DemoScript script, IServiceProvider services, DateTimeOffset today)
    {
        script.At(today, 34, 8.5);
        var job = await script.OpenAsync(Job(
            new ClientDetails { Name = "Jasper Okonvale", Phone = "555 0171", Email = "jasper@okonvale.example", Address = "12 Weir Street, Marrowby" },
            new VehicleDetails { Make = "Sorrel", Model = "Quint", Trim = "2.0", ModelYear = today.Year - 4, Plate = "MB 417 Q", Colour = "Ink blue", BodyStyle = BodyStyle.Coupe, Seats = 4, PayloadKilograms = 385, GrossRatingKilograms = 1890, AlternatorAmperes = 150, BatteryAmpereHours = 70 },
            new JobCardDetails
            {
                Title = "Front stage and flat bass", Wish = "I want to hear singers in front of me, not from the doors. Some bass, but the boot must stay usable.",
                BudgetFrom = 3500, BudgetTo = 5000, PromisedOn = Day(today, -18), KeyCount = 2, OdometerKilometers = 41200, KeepSpareWheel = true, LuggageLitresToKeep = 250,
                SourceDevices = [new SourceDevice("Phone", "streams in the car every day"), new SourceDevice("Factory radio", "news in the morning")],
            }));
        await script.CheckInAsync(job, 12.6, "Umbrella, child's blanket", "Jasper Okonvale", [new(ConditionKind.Scratch, 0.46, 0.81, "left side, front door", "3 cm, clear coat only"), new(ConditionKind.Chip, 0.33, 0.47, "top, bonnet", "stone chip")], 4);
        await script.PartAsync(job, DemoCatalogue.SixChannel, 1, VehicleZones.BootFloorLeft, "Lift the boot carpet by its strap; four hand screws hold the cover.");
        await script.PartAsync(job, DemoCatalogue.Processor, 1, VehicleZones.BootFloorRight, "Beside the amplifier under the same cover.");
        await script.PartAsync(job, DemoCatalogue.RadioInterface, 1, VehicleZones.Dash, "Behind the glove box, two clips.");
        await script.PartAsync(job, DemoCatalogue.Tweeter, 2, "pillar-left", change: DemoLinks.Filter(3_200, null));
        await script.PartAsync(job, DemoCatalogue.Midbass, 2, "front-door-left", change: DemoLinks.Filter(75, 3_200));
        await script.PartAsync(job, DemoCatalogue.FlatWoofer, 1, "front-seat-right", "Seat all the way back, four screws.", DemoLinks.Filter(null, 75));
        await script.PartAsync(job, DemoCatalogue.Distribution, 1, VehicleZones.BootFloorLeft, "Under the boot cover, clear lid.");
        await script.PartAsync(job, DemoCatalogue.LightStrip, 1, "boot-side-left");
        await script.PartAsync(job, DemoCatalogue.SpeakerCable, 22, "console");
        await script.PartAsync(job, DemoCatalogue.SignalCable, 6, "console");
        await script.PartAsync(job, DemoCatalogue.Damping, 2.4m, "front-door-left");
        await script.TakeOutAsync(job, "Factory door loudspeakers", 1.4, "front-door-left");
        await DemoLinks.SuggestAsync(services, script.Owner, job);
        await PlanAsync(services, script, job);
        await script.PlanStagesAsync(job);
        await script.EstimateAsync(job, approved: true, "Jasper Okonvale");
        script.At(today, 31, 9);
        await script.PartsToAsync(job, PartState.Fitted, Day(today, -29));
        await script.WorkThroughAsync(job, "Delivery", today, 29, 0.9);
        await script.TryFunctionsAgainAsync(job);
        await SettingsAsync(services, script, job, ByHand);
        await NotesAsync(services, script, job, "A front stage in the pillars and doors, a flat woofer under the right seat. Everything runs through the processor; the factory radio, telephone and warning tones work as before.");
        await script.PhotoAsync(job, DrawnScene.BootFinished, PhotoSubject.Finished, null, "Boot, ready to load", shown: true, script.Mila);
        await script.PhotoAsync(job, DrawnScene.AmplifierRack, PhotoSubject.Finished, null, "Amplifier and processor under the cover", shown: true, script.Mila);
        script.At(today, 17, 16);
        DemoScript.Must(await services.GetRequiredService<DeliveryGate>().DeliverAsync(script.Desk, job, default));
    }

    /// <summary>In tuning: the full system with six channels, one channel, a processor, two sources and nine drivers.</summary>
    private static async Task TheEstateAsync(DemoScript script, IServiceProvider services, DateTimeOffset today)
    {
        script.At(today, 16, 8.25);
        var job = await script.OpenAsync(Job(
            new ClientDetails { Name = "Θάλεια Μαυρίδη", Phone = "555 0162", Email = "thalia@mavridi.example", Notes = "Reads Greek and English. Calls before noon." },
            new VehicleDetails { Make = "Halden", Model = "Marsk", Trim = "Touring", ModelYear = today.Year - 2, Plate = "MB 902 T", Colour = "Graphite", BodyStyle = BodyStyle.Estate, Seats = 5, PayloadKilograms = 520, GrossRatingKilograms = 2240, AlternatorAmperes = 180, BatteryAmpereHours = 80, Measures = new VehicleMeasures { CabinLengthMeters = 3.1, WheelbaseMeters = 2.79, TrackMeters = 1.55, FrontAxleRatingKilograms = 1120, RearAxleRatingKilograms = 1240, FrontAxleKilograms = 905, RearAxleKilograms = 765 } },
            new JobCardDetails
            {
                Title = "Three-way front, deep bass, network player", Wish = "My records at home sound alive. I want that in the car, and my player instead of the phone. The dog travels in the back.",
                BudgetFrom = 6000, BudgetTo = 8500, PromisedOn = Day(today, 2), KeyCount = 2, OdometerKilometers = 18350, KeepSpareWheel = true, LuggageLitresToKeep = 400, RestrictionNotes = "Dog guard must still fit.",
                SourceDevices = [new SourceDevice("Portable player", "own recordings, lossless"), new SourceDevice("Factory radio", "traffic news")],
            }));
        await script.CheckInAsync(job, 12.5, "Dog blanket, leash", "Θάλεια Μαυρίδη", [new(ConditionKind.Dent, 0.56, 0.81, "left side, rear door", "car park dent, 2 cm")], 3);
        foreach (var part in DemoEstate.Parts)
        {
            await script.PartAsync(job, part.Name, part.Quantity, part.Zone, part.Access, part.Change);
        }

        await script.PartAsync(job, DemoCatalogue.Distribution, 1, VehicleZones.BootFloorLeft, "Under the false floor, clear lid.");
        await script.PartAsync(job, DemoCatalogue.SpeakerCable, 38, "console");
        await script.PartAsync(job, DemoCatalogue.SignalCable, 10, "console");
        await script.PartAsync(job, DemoCatalogue.RemoteWire, 12, "console");
        await script.PartAsync(job, DemoCatalogue.Damping, 4.8m, "front-door-left");
        await script.PartAsync(job, DemoCatalogue.Absorber, 2, "front-door-right");
        await script.PartAsync(job, DemoCatalogue.Birch, 1.9m, VehicleZones.BootFloorLeft);
        await script.PartAsync(job, DemoCatalogue.Carpet, 2.5m, VehicleZones.BootFloorLeft);
        await script.TakeOutAsync(job, "Factory loudspeakers, all", 3.6, "front-door-left");
        await script.TakeOutAsync(job, "Factory boot tray", 4.2, VehicleZones.BootFloorLeft);
        await DemoEstate.LinkAsync(services, script.Owner, job);
        await DemoDrivers.TheEstateAsync(services, script, job);
        await DemoBoxes.TheEstateAsync(services, script.Owner, job);
        await DemoPanels.TheEstateAsync(services, script.Owner, job);
        await PlanAsync(services, script, job);
        await DemoWeights.BeforeAsync(services, script, job);
        await script.PlanStagesAsync(job);
        await script.EstimateAsync(job, approved: true, "Θάλεια Μαυρίδη");
        script.At(today, 14, 9);
        await script.PartsToAsync(job, PartState.Fitted, Day(today, -11));
        await script.WorkThroughAsync(job, "Commissioning", today, 10, 1.1);
        await SettingsAsync(services, script, job);
        await DemoWeights.AfterAsync(services, script, job);
        script.At(today, 0, 7.2);
        await script.BeginAsync(job, "Tuning", script.Tarik, 2);
        await DemoTuning.TheEstateAsync(services, script, job);
    }

    /// <summary>In cabling: an electric car, with the high-voltage caution everywhere.</summary>
    private static async Task TheElectricAsync(DemoScript script, IServiceProvider services, DateTimeOffset today)
    {
        script.At(today, 9, 10);
        var job = await script.OpenAsync(Job(
            new ClientDetails { Name = "Noor Halvard", Phone = "555 0118", Email = "noor@halvard.example" },
            new VehicleDetails { Make = "Brisa", Model = "Lumen", Trim = "Long range", ModelYear = today.Year - 1, Plate = "MB 118 E", Colour = "Chalk", DriveType = Drivetrain.Electric, BodyStyle = BodyStyle.Suv, Seats = 5, PayloadKilograms = 430, GrossRatingKilograms = 2580, AlternatorAmperes = 140, BatteryAmpereHours = 45 },
            new JobCardDetails { Title = "Quiet cabin, better bass", Wish = "The motor is silent, so I hear every rattle and the thin bass. Please do not touch range.", BudgetTo = 3800, PromisedOn = Day(today, 6), KeyCount = 1, OdometerKilometers = 9020, LeasedVehicle = true, SourceDevices = [new SourceDevice("Phone", "wireless")] }));
        await script.CheckInAsync(job, 12.9, "None", "Noor Halvard", [], 2);
        await script.PartAsync(job, DemoCatalogue.FourChannel, 1, "front-seat-left", "Slide the seat forward, two clips.");
        await script.PartAsync(job, DemoCatalogue.FlatWoofer, 1, "spare-well", "Lift the boot floor.");
        await script.PartAsync(job, DemoCatalogue.Midbass, 2, "front-door-left");
        await script.PartAsync(job, DemoCatalogue.Damping, 6, "front-door-left");
        await script.PartAsync(job, DemoCatalogue.Absorber, 3, "rear-door-left");
        await PlanAsync(services, script, job);
        await script.PlanStagesAsync(job);
        await script.EstimateAsync(job, approved: true, "Noor Halvard");
        script.At(today, 6, 9);
        await script.PartsToAsync(job, PartState.Received, Day(today, -5));
        await script.WorkThroughAsync(job, "Treatment", today, 3);
        script.At(today, 0, 7.5);
        await script.BeginAsync(job, "Cabling", script.Mila, 1);
    }

    /// <summary>Late and blocked in fabrication.</summary>
    private static async Task TheLateHatchbackAsync(DemoScript script, IServiceProvider services, DateTimeOffset today)
    {
        script.At(today, 21, 11);
        var job = await script.OpenAsync(Job(
            new ClientDetails { Name = "Борис Черненко", Phone = "555 0133", Email = "boris@chernenko.example" },
            new VehicleDetails { Make = "Corvane", Model = "Tessel", ModelYear = today.Year - 7, Plate = "MB 555 C", Colour = "Moss", BodyStyle = BodyStyle.Hatchback, Seats = 5, PayloadKilograms = 410, GrossRatingKilograms = 1670, AlternatorAmperes = 110, BatteryAmpereHours = 60 },
            new JobCardDetails { Title = "Side enclosure for one woofer", Wish = "Strong bass, but the boot floor stays flat.", BudgetFrom = 1800, BudgetTo = 2600, PromisedOn = Day(today, -3), KeyCount = 2, OdometerKilometers = 88400, KeepSpareWheel = true, SourceDevices = [new SourceDevice("Stick of files", "in the factory radio")] }));
        await script.CheckInAsync(job, 12.4, "Tool bag", "Борис Черненко", [new(ConditionKind.Worn, 0.52, 0.5, "top, roof", "faded lacquer")], 2);
        await script.PartAsync(job, DemoCatalogue.SingleChannel, 1, "boot-side-left", "Behind the side trim, three clips.");
        await script.PartAsync(job, DemoCatalogue.Woofer, 1, "boot-side-right", "Eight screws behind the grille.");
        await script.PartAsync(job, DemoCatalogue.Capacitor, 1, "boot-side-left", "Beside the amplifier.");
        await script.PartAsync(job, DemoCatalogue.Birch, 0.8m, "boot-side-right");
        await script.PartAsync(job, DemoCatalogue.Carpet, 1, "boot-side-right");
        await DemoLinks.WithCablesAsync(services, script.Owner, job);
        await PlanAsync(services, script, job);
        await script.PlanStagesAsync(job);
        await script.EstimateAsync(job, approved: true, "Борис Черненко");
        script.At(today, 18, 9);
        await script.PartsToAsync(job, PartState.Received, Day(today, -14));
        await script.WorkThroughAsync(job, "Cabling", today, 17);
        script.At(today, 5, 8);
        await script.BeginAsync(job, "Fabrication", script.Tarik, 2);
        DemoScript.Must(await services.GetRequiredService<TimeClock>().StopAsync(script.Tarik, Guid.CreateVersion7(), null, default));
        DemoScript.Must(await services.GetRequiredService<Blockers>().ReportAsync(
            script.Tarik, Guid.CreateVersion7(), new ReportBlocker(job, null, BlockerKind.Blocker, "Plywood came warped from the supplier; waiting for two flat sheets."), null, default));
    }

    /// <summary>A work van: lights and a camera, parts on order and late.</summary>
    private static async Task TheVanAsync(DemoScript script, IServiceProvider services, DateTimeOffset today)
    {
        script.At(today, 8, 9);
        var job = await script.OpenAsync(Job(
            new ClientDetails { Name = "Fenwright Bakery", Phone = "555 0190", Email = "vans@fenwright.example", Notes = "Van is needed back by Friday noon." },
            new VehicleDetails { Make = "Tanager", Model = "Haul", Trim = "High roof", ModelYear = today.Year - 5, Plate = "MB 77 B", Colour = "Flour white", DriveType = Drivetrain.Diesel, BodyStyle = BodyStyle.Van, Seats = 3, PayloadKilograms = 1120, GrossRatingKilograms = 3500, AlternatorAmperes = 150, BatteryAmpereHours = 95 },
            new JobCardDetails { Title = "Load space lights and rear camera", Wish = "Light to load at four in the morning, and a camera because the back has no window.", BudgetTo = 900, PromisedOn = Day(today, 4), KeyCount = 1, OdometerKilometers = 132000, NothingCut = false }));
        await script.CheckInAsync(job, 12.7, "Bread crates, four", "A. Fenwright", [new(ConditionKind.Dent, 0.4, 0.19, "right side, rear wing", "loading ramp")], 1);
        await script.PartAsync(job, DemoCatalogue.LightStrip, 2, "roof", "Under the cover strip.");
        await script.PartAsync(job, DemoCatalogue.Camera, 1, "rear-shelf");
        await script.PartAsync(job, DemoCatalogue.Recorder, 1, "pillar-right", "Behind the mirror, one clip.");
        await PlanAsync(services, script, job);
        await script.PlanStagesAsync(job);
        await script.EstimateAsync(job, approved: true, "A. Fenwright");
        script.At(today, 7, 9);
        await script.PartsToAsync(job, PartState.Ordered, Day(today, -2));
    }

    /// <summary>A hybrid whose estimate waits for the client's yes.</summary>
    private static async Task TheSaloonAsync(DemoScript script, IServiceProvider services, DateTimeOffset today)
    {
        script.At(today, 3, 14);
        var job = await script.OpenAsync(Job(
            new ClientDetails { Name = "Ludmila Arkwell", Phone = "555 0105", Email = "ludmila@arkwell.example" },
            new VehicleDetails { Make = "Orrin", Model = "Vell", Trim = "Hybrid", ModelYear = today.Year - 3, Plate = "MB 310 V", Colour = "Copper", DriveType = Drivetrain.Hybrid, BodyStyle = BodyStyle.Saloon, Seats = 5, PayloadKilograms = 450, GrossRatingKilograms = 2010, AlternatorAmperes = 120, BatteryAmpereHours = 50, BatteryZone = "boot-side-right" },
            new JobCardDetails { Title = "Clear telephone and fuller sound", Wish = "I cannot understand callers at motorway speed. Music may be nicer too.", BudgetFrom = 1200, BudgetTo = 2200, PromisedOn = Day(today, 12), KeyCount = 2, OdometerKilometers = 27600, SourceDevices = [new SourceDevice("Phone", "calls and radio")] }));
        await script.CheckInAsync(job, 12.3, "Sun glasses", "Ludmila Arkwell", [], 1);
        await script.PartAsync(job, DemoCatalogue.FourChannel, 1, "rear-shelf", "From the boot, two hand screws.");
        await script.PartAsync(job, DemoCatalogue.Midbass, 2, "front-door-left");
        await script.PartAsync(job, DemoCatalogue.Tweeter, 2, "pillar-left");
        await script.PartAsync(job, DemoCatalogue.Damping, 2, "front-door-left");
        await PlanAsync(services, script, job);
        await script.PlanStagesAsync(job);
        await script.EstimateAsync(job, approved: false, "");
    }

    /// <summary>Being designed: some data still missing, and the plan says so.</summary>
    private static async Task TheWaitingSuvAsync(DemoScript script, IServiceProvider services, DateTimeOffset today)
    {
        script.At(today, 1, 15);
        var job = await script.OpenAsync(Job(
            new ClientDetails { Name = "Sina Abendrot", Phone = "555 0127", Email = "sina@abendrot.example" },
            new VehicleDetails { Make = "Halden", Model = "Skov", ModelYear = today.Year, Plate = "MB 640 S", Colour = "Pine", DriveType = Drivetrain.Diesel, BodyStyle = BodyStyle.Suv, Seats = 7, GrossRatingKilograms = 2790, AlternatorAmperes = 180, BatteryAmpereHours = 90 },
            new JobCardDetails { Title = "Camping sound with second battery", Wish = "Music at the lake for an evening without fearing for the start in the morning.", BudgetTo = 4000, PromisedOn = Day(today, 20), KeyCount = 1, OdometerKilometers = 5200, SourceDevices = [new SourceDevice("Phone", "wireless")] }));
        await script.CheckInAsync(job, 12.8, "None", "Sina Abendrot", [], 1);
        await script.PartAsync(job, DemoCatalogue.SixChannel, 1, VehicleZones.BootFloorLeft);
        await script.PartAsync(job, DemoCatalogue.SecondBattery, 1, "boot-side-left");
        await script.PartAsync(job, DemoCatalogue.Woofer, 1, "boot-side-right", change: part => part.UnitMassKilograms = null);
        await script.PartAsync(job, DemoCatalogue.Midbass, 2, "front-door-left", change: DemoLinks.Filter(80, null));
        await script.PartAsync(job, DemoCatalogue.ColourStrip, 1, "rear-shelf", "Under the edge of the shelf.");
        await script.PartAsync(job, DemoCatalogue.Birch, 1.2m, "boot-side-right");
        await DemoLinks.TheSuvAsync(services, script.Owner, job);
    }

    /// <summary>Came in this morning; the client has not signed yet.</summary>
    private static async Task TheNewArrivalAsync(DemoScript script, IServiceProvider services, DateTimeOffset today)
    {
        script.At(today, 0, 7);
        var job = await script.OpenAsync(Job(
            new ClientDetails { Name = "Mateo Quillon", Phone = "555 0184" },
            new VehicleDetails { Make = "Corvane", Model = "Tessel", Trim = "Sport", ModelYear = today.Year - 1, Plate = "MB 209 M", Colour = "Signal red", BodyStyle = BodyStyle.Hatchback, Seats = 5, AlternatorAmperes = 120, BatteryAmpereHours = 60 },
            new JobCardDetails { Title = "Find the rattle, then talk about sound", Wish = "Something buzzes in the left door at certain notes.", PromisedOn = Day(today, 9), KeyCount = 1 }));
        await script.PhotoAsync(job, DrawnScene.CarInBay, PhotoSubject.CheckIn, null, "As it came in", shown: false, script.Desk);
    }

    private static OpenJob Job(ClientDetails client, VehicleDetails vehicle, JobCardDetails card) => new() { NewClient = client, NewVehicle = vehicle, Card = card };

    private static DateOnly Day(DateTimeOffset today, int days) => DateOnly.FromDateTime(today.UtcDateTime).AddDays(days);

    private static async Task PlanAsync(IServiceProvider services, DemoScript script, Guid job)
    {
        var plans = services.GetRequiredService<ElectricalPlans>();
        DemoScript.Must(await plans.AddPlannedPartsAsync(script.Owner, job, default));
        DemoScript.Must(await services.GetRequiredService<PlanReleases>().ReleaseAsync(script.Owner, job, "First plan for the bench", default));
    }

    // What a processor was set to by hand; a job with a preset tells it there.
    private static (string Device, string Setting, string Value)[] ByHand =>
    [
        (DemoCatalogue.Processor, "Tweeters from", "3,200 Hz, 24 dB per octave"),
        (DemoCatalogue.Processor, "Doors", "75 Hz to 3,200 Hz, 24 dB per octave"),
        (DemoCatalogue.Processor, "Woofer up to", "75 Hz, 24 dB per octave"),
        (DemoCatalogue.Processor, "Delay, left and right front", "2.15 ms and 0.60 ms"),
    ];

    private static async Task SettingsAsync(IServiceProvider services, DemoScript script, Guid job, params (string Device, string Setting, string Value)[] more)
    {
        var sheet = services.GetRequiredService<SettingsSheet>();
        foreach (var (device, setting, value) in more.Append((DemoCatalogue.SixChannel, "Gain, all channels", "11 o'clock, 2 V input")))
        {
            DemoScript.Must(await sheet.AddAsync(script.Tarik, job, new SettingRowForm { Device = device, Setting = setting, Value = value }, default));
        }
    }

    private static async Task NotesAsync(IServiceProvider services, DemoScript script, Guid job, string overview)
    {
        var handovers = services.GetRequiredService<Handovers>();
        var notes = await handovers.NotesAsync(script.Desk, job, default);
        var form = notes.Form with { Overview = overview, ServiceAccess = "The boot cover lifts without tools: pull the strap, turn the four hand screws. Everything electrical of this build lies under it, except the main fuse beside the battery." };
        DemoScript.Must(await handovers.SaveNotesAsync(script.Desk, job, notes.Version, form, default));
    }
}
