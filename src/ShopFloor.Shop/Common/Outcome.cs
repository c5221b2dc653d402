using System.Diagnostics.CodeAnalysis;

namespace ShopFloor.Shop.Common;

/// <summary>The answer to a command: the value, or the reasons it was refused, or somebody else's edit it met.</summary>
public sealed class Outcome<T>
{
    private Outcome(T? value, IReadOnlyList<Problem> problems, EditConflict? conflict)
    {
        Value = value;
        Problems = problems;
        Conflict = conflict;
    }

    public T? Value { get; }

    public IReadOnlyList<Problem> Problems { get; }

    public EditConflict? Conflict { get; }

    [MemberNotNullWhen(true, nameof(Value))]
    public bool Succeeded => Problems.Count == 0 && Conflict is null;

    /// <summary>All messages in one sentence, for places without fields.</summary>
    public string Message => Conflict is null
        ? string.Join(" ", Problems.Select(problem => problem.Message))
        : $"{Conflict.Subject} was changed by {Conflict.ChangedBy} meanwhile.";

    public Outcome<TOther> As<TOther>() => new(default, Problems, Conflict);

    public static implicit operator Outcome<T>(T value) => new(value, [], null);

    public static implicit operator Outcome<T>(Problem problem) => new(default, [problem], null);

    public static implicit operator Outcome<T>(List<Problem> problems) => new(default, problems, null);

    public static implicit operator Outcome<T>(EditConflict conflict) => new(default, [], conflict);
}

/// <summary>Marks a command that answers nothing but "done".</summary>
public readonly record struct Done
{
    public static readonly Done Value;
}
