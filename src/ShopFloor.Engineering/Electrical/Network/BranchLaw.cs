namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>The kinds of law between the voltage over a branch and its current.</summary>
internal enum BranchKind
{
    Open,
    Resistor,
    Source,
    Regulated,
    Power,
    Current,
    Drawing,
}

/// <summary>The law between the voltage over a branch (from minus to) and the current through it (from → to).</summary>
/// <param name="Kind">Which law.</param>
/// <param name="A">Ω, V, W or A, by kind.</param>
/// <param name="B">Ω/A² of a warming conductor, internal Ω of a source, slope Ω of an alternator.</param>
/// <param name="C">Ω of a source while charging, limit A of an alternator.</param>
internal readonly record struct BranchLaw(BranchKind Kind, double A = 0, double B = 0, double C = 0)
{
    // Less than this is no voltage to speak of: what is not fed draws nothing.
    public const double UnfedVolts = 1e-3;

    // Keeps a node between two resistive loads tied down while the loads are scaled to nothing.
    private const double LeastFactor = 1e-9;

    public static BranchLaw Open => new(BranchKind.Open);

    public static BranchLaw Resistor(double ohms, double ohmsPerSquareAmpere = 0) => new(BranchKind.Resistor, ohms, ohmsPerSquareAmpere);

    public static BranchLaw Source(double volts, double ohms, double chargingOhms) => new(BranchKind.Source, volts, ohms, chargingOhms);

    public static BranchLaw Regulated(double volts, double slopeOhms, double limitAmperes) =>
        limitAmperes > 0 ? new(BranchKind.Regulated, volts, slopeOhms, limitAmperes) : Open;

    public static BranchLaw Power(double watts) => watts > 0 ? new(BranchKind.Power, watts) : Open;

    public static BranchLaw Current(double amperes) => amperes > 0 ? new(BranchKind.Current, amperes) : Open;

    public static BranchLaw Drawing(double ohms) => new(BranchKind.Drawing, ohms);

    /// <summary>Whether it ties its two nodes together whatever else happens.</summary>
    public bool Conducts => Kind is BranchKind.Resistor or BranchKind.Source or BranchKind.Regulated or BranchKind.Drawing;

    /// <summary>Whether it draws its own power or current, which only works when it is fed.</summary>
    public bool NeedsFeed => Kind is BranchKind.Power or BranchKind.Current;

    /// <summary>Current and its growth with voltage at a voltage over the branch.</summary>
    /// <param name="volts">From minus to, V.</param>
    /// <param name="factor">Common factor of the loads.</param>
    public (double Amperes, double Siemens) At(double volts, double factor)
    {
        switch (Kind)
        {
            case BranchKind.Resistor when B == 0:
                return (volts / A, 1 / A);
            case BranchKind.Resistor:
                {
                    // U = A·I + B·I³ has one real root; in this form it loses no digits (hyperbolic solution of the cubic).
                    var amperes = 2 * Math.Sqrt(A / (3 * B)) * Math.Sinh(Math.Asinh(1.5 * volts / A * Math.Sqrt(3 * B / A)) / 3);
                    return (amperes, 1 / (A + 3 * B * amperes * amperes));
                }

            case BranchKind.Source:
                {
                    // From is the negative terminal, so the terminal voltage is −volts.
                    var ohms = A + volts >= 0 ? B : C;
                    return ((A + volts) / ohms, 1 / ohms);
                }

            case BranchKind.Regulated:
                {
                    var amperes = (A + volts) / B;
                    return amperes > C ? (C, 0) : amperes < -1e-9 ? (0, 0) : (amperes, 1 / B);
                }

            case BranchKind.Power:
                return (factor * A / volts, -factor * A / (volts * volts));
            case BranchKind.Current:
                return (factor * A, 0);
            case BranchKind.Drawing:
                {
                    var siemens = Math.Max(factor, LeastFactor) / A;
                    return (volts * siemens, siemens);
                }

            default:
                return (0, 0);
        }
    }

    /// <summary>Growth of the current with the common load factor, A.</summary>
    public double PerFactor(double volts) => Kind switch
    {
        BranchKind.Power => A / volts,
        BranchKind.Current => A,
        BranchKind.Drawing => volts / A,
        _ => 0,
    };
}
