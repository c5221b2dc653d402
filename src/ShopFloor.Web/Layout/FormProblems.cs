using ShopFloor.Shop.Common;
using ShopFloor.Web.Components;

namespace ShopFloor.Web.Layout;

/// <summary>The problems of one form, looked up by field. Fields without a place of their own are shown at the top.</summary>
public sealed class FormProblems
{
    private IReadOnlyList<Problem> _problems = [];

    public bool Any => _problems.Count > 0;

    /// <summary>Every message, for the summary above a form.</summary>
    public IEnumerable<string> Messages => _problems.Select(problem => problem.Message);

    public string? this[string field] => _problems.FirstOrDefault(problem => problem.Field == field)?.Message;

    /// <summary>Messages that belong to no single field.</summary>
    public IEnumerable<string> General => _problems.Where(problem => problem.Field.Length == 0).Select(problem => problem.Message);

    public void Show(IReadOnlyList<Problem> problems) => _problems = problems;

    /// <summary>Shows what the fields cannot read, if anything; saving waits for it then.</summary>
    public bool AnyUnreadable(FieldGate gate)
    {
        if (gate.Open)
        {
            return false;
        }

        Show([.. gate.Messages.Select(message => new Problem("", message))]);
        return true;
    }

    /// <summary>Drops what was said of one field, because its value was changed and checked anew.</summary>
    public void Forget(string field) => _problems = [.. _problems.Where(problem => problem.Field != field)];

    public void Clear() => _problems = [];
}
