namespace ShopFloor.Engineering.Explained;

/// <summary>Collects findings, most of them about one subject.</summary>
internal sealed class FindingList(string subjectId, string subject)
{
    private readonly List<Finding> _findings = [];

    /// <summary>Gravest first.</summary>
    public IReadOnlyList<Finding> Sorted => [.. _findings.OrderByDescending(f => f.Severity)];

    public void Add(string code, Severity severity, string what, string remedy, string source) =>
        _findings.Add(new Finding(code, severity, subjectId, subject, what, remedy, source));

    public void About(string id, string name, string code, Severity severity, string what, string remedy, string source) =>
        _findings.Add(new Finding(code, severity, id, name, what, remedy, source));
}
