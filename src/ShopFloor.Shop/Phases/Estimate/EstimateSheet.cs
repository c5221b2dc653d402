using ShopFloor.Shop.Money;

namespace ShopFloor.Shop.Phases.Estimate;

/// <summary>The estimate page's content.</summary>
/// <param name="Draft">What an estimate would say now.</param>
/// <param name="Versions">Issued versions, newest first.</param>
/// <param name="Difference">How the job differs from the newest approved version; null when it does not, or none is approved.</param>
public sealed record EstimateSheet(EstimateDraft Draft, IReadOnlyList<EstimateVersion> Versions, EstimateDifference? Difference);

/// <summary>An issued estimate with all its paper shows. Selling prices only.</summary>
public sealed record EstimatePaper(
    Letterhead Letterhead,
    string JobReference,
    string JobTitle,
    string ClientName,
    string ClientAddress,
    string Vehicle,
    string Plate,
    Guid VersionId,
    int Number,
    string Currency,
    IReadOnlyList<EstimateLine> Lines,
    decimal TaxPercent,
    decimal Net,
    decimal Tax,
    decimal Gross,
    string Note,
    EstimateState State,
    DateTimeOffset IssuedAt,
    string AnsweredBy,
    DateTimeOffset? AnsweredAt,
    string ContentHash);

/// <summary>How a client's answer reached the shop.</summary>
public enum AnswerWay
{
    Phone,
    InPerson,
    Mail,
    ClientLink,
}

public static class AnswerWays
{
    public static string Text(this AnswerWay way) => way switch
    {
        AnswerWay.Phone => "by phone",
        AnswerWay.InPerson => "in person",
        AnswerWay.Mail => "by mail",
        AnswerWay.ClientLink => "through the client link",
        _ => throw new ArgumentOutOfRangeException(nameof(way), way, null),
    };
}

/// <summary>What the client sends from their page.</summary>
/// <param name="VersionId">The version they were shown.</param>
/// <param name="ContentHash">Its fingerprint as it was shown.</param>
/// <param name="Approved">Whether they agree.</param>
/// <param name="TypedName">The name they typed in place of a signature.</param>
public sealed record ClientAnswer(Guid VersionId, string ContentHash, bool Approved, string TypedName);
