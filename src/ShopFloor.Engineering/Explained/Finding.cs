namespace ShopFloor.Engineering.Explained;

/// <summary>Something a check found, in words a technician can act on.</summary>
/// <param name="Code">Stable kebab-case name of the rule, for example <c>fuse-above-ampacity</c>.</param>
/// <param name="Severity">How much it matters.</param>
/// <param name="SubjectId">Identifier of what it is about (a run, a part, a step); unique within a job together with <paramref name="Code"/>.</param>
/// <param name="Subject">Name of the subject as shown to people.</param>
/// <param name="Text">What is wrong, with values and units.</param>
/// <param name="Remedy">What would put it right.</param>
/// <param name="Source">Standard, regulation or handbook; or "common practice, no source"; or "from memory".</param>
public sealed record Finding(
    string Code,
    Severity Severity,
    string SubjectId,
    string Subject,
    string Text,
    string Remedy,
    string Source);
