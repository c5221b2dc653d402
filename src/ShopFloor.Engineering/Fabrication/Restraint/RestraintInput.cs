using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication.Restraint;

/// <summary>Where a force of a crash or of braking points, as the item feels it.</summary>
public enum ForceDirection
{
    /// <summary>To the front: braking, frontal crash.</summary>
    Forward,

    /// <summary>To the rear.</summary>
    Rearward,

    /// <summary>To the left.</summary>
    Left,

    /// <summary>To the right.</summary>
    Right,

    /// <summary>Away from the surface it stands on.</summary>
    Up,
}

/// <summary>Decelerations to hold against, as multiples of g (9.80665 m/s²).</summary>
/// <remarks>
/// 20 along and 8 across are those of UN Regulation No. 67 for fixing gas containers in passenger cars and of No. 100 for traction batteries
/// (from memory); 5 up is common practice, no source. A shop sets its own.
/// </remarks>
/// <param name="ForwardG">To the front (0.5 to 60).</param>
/// <param name="RearwardG">To the rear (0.5 to 60).</param>
/// <param name="SidewaysG">To either side (0.5 to 60).</param>
/// <param name="UpG">Away from the surface (0.5 to 60).</param>
public sealed record Decelerations(double ForwardG = 20, double RearwardG = 20, double SidewaysG = 8, double UpG = 5)
{
    /// <summary>In a direction.</summary>
    /// <param name="direction">Where the force points.</param>
    public double Of(ForceDirection direction) => direction switch
    {
        ForceDirection.Forward => ForwardG,
        ForceDirection.Rearward => RearwardG,
        ForceDirection.Up => UpG,
        _ => SidewaysG,
    };
}

/// <summary>Place of a fastener, seen from above, from the middle of the base.</summary>
/// <param name="Id">Identifier, unique in the input.</param>
/// <param name="ForwardMeters">To the front, m (−3 to 3).</param>
/// <param name="LeftMeters">To the left, m (−3 to 3).</param>
public sealed record FastenerPlace(string Id, double ForwardMeters, double LeftMeters);

/// <summary>An enclosure, rack or false floor and what holds it.</summary>
public sealed record RestraintInput
{
    /// <summary>Name of the item.</summary>
    public required string Name { get; init; }

    /// <summary>Mass with all in it, kg (0.05 to 1000).</summary>
    public required double Kilograms { get; init; }

    /// <summary>Length of the base front to rear, m (0.02 to 4).</summary>
    public required double BaseLengthMeters { get; init; }

    /// <summary>Width of the base, m (0.02 to 3).</summary>
    public required double BaseWidthMeters { get; init; }

    /// <summary>Height of the centre of mass over the base, m (0 to 2).</summary>
    public required double CenterHeightMeters { get; init; }

    /// <summary>Centre of mass before the middle of the base, m (−2 to 2).</summary>
    public double CenterForwardMeters { get; init; }

    /// <summary>Centre of mass left of the middle of the base, m (−1.5 to 1.5).</summary>
    public double CenterLeftMeters { get; init; }

    /// <summary>Kind of the fasteners.</summary>
    public required Hold Hold { get; init; }

    /// <summary>Where they sit, 1 to 60.</summary>
    public required IReadOnlyList<FastenerPlace> Fasteners { get; init; }

    /// <summary>What to hold against.</summary>
    public Decelerations Decelerations { get; init; } = new();

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.Named(nameof(Name), "Name", Name);
        checks.InRange(nameof(Kilograms), "Mass", Kilograms, 0.05, 1_000, QuantityKind.Mass);
        checks.InRange(nameof(BaseLengthMeters), "Length of the base", BaseLengthMeters, 0.02, 4, QuantityKind.Length);
        checks.InRange(nameof(BaseWidthMeters), "Width of the base", BaseWidthMeters, 0.02, 3, QuantityKind.Length);
        checks.InRange(nameof(CenterHeightMeters), "Height of the centre of mass", CenterHeightMeters, 0, 2, QuantityKind.Length);
        checks.InRange(nameof(CenterForwardMeters), "Centre of mass before the middle", CenterForwardMeters, -2, 2, QuantityKind.Length);
        checks.InRange(nameof(CenterLeftMeters), "Centre of mass left of the middle", CenterLeftMeters, -1.5, 1.5, QuantityKind.Length);
        Hold.CheckInto(checks, nameof(Hold));
        if (Fasteners.Count is 0 or > 60)
            checks.Add(nameof(Fasteners), $"Fasteners: {Fasteners.Count} are not accepted; enter 1 to 60.");
        checks.Distinct(nameof(Fasteners), "Fasteners", Fasteners.Select(fastener => fastener.Id));
        for (var n = 0; n < Fasteners.Count; n++)
        {
            checks.InRange($"{nameof(Fasteners)}[{n}].ForwardMeters", $"Fastener {Fasteners[n].Id}, before the middle", Fasteners[n].ForwardMeters, -BaseLengthMeters / 2, BaseLengthMeters / 2, QuantityKind.Length);
            checks.InRange($"{nameof(Fasteners)}[{n}].LeftMeters", $"Fastener {Fasteners[n].Id}, left of the middle", Fasteners[n].LeftMeters, -BaseWidthMeters / 2, BaseWidthMeters / 2, QuantityKind.Length);
        }

        foreach (var (field, g) in new[] { ("ForwardG", Decelerations.ForwardG), ("RearwardG", Decelerations.RearwardG), ("SidewaysG", Decelerations.SidewaysG), ("UpG", Decelerations.UpG) })
            checks.InRange($"{nameof(Decelerations)}.{field}", "Deceleration in g", g, 0.5, 60);
        return checks.Problems;
    }
}
