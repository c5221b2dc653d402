using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Electrical;

/// <summary>One conductor size of an ampacity table.</summary>
/// <param name="Conductor">The conductor.</param>
/// <param name="Amperes">Allowed current per insulation class, A, in the order of the table's columns.</param>
public sealed record AmpacityRow(ConductorSize Conductor, IReadOnlyList<double> Amperes);

/// <summary>Factor for a number of current-carrying conductors bundled together.</summary>
/// <param name="FromConductors">Smallest number of conductors it is for.</param>
/// <param name="Factor">Share of the table value, 0 to 1.</param>
public sealed record BundlingFactor(int FromConductors, double Factor);

/// <summary>A published table of allowed currents, as data: a shop can add its own beside the shipped one.</summary>
public sealed record AmpacityTable
{
    /// <summary>Name shown with every result.</summary>
    public required string Name { get; init; }

    /// <summary>Standard, regulation or handbook.</summary>
    public required string Source { get; init; }

    /// <summary>What the table was written for and how far it may be trusted here.</summary>
    public required string Statement { get; init; }

    /// <summary>Ambient the currents hold for, °C.</summary>
    public required double AmbientCelsius { get; init; }

    /// <summary>Insulation classes of the columns, °C, rising.</summary>
    public required IReadOnlyList<double> InsulationCelsius { get; init; }

    /// <summary>Conductor sizes, thinnest first.</summary>
    public required IReadOnlyList<AmpacityRow> Rows { get; init; }

    /// <summary>Factor inside an engine space per insulation class, in the order of the columns; empty when the table has none.</summary>
    public IReadOnlyList<double> EngineSpaceFactors { get; init; } = [];

    /// <summary>Ambient the engine-space factors stand for, °C.</summary>
    public double EngineSpaceAmbientCelsius { get; init; } = 50;

    /// <summary>Bundling factors, rising number of conductors.</summary>
    public IReadOnlyList<BundlingFactor> BundlingFactors { get; init; } = [];

    /// <summary>What the bundling factors bind.</summary>
    public string BundlingStatement { get; init; } = "";

    /// <summary>Largest fuse the source allows below 50 V, as a multiple of the table value before derating.</summary>
    public double FuseCeilingRatio { get; init; } = 1;

    /// <summary>Source of <see cref="FuseCeilingRatio"/>.</summary>
    public string FuseCeilingSource { get; init; } = "";

    /// <summary>Thinnest conductor outside a sheath, mm².</summary>
    public double MinimumAreaSquareMillimeters { get; init; }

    /// <summary>Thinnest conductor inside a sheath, mm².</summary>
    public double MinimumSheathedAreaSquareMillimeters { get; init; }

    /// <summary>Source of the thinnest conductors.</summary>
    public string MinimumAreaSource { get; init; } = "";

    /// <summary>The row of a conductor label such as "4 AWG", or null.</summary>
    /// <param name="label">Label of the conductor.</param>
    public AmpacityRow? Row(string label) => Rows.FirstOrDefault(r => r.Conductor.Label == label);

    /// <summary>Insulation class of the column used: the warmest that is not above <paramref name="insulationCelsius"/>.</summary>
    /// <param name="insulationCelsius">Insulation class of the cable, °C.</param>
    /// <exception cref="ArgumentOutOfRangeException">The class is below the coolest column.</exception>
    public double ColumnCelsius(double insulationCelsius) => InsulationCelsius[Column(insulationCelsius)];

    /// <summary>Allowed current before derating, A.</summary>
    /// <param name="label">Label of the conductor.</param>
    /// <param name="insulationCelsius">Insulation class of the cable, °C.</param>
    /// <exception cref="ArgumentOutOfRangeException">The table has no such size, or the class is below its coolest column.</exception>
    public double Amperes(string label, double insulationCelsius) =>
        (Row(label) ?? throw new ArgumentOutOfRangeException(nameof(label), label, "The table has no such size."))
        .Amperes[Column(insulationCelsius)];

    /// <summary>
    /// Factor for the surroundings, 0 to 1: √((Tr − Ta)/(Tr − Tbasis)), which reproduces the printed engine-space factors of
    /// 33 CFR 183.425 at 50 °C. In an engine space the printed factor is used up to the ambient it stands for, and the lower of both above.
    /// Surroundings cooler than the table's give no more than 1.
    /// </summary>
    /// <param name="insulationCelsius">Insulation class of the cable, °C.</param>
    /// <param name="ambientCelsius">Ambient, °C.</param>
    /// <param name="engineSpace">Whether any part of the run is in the engine space.</param>
    /// <exception cref="ArgumentOutOfRangeException">The class is below the coolest column.</exception>
    public double AmbientFactor(double insulationCelsius, double ambientCelsius, bool engineSpace)
    {
        var column = Column(insulationCelsius);
        var rated = InsulationCelsius[column];
        var law = Math.Min(1, Math.Sqrt(Math.Max(0, rated - ambientCelsius) / (rated - AmbientCelsius)));
        if (!engineSpace)
            return law;
        if (EngineSpaceFactors.Count == 0)
            return Math.Min(law, Math.Sqrt(Math.Max(0, rated - EngineSpaceAmbientCelsius) / (rated - AmbientCelsius)));
        var printed = EngineSpaceFactors[column];
        return ambientCelsius <= EngineSpaceAmbientCelsius ? printed : Math.Min(printed, law);
    }

    /// <summary>Factor for conductors bundled together, 0 to 1.</summary>
    /// <param name="currentCarryingConductors">How many, this one included.</param>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than one.</exception>
    public double BundlingFactor(int currentCarryingConductors)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(currentCarryingConductors, 1);
        return BundlingFactors.LastOrDefault(b => b.FromConductors <= currentCarryingConductors)?.Factor ?? 1;
    }

    /// <summary>What is wrong with a table someone entered; empty when it can be used.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(Units.UnitText? text = null) => AmpacityTableChecks.Find(this, text ?? Units.UnitText.Invariant);

    internal int Column(double insulationCelsius)
    {
        for (var i = InsulationCelsius.Count - 1; i >= 0; i--)
        {
            if (InsulationCelsius[i] <= insulationCelsius)
                return i;
        }

        throw new ArgumentOutOfRangeException(nameof(insulationCelsius), insulationCelsius, "The class is below the coolest column of the table.");
    }
}
