using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Phases.Intake;

/// <summary>The signed taking-over of the car from the client.</summary>
public sealed class CheckIn : IAudited, IVersioned
{
    public CheckIn(Guid jobId)
    {
        Id = Guid.CreateVersion7();
        JobId = jobId;
    }

    private CheckIn()
    {
    }

    public Guid Id { get; private set; }

    public Guid Version { get; private set; }

    public Guid JobId { get; private set; }

    public List<string> WarningLights { get; private set; } = [];

    public bool NoWarningLights { get; private set; }

    public double? BatteryVolts { get; private set; }

    public int? EnergyPercent { get; private set; }

    public string Belongings { get; private set; } = "";

    public string Notes { get; private set; } = "";

    public string SignerName { get; private set; } = "";

    /// <summary>The client's strokes as an SVG path in a box of 600 by 200.</summary>
    [NotAudited]
    public string SignaturePath { get; private set; } = "";

    /// <summary>SHA-256 of what was on the screen when it was signed, so a later change shows.</summary>
    public string SignedContentHash { get; private set; } = "";

    public DateTimeOffset? SignedAt { get; private set; }

    public string SignedBefore { get; private set; } = "";

    public bool IsSigned => SignedAt is not null;

    public void Apply(CheckInDetails details)
    {
        WarningLights = [.. details.WarningLights];
        NoWarningLights = details.NoWarningLights;
        BatteryVolts = details.BatteryVolts;
        EnergyPercent = details.EnergyPercent;
        Belongings = details.Belongings.Trim();
        Notes = details.Notes.Trim();
    }

    public void Sign(string signerName, string path, string contentHash, string before, DateTimeOffset at)
    {
        SignerName = signerName;
        SignaturePath = path;
        SignedContentHash = contentHash;
        SignedBefore = before;
        SignedAt = at;
    }

    /// <summary>A signed record is only opened again on purpose; it then has to be signed anew.</summary>
    public void OpenAgain()
    {
        SignedAt = null;
        SignerName = "";
        SignaturePath = "";
        SignedContentHash = "";
        SignedBefore = "";
    }

    string IAudited.AuditName => "Check-in";

    Guid? IAudited.AuditJobId => JobId;
}
