namespace ShopFloor.Engineering.Explained;

/// <summary>How an answer was reached, so that a screen or a document can show the why.</summary>
/// <param name="Question">What was asked, for example "Main run: which conductor?".</param>
/// <param name="Answer">The answer in one line, with units.</param>
/// <param name="Inputs">Every value that went in and where it came from.</param>
/// <param name="Steps">The formulas in the order they were used.</param>
/// <param name="Limits">Every limit that was checked.</param>
/// <param name="DecidedBy">The limit that decided the answer, or null when none bound it.</param>
public sealed record Explanation(
    string Question,
    string Answer,
    IReadOnlyList<ExplainedInput> Inputs,
    IReadOnlyList<ExplainedStep> Steps,
    IReadOnlyList<LimitCheck> Limits,
    string? DecidedBy);

/// <summary>A value that went into a calculation.</summary>
/// <param name="Name">Plain name.</param>
/// <param name="Value">The number, in the unit named.</param>
/// <param name="Unit">Unit symbol, or an empty string for a pure number.</param>
/// <param name="Origin">Where it came from: "entered", "part data", "vehicle", or "default" with its source.</param>
public sealed record ExplainedInput(string Name, double Value, string Unit, string Origin);

/// <summary>One formula, filled in.</summary>
/// <param name="Title">What is being found.</param>
/// <param name="Formula">The formula in symbols.</param>
/// <param name="Substituted">The formula with its numbers.</param>
/// <param name="Result">The result with its unit.</param>
/// <param name="Source">Where the formula or table row comes from.</param>
public sealed record ExplainedStep(string Title, string Formula, string Substituted, string Result, string Source);

/// <summary>A limit and how the answer stands against it.</summary>
/// <param name="Name">Plain name of the limit.</param>
/// <param name="Actual">The value reached, in <paramref name="Unit"/>.</param>
/// <param name="Limit">The value allowed, in <paramref name="Unit"/>.</param>
/// <param name="Unit">Unit symbol.</param>
/// <param name="Passed">Whether the limit is kept.</param>
/// <param name="Source">Where the limit comes from.</param>
public sealed record LimitCheck(string Name, double Actual, double Limit, string Unit, bool Passed, string Source);
