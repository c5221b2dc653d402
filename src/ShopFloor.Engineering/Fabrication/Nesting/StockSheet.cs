using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication.Nesting;

/// <summary>How the grain lies on a sheet.</summary>
public enum SheetGrain
{
    /// <summary>It has none.</summary>
    None,

    /// <summary>Along its length.</summary>
    Along,

    /// <summary>Across its length.</summary>
    Across,
}

/// <summary>Sheets of a kind, or an offcut in stock.</summary>
public sealed record StockSheet
{
    /// <summary>Identifier.</summary>
    public required string Id { get; init; }

    /// <summary>Name.</summary>
    public required string Name { get; init; }

    /// <summary>Length, m (0.01 to 10).</summary>
    public required double LengthMeters { get; init; }

    /// <summary>Width, m (0.01 to 10).</summary>
    public required double WidthMeters { get; init; }

    /// <summary>Grain.</summary>
    public SheetGrain Grain { get; init; }

    /// <summary>How many there are, 1 to 500; null for as many as it takes.</summary>
    public int? Quantity { get; init; }

    /// <summary>Whether it is an offcut: used before any whole sheet, and free.</summary>
    public bool IsOffcut { get; init; }

    /// <summary>What one whole sheet counts for when kinds are compared, 0.001 to 1,000,000, for example its price; null takes its area in m².</summary>
    public double? Weight { get; init; }

    /// <summary>Material.</summary>
    public required string MaterialId { get; init; }

    /// <summary>Thickness, m (0.0001 to 0.2).</summary>
    public required double ThicknessMeters { get; init; }

    internal double Counts => IsOffcut ? 0 : Weight ?? LengthMeters * WidthMeters;

    internal void Check(InputChecks checks, string at)
    {
        checks.Named(at + nameof(Id), "Sheet, identifier", Id);
        checks.Named(at + nameof(Name), "Sheet, name", Name);
        checks.InRange(at + nameof(LengthMeters), $"{Name}, length", LengthMeters, 0.01, 10, QuantityKind.Length);
        checks.InRange(at + nameof(WidthMeters), $"{Name}, width", WidthMeters, 0.01, 10, QuantityKind.Length);
        checks.Known(at + nameof(Grain), $"{Name}, grain", Grain);
        checks.InRange(at + nameof(Quantity), $"{Name}, quantity", Quantity, 1, 500);
        checks.InRange(at + nameof(Weight), $"{Name}, weight in the comparison", Weight, 0.001, 1_000_000);
        checks.Named(at + nameof(MaterialId), $"{Name}, material", MaterialId);
        checks.InRange(at + nameof(ThicknessMeters), $"{Name}, thickness", ThicknessMeters, 0.0001, 0.2, QuantityKind.SmallLength);
    }

    // Grain asked for: one way only. Else as it lies, and turned where that is allowed.
    internal (bool AsIs, bool Turned) WaysOf(CutPart part) => Grain == SheetGrain.None || part.Grain == PartGrain.Any
        ? (true, part.MayTurn)
        : (Grain == SheetGrain.Along) == (part.Grain == PartGrain.Along) ? (true, false) : (false, true);
}
