namespace ShopFloor.Web.Components;

/// <summary>
/// Knows which fields of a form hold text that cannot be read, so that saving can wait for them instead of
/// keeping the last readable value in silence. Cascaded by forms; fields report to it.
/// </summary>
public sealed class FieldGate
{
    private readonly Dictionary<object, string> _problems = [];

    /// <summary>Messages of the fields that cannot be read now.</summary>
    public IEnumerable<string> Messages => _problems.Values;

    /// <summary>Whether every field can be read.</summary>
    public bool Open => _problems.Count == 0;

    /// <summary>Tells the state of a field.</summary>
    /// <param name="field">The field itself.</param>
    /// <param name="problem">Why it cannot be read, or null when it can.</param>
    public void Tell(object field, string? problem)
    {
        if (problem is null)
            _problems.Remove(field);
        else
            _problems[field] = problem;
    }
}
