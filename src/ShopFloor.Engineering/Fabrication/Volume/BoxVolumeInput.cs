using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication.Volume;

/// <summary>A body that adds to the volume of an enclosure or takes from it.</summary>
public sealed record VolumeRow
{
    /// <summary>What it is, for example "Port" or "Brace".</summary>
    public required string Name { get; init; }

    /// <summary>Its shape.</summary>
    public required Solid Shape { get; init; }

    /// <summary>How many, 1 to 100.</summary>
    public int Count { get; init; } = 1;

    /// <summary>Whether it takes volume away.</summary>
    public bool Subtracted { get; init; }

    /// <summary>Whether it came in, or out, only after the box was filled, so that the filled volume knows nothing of it: a driver, a port.</summary>
    public bool AfterFill { get; init; }

    /// <summary>Why, for example "displacement by the driver's data sheet"; may be empty.</summary>
    public string Reason { get; init; } = "";
}

/// <summary>An enclosure measured: walls, or bodies, or both. One of the two at least.</summary>
public sealed record BoxVolumeInput
{
    /// <summary>A box of boards by its outside; its inside is the first body. Null where there is none.</summary>
    public BoxShell? Shell { get; init; }

    /// <summary>Bodies added and taken away, at most 200.</summary>
    public IReadOnlyList<VolumeRow> Rows { get; init; } = [];

    /// <summary>Volume wanted, m³ (1e-6 to 10); null where none is set.</summary>
    public double? WantedCubicMeters { get; init; }

    /// <summary>The same enclosure filled with water or beads; null where it was not.</summary>
    public FillMeasurement? Fill { get; init; }

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        if (Shell is null && !Rows.Any(row => !row.Subtracted) && Fill is null)
            checks.Add(nameof(Rows), "Bodies: nothing adds to the volume; enter a box, a body that is not subtracted, or a fill measurement.");
        if (Rows.Count > 200)
            checks.Add(nameof(Rows), $"Bodies: {Rows.Count} are not accepted; enter at most 200.");
        Shell?.Check(checks, nameof(Shell) + ".");
        Fill?.Check(checks, nameof(Fill) + ".");
        checks.InRange(nameof(WantedCubicMeters), "Volume wanted in m³", WantedCubicMeters, 1e-6, 10);
        for (var i = 0; i < Rows.Count; i++)
        {
            var at = $"{nameof(Rows)}[{i}].";
            checks.Named(at + nameof(VolumeRow.Name), $"Body {i + 1}, name", Rows[i].Name);
            checks.InRange(at + nameof(VolumeRow.Count), $"{Rows[i].Name}, count", Rows[i].Count, 1, 100);
            Rows[i].Shape.Check(checks, $"{at}{nameof(VolumeRow.Shape)}.", Rows[i].Name);
        }

        return checks.Problems;
    }
}
