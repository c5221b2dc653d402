using System.Text.Json.Serialization;

namespace ShopFloor.Engineering.Signal.Loads;

/// <summary>How voice coils are joined to one load.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(Coil), "coil")]
[JsonDerivedType(typeof(CoilGroup), "group")]
public abstract record CoilWiring
{
    /// <summary>Every coil, in order.</summary>
    [JsonIgnore]
    public abstract IEnumerable<Coil> Coils { get; }

    /// <summary>Impedance, Ω, of the whole with each coil taken as a resistance.</summary>
    /// <param name="ohms">Impedance of a coil, Ω, above 0.</param>
    public abstract double Ohms(Func<Coil, double> ohms);

    /// <summary>Share of the power of the whole each coil takes, 0 to 1; they add up to 1.</summary>
    /// <param name="ohms">Impedance of a coil, Ω, above 0.</param>
    public abstract IEnumerable<(Coil Coil, double Share)> Shares(Func<Coil, double> ohms);

    /// <summary>All of it joined with others of its kind.</summary>
    /// <param name="parts">At least one.</param>
    public static CoilWiring Parallel(params IReadOnlyList<CoilWiring> parts) => new CoilGroup(CoilJoin.Parallel, parts);

    /// <summary>One after the other.</summary>
    /// <param name="parts">At least one.</param>
    public static CoilWiring Series(params IReadOnlyList<CoilWiring> parts) => new CoilGroup(CoilJoin.Series, parts);
}

/// <summary>One voice coil.</summary>
/// <param name="DriverId">The driver.</param>
/// <param name="Number">Which of its coils, from 1.</param>
/// <param name="Inverted">Whether plus and minus are changed over.</param>
public sealed record Coil(string DriverId, int Number = 1, bool Inverted = false) : CoilWiring
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override IEnumerable<Coil> Coils => [this];

    /// <inheritdoc/>
    public override double Ohms(Func<Coil, double> ohms)
    {
        ArgumentNullException.ThrowIfNull(ohms);
        return ohms(this);
    }

    /// <inheritdoc/>
    public override IEnumerable<(Coil Coil, double Share)> Shares(Func<Coil, double> ohms) => [(this, 1)];
}

/// <summary>How the parts of a group are joined.</summary>
public enum CoilJoin
{
    /// <summary>All on the same two terminals.</summary>
    Parallel,

    /// <summary>One after the other.</summary>
    Series,
}

/// <summary>Coils or groups joined in one way.</summary>
/// <param name="Join">How.</param>
/// <param name="Parts">At least one.</param>
public sealed record CoilGroup(CoilJoin Join, IReadOnlyList<CoilWiring> Parts) : CoilWiring
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override IEnumerable<Coil> Coils => Parts.SelectMany(part => part.Coils);

    /// <inheritdoc/>
    public override double Ohms(Func<Coil, double> ohms) => Join == CoilJoin.Series
        ? Parts.Sum(part => part.Ohms(ohms))
        : 1 / Parts.Sum(part => 1 / part.Ohms(ohms));

    /// <inheritdoc/>
    public override IEnumerable<(Coil Coil, double Share)> Shares(Func<Coil, double> ohms)
    {
        // In series the power goes with the impedance, in parallel with its inverse.
        var weights = Parts.Select(part => Join == CoilJoin.Series ? part.Ohms(ohms) : 1 / part.Ohms(ohms)).ToList();
        var all = weights.Sum();
        return Parts.SelectMany((part, at) => part.Shares(ohms).Select(inner => (inner.Coil, inner.Share * weights[at] / all)));
    }
}
