using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Phases.Handover;

/// <summary>A handover document as it was given to the client: the facts it was made from and the PDF, both frozen.</summary>
public sealed class HandoverRelease : IAudited
{
    public HandoverRelease(Guid jobId, int number, string factsJson, byte[] pdf, string pdfHash, string by, DateTimeOffset at)
    {
        Id = Guid.CreateVersion7();
        JobId = jobId;
        Number = number;
        FactsJson = factsJson;
        Pdf = pdf;
        PdfHash = pdfHash;
        ReleasedBy = by;
        ReleasedAt = at;
    }

    private HandoverRelease()
    {
    }

    public Guid Id { get; private set; }

    public Guid JobId { get; private set; }

    public int Number { get; private set; }

    [NotAudited]
    public string FactsJson { get; private set; } = "";

    [NotAudited]
    public byte[] Pdf { get; private set; } = [];

    /// <summary>SHA-256 of the PDF, so a copy can be proved to be this one.</summary>
    public string PdfHash { get; private set; } = "";

    public string ReleasedBy { get; private set; } = "";

    public DateTimeOffset ReleasedAt { get; private set; }

    string IAudited.AuditName => $"Handover {Number}";

    Guid? IAudited.AuditJobId => JobId;
}
