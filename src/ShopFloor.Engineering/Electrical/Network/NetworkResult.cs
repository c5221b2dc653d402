using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>Voltage of a node.</summary>
/// <param name="NodeId">The node.</param>
/// <param name="Name">Its name.</param>
/// <param name="Volts">Voltage against the reference node, V; null when no conducting path ties it to the reference in this state.</param>
public sealed record NodeState(string NodeId, string Name, double? Volts);

/// <summary>What an element does.</summary>
/// <param name="ElementId">The element.</param>
/// <param name="Name">Its name.</param>
/// <param name="Amperes">Current from its From node to its To node, A; positive is delivering for a source, drawing for a load.</param>
/// <param name="TerminalVolts">Voltage at its terminals, V: To over From for a source, From over To for everything else; null when it is not tied to anything.</param>
/// <param name="DissipatedWatts">Power it turns into heat or, for a load, takes, W; for a battery that lost in its internal resistance.</param>
/// <param name="ConductorCelsius">Temperature of a conductor, °C; null for everything else.</param>
/// <param name="HoursToEmpty">Hours a full battery lasts at this current (Peukert), or null.</param>
public sealed record ElementState(
    string ElementId, string Name, double Amperes, double? TerminalVolts, double DissipatedWatts, double? ConductorCelsius, double? HoursToEmpty);

/// <summary>Where the power comes from and where it goes.</summary>
/// <param name="SourceWatts">From batteries being discharged (their inner voltage times current) and alternators, W.</param>
/// <param name="ChargingWatts">Into batteries being charged, W.</param>
/// <param name="LoadWatts">Into loads, W.</param>
/// <param name="LossWatts">Into conductors, contacts, fuses and the inside of batteries, W.</param>
public sealed record EnergyBalance(double SourceWatts, double ChargingWatts, double LoadWatts, double LossWatts)
{
    /// <summary>What is left over, W; 0 but for rounding.</summary>
    public double MismatchWatts => SourceWatts - ChargingWatts - LoadWatts - LossWatts;
}

/// <summary>Why there is no operating point.</summary>
/// <param name="LargestLoadFactor">Largest common factor of all loads that still has an operating point, below 1.</param>
/// <param name="LoadId">The load whose voltage falls fastest there.</param>
/// <param name="LoadName">Its name.</param>
/// <param name="LoadVolts">Its voltage there, V.</param>
/// <param name="VoltsPerUnitFactor">How fast it falls there, V per unit of the factor.</param>
public sealed record VoltageCollapse(double LargestLoadFactor, string LoadId, string LoadName, double LoadVolts, double VoltsPerUnitFactor);

/// <summary>The steady state of a supply network in one scenario.</summary>
public sealed record NetworkResult
{
    /// <summary>The scenario.</summary>
    public required Scenario Scenario { get; init; }

    /// <summary>Whether there is an operating point. Without one, nodes and elements are empty and <see cref="Collapse"/> says why.</summary>
    public required bool IsSolved { get; init; }

    /// <summary>Why there is none, or null.</summary>
    public VoltageCollapse? Collapse { get; init; }

    /// <summary>Nodes in the order entered.</summary>
    public required IReadOnlyList<NodeState> Nodes { get; init; }

    /// <summary>Elements in the order entered.</summary>
    public required IReadOnlyList<ElementState> Elements { get; init; }

    /// <summary>The power sum, or null without an operating point.</summary>
    public EnergyBalance? Balance { get; init; }

    /// <summary>Newton steps taken.</summary>
    public required int Iterations { get; init; }

    /// <summary>Largest current left over at a node, A.</summary>
    public required double ResidualAmperes { get; init; }

    /// <summary>What is wrong, worst first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}
