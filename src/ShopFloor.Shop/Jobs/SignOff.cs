using ShopFloor.Engineering.Explained;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Jobs;

/// <summary>
/// The owner's written reason to go on in spite of a finding. It covers that finding as it read then:
/// if the values change, the finding stands again.
/// </summary>
public sealed class SignOff : IAudited
{
    public SignOff(Guid jobId, Finding finding, string reason, string by, DateTimeOffset at)
    {
        Id = Guid.CreateVersion7();
        JobId = jobId;
        Code = finding.Code;
        SubjectId = finding.SubjectId;
        FindingText = finding.Text;
        Reason = reason;
        By = by;
        At = at;
    }

    private SignOff()
    {
    }

    public Guid Id { get; private set; }

    public Guid JobId { get; private set; }

    public string Code { get; private set; } = "";

    public string SubjectId { get; private set; } = "";

    public string FindingText { get; private set; } = "";

    public string Reason { get; private set; } = "";

    public string By { get; private set; } = "";

    public DateTimeOffset At { get; private set; }

    public DateTimeOffset? WithdrawnAt { get; private set; }

    public bool Covers(Finding finding) =>
        WithdrawnAt is null && Code == finding.Code && SubjectId == finding.SubjectId && FindingText == finding.Text;

    public void Withdraw(DateTimeOffset at) => WithdrawnAt ??= at;

    string IAudited.AuditName => $"Sign-off of '{FindingText}'";

    Guid? IAudited.AuditJobId => JobId;
}
