using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Explained;

/// <summary>Collects the problems of an input record.</summary>
internal sealed class InputChecks(UnitText text)
{
    private readonly List<InputProblem> _problems = [];

    public IReadOnlyList<InputProblem> Problems => _problems;

    public void InRange(string field, string label, double? value, double minimum, double maximum, QuantityKind? kind = null)
    {
        if (value is not { } number)
            return;
        if (double.IsFinite(number) && number >= minimum && number <= maximum)
            return;
        var shown = !double.IsFinite(number) ? "the value is not a number" : (kind is { } known ? text.Of(number, known, 6) : text.Number(number, 6)) + " is not accepted";
        Add(field, $"{label}: {shown}; enter {text.Range(minimum, maximum, kind)}.");
    }

    public void Named(string field, string label, string? value)
    {
        if (string.IsNullOrWhiteSpace(value))
            Add(field, $"{label}: nothing was entered; enter a text.");
    }

    public void Known<T>(string field, string label, T value)
        where T : struct, Enum
    {
        if (!Enum.IsDefined(value))
            Add(field, $"{label}: \u201c{value}\u201d is not known; use one of {string.Join(", ", Enum.GetNames<T>())}.");
    }

    public void Distinct(string field, string label, IEnumerable<string> ids)
    {
        foreach (var id in ids.GroupBy(x => x).Where(g => g.Count() > 1).Select(g => g.Key))
            Add(field, $"{label}: the identifier \u201c{id}\u201d is used more than once; each must be its own.");
    }

    public void Add(string field, string message) => _problems.Add(new InputProblem(field, message));

    public void AddRange(IEnumerable<InputProblem> problems) => _problems.AddRange(problems);

    /// <summary>Throws for the first problem; the exception names the field.</summary>
    public static void ThrowIfAny(IReadOnlyList<InputProblem> problems)
    {
        if (problems.Count > 0)
            throw new ArgumentOutOfRangeException(problems[0].Field, problems[0].Message);
    }
}
