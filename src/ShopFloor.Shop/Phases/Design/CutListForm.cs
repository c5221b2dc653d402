using System.ComponentModel.DataAnnotations;
using System.Globalization;
using ShopFloor.Engineering.Fabrication.Nesting;
using ShopFloor.Engineering.Geometry;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Outline of a part that is cut.</summary>
public enum CutShape
{
    Rectangle,
    Disc,
    Ring,
    Polygon,
}

/// <summary>A line of a cut list.</summary>
public sealed record CutRow
{
    /// <summary>Kept while the list is edited, so that lines can be moved.</summary>
    public string Id { get; set; } = NewId();

    public string Name { get; set; } = "";

    /// <summary>Its part of the catalogue, or the line of the parts list; thickness and density are read there.</summary>
    public Guid? MaterialId { get; set; }

    public int Quantity { get; set; } = 1;

    public CutShape Shape { get; set; }

    /// <summary>Diameter of discs and rings.</summary>
    public double? LengthMeters { get; set; }

    public double? WidthMeters { get; set; }

    /// <summary>Inner diameter of a ring.</summary>
    public double? InnerMeters { get; set; }

    /// <summary>Corners of a polygon in millimetres, "0,0; 300,0; 300,150".</summary>
    public string Corners { get; set; } = "";

    public PartGrain Grain { get; set; }

    public bool MayTurn { get; set; } = true;

    public static string NewId() => Guid.CreateVersion7().ToString("N");

    /// <summary>Corners as typed, m.</summary>
    /// <returns>Null when the text cannot be read.</returns>
    public IReadOnlyList<Point2>? ReadCorners()
    {
        var points = new List<Point2>();
        foreach (var pair in Corners.Split([';', '\n'], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            var numbers = pair.Split([',', ' '], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
            if (numbers.Length != 2
                || !double.TryParse(numbers[0], NumberStyles.Float, CultureInfo.InvariantCulture, out var x)
                || !double.TryParse(numbers[1], NumberStyles.Float, CultureInfo.InvariantCulture, out var y))
            {
                return null;
            }

            points.Add(new Point2(x / 1000, y / 1000));
        }

        return points.Count >= 3 ? points : null;
    }

    public override string ToString() => string.Create(CultureInfo.CurrentCulture, $"{Quantity} × {Name} {LengthMeters * 1000:0.#} × {(Shape == CutShape.Rectangle ? WidthMeters : LengthMeters) * 1000:0.#} mm {Corners}");
}

/// <summary>Sheets of a size, or an offcut on the rack.</summary>
public sealed record SheetRow
{
    public string Id { get; set; } = CutRow.NewId();

    public Guid? MaterialId { get; set; }

    /// <summary>2.5 m by 1.25 m is a usual sheet. Common practice, no source.</summary>
    public double? LengthMeters { get; set; } = 2.5;

    public double? WidthMeters { get; set; } = 1.25;

    public SheetGrain Grain { get; set; }

    /// <summary>Null for as many as it takes.</summary>
    public int? Quantity { get; set; }

    public bool IsOffcut { get; set; }

    /// <summary>Which of the shop's offcuts it is; null for one that is known in this list alone.</summary>
    public Guid? OffcutId { get; set; }

    public override string ToString() => string.Create(CultureInfo.CurrentCulture, $"{(IsOffcut ? "offcut" : "sheet")} {LengthMeters * 1000:0.#} × {WidthMeters * 1000:0.#} mm, {(Quantity is { } count ? count : "any number")}");
}

/// <summary>Parts to cut, what they are cut from, and the saw.</summary>
public sealed record CutListForm : IDesignForm
{
    public static DesignKind Kind => DesignKind.CutList;

    public static Permission Needed => Permission.DesignJobs;

    [Display(Name = "Parts")]
    public List<CutRow> Parts { get; set; } = [];

    [Display(Name = "Sheets and offcuts")]
    public List<SheetRow> Stock { get; set; } = [];

    /// <summary>3.2 mm is a common saw blade. Common practice, no source.</summary>
    [Display(Name = "Width of the cut (m)")]
    public double KerfMeters { get; set; } = 0.0032;

    [Display(Name = "Trimmed off each edge of a sheet (m)")]
    public double TrimMeters { get; set; }

    [Display(Name = "Where the parts sit")]
    public string Zone { get; set; } = "";

    /// <summary>Beyond the planned stages; they stand on the estimate as work.</summary>
    [Display(Name = "Hours (h)")]
    public double? Hours { get; set; }

    [Display(Name = "For whoever opens it")]
    public MadeNotes Made { get; set; } = new();

    [Display(Name = "Remarks")]
    public string Remarks { get; set; } = "";

    /// <summary>A copy whose rows are its own.</summary>
    public CutListForm Copy() => this with { Made = Made with { }, Parts = [.. Parts.Select(row => row with { })], Stock = [.. Stock.Select(row => row with { })] };

    // What is half entered may be saved; it is asked for where the sheets are drawn.
    public List<Problem> Problems()
    {
        var check = new Check()
            .That(Parts.Count <= NestingInput.MostStock, nameof(Parts), $"There are {Parts.Count} lines of parts; at most {NestingInput.MostStock} are kept.")
            .That(Stock.Count <= NestingInput.MostStock, nameof(Stock), $"There are {Stock.Count} lines of sheets; at most {NestingInput.MostStock} are kept.")
            .Range(KerfMeters * 1000, nameof(KerfMeters), "The width of the cut", 0, 20, "mm")
            .Range(TrimMeters * 1000, nameof(TrimMeters), "What is trimmed off each edge", 0, 100, "mm")
            .Range(Hours, nameof(Hours), "The time to make it", 0, 500, "h")
            .That(Zone.Length == 0 || VehicleZones.Exists(Zone), nameof(Zone), $"'{Zone}' is no place in the vehicle.")
            .Longest(Remarks, nameof(Remarks), "The remarks", Limits.Note);
        Made.AddProblems(check, nameof(Made));
        foreach (var row in Parts)
        {
            check.Required(row.Name, nameof(Parts), "The name of each part")
                .Range(row.Quantity, nameof(Parts), $"{row.Name}, quantity", 1, NestingInput.MostParts, "")
                .Range(row.LengthMeters * 1000, nameof(Parts), $"{row.Name}, length", 1, 10_000, "mm")
                .Range(row.WidthMeters * 1000, nameof(Parts), $"{row.Name}, width", 1, 10_000, "mm")
                .Range(row.InnerMeters * 1000, nameof(Parts), $"{row.Name}, inner diameter", 0, 10_000, "mm")
                .Longest(row.Corners, nameof(Parts), $"{row.Name}, corners", Limits.Note);
        }

        foreach (var row in Stock)
        {
            check.Range(row.LengthMeters, nameof(Stock), "The length of a sheet", 0.01, 10, "m")
                .Range(row.WidthMeters, nameof(Stock), "The width of a sheet", 0.01, 10, "m")
                .Range(row.Quantity, nameof(Stock), "The number of sheets", 1, 500, "");
        }

        return check.Problems;
    }
}
