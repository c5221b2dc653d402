using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Phases.Estimate;

/// <summary>How an estimate stands with the client.</summary>
public enum EstimateState
{
    Issued,
    Approved,
    Declined,
    Replaced,
}

/// <summary>An estimate as it was shown to the client: frozen when issued; a change makes a new version.</summary>
public sealed class EstimateVersion : IAudited
{
    public EstimateVersion(Guid jobId, int number, string currency, IEnumerable<EstimateLine> lines, decimal taxPercent, string note, string by, DateTimeOffset at)
    {
        Id = Guid.CreateVersion7();
        JobId = jobId;
        Number = number;
        Currency = currency;
        Lines = [.. lines];
        TaxPercent = taxPercent;
        Note = note;
        IssuedBy = by;
        IssuedAt = at;
    }

    private EstimateVersion()
    {
    }

    public Guid Id { get; private set; }

    public Guid JobId { get; private set; }

    public int Number { get; private set; }

    public string Currency { get; private set; } = "";

    public List<EstimateLine> Lines { get; private set; } = [];

    public decimal TaxPercent { get; private set; }

    public decimal NetTotal { get; private set; }

    public decimal TaxTotal { get; private set; }

    public decimal GrossTotal { get; private set; }

    public string Note { get; private set; } = "";

    public EstimateState State { get; private set; }

    public string IssuedBy { get; private set; } = "";

    public DateTimeOffset IssuedAt { get; private set; }

    public string AnsweredBy { get; private set; } = "";

    public string AnsweredHow { get; private set; } = "";

    public DateTimeOffset? AnsweredAt { get; private set; }

    /// <summary>SHA-256 of what the client is shown: whoever answers says with it which text and numbers they saw.</summary>
    public string ContentHash => EstimateHash.Of(Number, Currency, Lines, TaxPercent, Note);

    public void SetTotals(decimal net, decimal tax, decimal gross) => (NetTotal, TaxTotal, GrossTotal) = (net, tax, gross);

    public void Answer(bool approved, string by, string how, DateTimeOffset at)
    {
        State = approved ? EstimateState.Approved : EstimateState.Declined;
        AnsweredBy = by;
        AnsweredHow = how;
        AnsweredAt = at;
    }

    public void Replace()
    {
        if (State == EstimateState.Issued)
        {
            State = EstimateState.Replaced;
        }
    }

    string IAudited.AuditName => $"Estimate {Number}";

    Guid? IAudited.AuditJobId => JobId;
}

/// <param name="Group">Heading the line stands under.</param>
/// <param name="Text">What it is.</param>
/// <param name="Quantity">How much.</param>
/// <param name="Unit">Unit symbol.</param>
/// <param name="UnitPrice">Price of one, net.</param>
/// <param name="Total">Rounded price of the line, net.</param>
/// <param name="IsLabour">Whether it is work rather than goods.</param>
/// <param name="SourceId">The part or stage it was made from, so that later changes can be told line by line.</param>
public sealed record EstimateLine(string Group, string Text, decimal Quantity, string Unit, decimal UnitPrice, decimal Total, bool IsLabour, Guid SourceId);
