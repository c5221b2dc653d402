using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication.Volume;

/// <summary>One row of the sum.</summary>
/// <param name="Name">What it is.</param>
/// <param name="CubicMeters">Its share of the net volume, m³; negative where it takes away.</param>
/// <param name="Reason">Why.</param>
public sealed record VolumeShare(string Name, double CubicMeters, string Reason);

/// <summary>The volume of an enclosure.</summary>
public sealed record BoxVolumeResult
{
    /// <summary>Everything added, m³.</summary>
    public required double GrossCubicMeters { get; init; }

    /// <summary>What is left, m³.</summary>
    public required double NetCubicMeters { get; init; }

    /// <summary>Row by row.</summary>
    public required IReadOnlyList<VolumeShare> Rows { get; init; }

    /// <summary>The box of boards; null without one.</summary>
    public required ShellResult? Shell { get; init; }

    /// <summary>The volume by filling; null without a measurement.</summary>
    public required FillResult? Fill { get; init; }

    /// <summary>What was found, gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}

/// <summary>Net volume of an enclosure: bodies added and taken away, compared with a fill measurement.</summary>
public static class BoxVolume
{
    private const string Source = "elementary solid geometry";

    /// <summary>Share of the volume wanted that may be missed without a word. Common practice, no source.</summary>
    public const double Tolerance = 0.03;

    /// <summary>Computes the volume.</summary>
    /// <param name="input">Box, bodies and measurement.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="BoxVolumeInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static BoxVolumeResult Compute(BoxVolumeInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));
        var rows = new List<VolumeShare>();
        var steps = new List<ExplainedStep>();
        if (input.Shell is { } shell)
        {
            var inside = shell.Inside;
            rows.Add(new VolumeShare("Inside of the box", inside.CubicMeters, "outside less the boards"));
            steps.Add(new ExplainedStep("Inside of the box", inside.Formula,
                $"{text.Millimeters(inside.WidthMeters)} · {text.Millimeters(inside.HeightMeters)} · ({text.Millimeters(inside.TopDepthMeters)} + {text.Millimeters(inside.BottomDepthMeters)}) / 2",
                Litres(inside.CubicMeters, text), Source));
        }

        foreach (var row in input.Rows)
        {
            var volume = row.Count * row.Shape.CubicMeters * (row.Subtracted ? -1 : 1);
            rows.Add(new VolumeShare(row.Name, volume, row.Reason));
            steps.Add(new ExplainedStep(row.Name, row.Shape.Formula, row.Count == 1 ? "" : $"{row.Count} of {Litres(row.Shape.CubicMeters, text)}", Litres(volume, text), Source));
        }

        var fill = input.Fill?.Measure();
        var drawn = rows.Sum(row => row.CubicMeters) - input.Rows.Where(row => row.AfterFill).Sum(row => row.Count * row.Shape.CubicMeters * (row.Subtracted ? -1 : 1));
        // With nothing drawn the measurement is the volume; it is net of whatever was inside while filling.
        if (fill is not null && !rows.Any(row => row.CubicMeters > 0))
            rows.Insert(0, new VolumeShare("By filling", fill.CubicMeters, fill.KilogramsPerCubicMeter is null ? "as poured" : "mass over density"));
        var gross = rows.Where(row => row.CubicMeters > 0).Sum(row => row.CubicMeters);
        var net = rows.Sum(row => row.CubicMeters);
        if (fill is not null)
        {
            var (formula, numbers) = fill.KilogramsPerCubicMeter is { } density
                ? ("V = mass / density", $"{text.Kilograms(input.Fill!.FillKilograms ?? 0)} / {text.With(density, "kg/m³")}") // a density comes of a mass
                : ("V as poured", $"packing ± {text.Percent(input.Fill!.PackingPercent)}");
            steps.Add(new ExplainedStep("By filling", formula, numbers,
                $"{Litres(fill.CubicMeters, text)} ± {Litres(fill.UncertaintyCubicMeters, text)}", "JCGM 100:2008, 5.1.6"));
        }

        return new BoxVolumeResult
        {
            GrossCubicMeters = gross,
            NetCubicMeters = net,
            Rows = rows,
            Shell = input.Shell?.Measure(),
            Fill = fill,
            Findings = Find(input, gross, net, drawn, fill, text),
            Explanation = new Explanation("How large is the enclosure?", $"{Litres(net, text)} net of {Litres(gross, text)} gross",
                [.. rows.Select(row => new ExplainedInput(row.Name, row.CubicMeters * 1000, "l", row.Reason.Length > 0 ? row.Reason : "entered"))], steps, Limits(input, net), null),
        };
    }

    private static List<LimitCheck> Limits(BoxVolumeInput input, double net) => input.WantedCubicMeters is { } wanted
        ? [new LimitCheck("Volume wanted", net * 1000, wanted * 1000, "l", Math.Abs(net - wanted) <= Tolerance * wanted, "entered; 3 % common practice, no source")]
        : [];

    private static IReadOnlyList<Finding> Find(BoxVolumeInput input, double gross, double net, double drawn, FillResult? fill, UnitText text)
    {
        const string Practice = Unsourced.CommonPractice;
        var found = new FindingList("enclosure", "Enclosure");
        if (net <= 0)
            found.Add("volume-used-up", Severity.Stop, $"What is taken away, {Litres(gross - net, text)}, is more than the {Litres(gross, text)} there are.", "Check the rows that are subtracted.", Source);
        else if (input.WantedCubicMeters is { } wanted && Math.Abs(net - wanted) > Tolerance * wanted)
        {
            found.Add("volume-missed", Severity.Warn, $"{Litres(net, text)} is {text.Percent(100 * Math.Abs(net - wanted) / wanted)} {(net < wanted ? "less" : "more")} than the {Litres(wanted, text)} wanted.",
                "Change a board, or work the response out again with this volume.", Practice);
        }

        if (fill is not null && (input.Shell is not null || input.Rows.Any(row => !row.Subtracted)) && Math.Abs(fill.CubicMeters - drawn) > 2 * fill.UncertaintyCubicMeters)
        {
            found.Add("fill-differs", Severity.Warn, $"Filled it holds {Litres(fill.CubicMeters, text)} ± {Litres(fill.UncertaintyCubicMeters, text)}, drawn it is {Litres(drawn, text)}.",
                "Look for a body that is missing on the drawing, or that was not in the box while it was filled.", "JCGM 100:2008: apart by more than twice the standard uncertainty");
        }

        if (input.Fill is { CupCubicMeters: null, PouredCubicMeters: null })
            found.Add("water-in-box", Severity.Note, "Water swells wood and board.", "Line the box with a bag, or take beads for anything but sealed or laminated shells.", Practice);
        return found.Sorted;
    }

    private static string Litres(double cubicMeters, UnitText text) => text.With(cubicMeters * 1000, "l", 4);
}
