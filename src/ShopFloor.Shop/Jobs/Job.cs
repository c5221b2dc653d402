using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Jobs;

/// <summary>One vehicle's piece of work from check-in to delivery: the root everything else hangs on.</summary>
public sealed class Job : IAudited, IVersioned
{
    public Job(int number, Guid clientId, Guid vehicleId, JobCardDetails card, DateTimeOffset at)
    {
        Id = Guid.CreateVersion7();
        Number = number;
        ClientId = clientId;
        VehicleId = vehicleId;
        OpenedAt = at;
        ApplyCard(card);
    }

    private Job()
    {
    }

    public Guid Id { get; private set; }

    public Guid Version { get; private set; }

    /// <summary>Running number of the shop, shown as J-0001.</summary>
    public int Number { get; private set; }

    public string Reference => ReferenceOf(Number);

    public Guid ClientId { get; private set; }

    public Client? Client { get; private set; }

    public Guid VehicleId { get; private set; }

    public Vehicle? Vehicle { get; private set; }

    public JobState State { get; private set; }

    public DateTimeOffset OpenedAt { get; private set; }

    public DateTimeOffset? DeliveredAt { get; private set; }

    public string Title { get; private set; } = "";

    /// <summary>What the client wants, in their words.</summary>
    public string Wish { get; private set; } = "";

    public decimal? BudgetFrom { get; private set; }

    public decimal? BudgetTo { get; private set; }

    public DateOnly? PromisedOn { get; private set; }

    public int? KeyCount { get; private set; }

    public double? OdometerKilometers { get; private set; }

    public List<SourceDevice> SourceDevices { get; private set; } = [];

    public bool NothingCut { get; private set; }

    public bool KeepSpareWheel { get; private set; }

    public bool LeasedVehicle { get; private set; }

    public double? LuggageLitresToKeep { get; private set; }

    public string RestrictionNotes { get; private set; } = "";

    /// <summary>Where the job stands, kept beside the job so a board of thousands needs no joins.</summary>
    public JobProgress Progress { get; private set; } = JobProgress.NotPlanned;

    [NotAudited]
    public string SearchText { get; private set; } = "";

    public static string ReferenceOf(int number) => $"J-{number:D4}";

    public void ApplyCard(JobCardDetails card)
    {
        Title = card.Title.Trim();
        Wish = card.Wish.Trim();
        BudgetFrom = card.BudgetFrom;
        BudgetTo = card.BudgetTo;
        PromisedOn = card.PromisedOn;
        KeyCount = card.KeyCount;
        OdometerKilometers = card.OdometerKilometers;
        SourceDevices = [.. card.SourceDevices.Where(device => device.Name.Trim().Length > 0)];
        NothingCut = card.NothingCut;
        KeepSpareWheel = card.KeepSpareWheel;
        LeasedVehicle = card.LeasedVehicle;
        LuggageLitresToKeep = card.LuggageLitresToKeep;
        RestrictionNotes = card.RestrictionNotes.Trim();
    }

    /// <summary>Everything the job can be found by; called whenever one of them changes.</summary>
    public void RefreshSearchText(Client client, Vehicle vehicle) =>
        SearchText = Common.SearchText.Of(Reference, Title, Wish, client.SearchText, vehicle.SearchText);

    public void SetProgress(JobProgress progress) => Progress = progress;

    /// <summary>Hands the car back. The gate has been asked before.</summary>
    public void Deliver(DateTimeOffset at)
    {
        if (State != JobState.Open)
        {
            throw new InvalidOperationException($"{Reference} is {State}, not open.");
        }

        State = JobState.Delivered;
        DeliveredAt = at;
    }

    public void Cancel() => State = JobState.Cancelled;

    public void Reopen()
    {
        State = JobState.Open;
        DeliveredAt = null;
    }

    string IAudited.AuditName => Reference;

    Guid? IAudited.AuditJobId => Id;
}

/// <summary>Something the client plays from: a phone, a portable player, a stick of files.</summary>
/// <param name="Name">What it is, in the client's words.</param>
/// <param name="Use">How they use it.</param>
public sealed record SourceDevice(string Name, string Use)
{
    public override string ToString() => Use.Length > 0 ? $"{Name} ({Use})" : Name;
}

/// <summary>Where a job stands in its stages.</summary>
/// <param name="StageName">Name of the first stage that is not done; empty when all are done or none are planned.</param>
/// <param name="StageOrder">Place of that stage among the job's stages, from 0.</param>
/// <param name="StagesDone">Stages whose required steps are all done.</param>
/// <param name="StagesTotal">Stages of the job.</param>
/// <param name="OpenBlockers">Blockers nobody has cleared.</param>
/// <param name="Working">People with a running clock on the job.</param>
public sealed record JobProgress(string StageName, int StageOrder, int StagesDone, int StagesTotal, int OpenBlockers, int Working)
{
    public static JobProgress NotPlanned { get; } = new("", 0, 0, 0, 0, 0);

    /// <summary>One letter a stage in order, see <see cref="StageTrack"/>: the whole track of a row without reading its steps.</summary>
    public string Track { get; init; } = "";
}
