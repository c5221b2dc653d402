using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Acoustics.Drivers;

/// <summary>The driver measured again with a mass on its cone.</summary>
/// <param name="Kilograms">Mass added, kg (1e-5 to 2).</param>
/// <param name="Table">Impedance as text.</param>
public sealed record AddedMassSweep(double Kilograms, string Table);

/// <summary>The driver measured again on a closed box of known volume.</summary>
/// <param name="CubicMeters">Volume with what the cone and cut-out add, m³ (1e-5 to 2).</param>
/// <param name="Table">Impedance as text.</param>
public sealed record KnownVolumeSweep(double CubicMeters, string Table);

/// <summary>A driver measured by its impedance.</summary>
public sealed record DriverMeasurementInput
{
    /// <summary>Impedance in free air as text: frequency, ohms and, where measured, phase; see <see cref="ImpedanceTable"/>.</summary>
    public required string FreeAir { get; init; }

    /// <summary>DC resistance by a meter, Ω (0.1 to 64); null to find it from the sweep.</summary>
    public double? ReOhms { get; init; }

    /// <summary>Effective piston area, m² (1e-5 to 1); null when the diameter is given.</summary>
    public double? PistonSquareMeters { get; init; }

    /// <summary>Diameter from the middle of the surround to the middle, m (0.004 to 1.1); null when the area is given.</summary>
    public double? PistonDiameterMeters { get; init; }

    /// <summary>Again with a mass on the cone; null when not done.</summary>
    public AddedMassSweep? AddedMass { get; init; }

    /// <summary>Again on a box of known volume; null when not done.</summary>
    public KnownVolumeSweep? KnownVolume { get; init; }

    /// <summary>Highest frequency used, Hz (50 to 200,000); null for all.</summary>
    public double? ToHertz { get; init; }

    /// <summary>Air temperature, °C (−40 to 80).</summary>
    public double AirCelsius { get; init; } = 20;

    /// <summary>Linear excursion one way, m (1e-5 to 0.1), for the sheet.</summary>
    public double? XmaxMeters { get; init; }

    /// <summary>Power the coil bears, W (0.1 to 20,000), for the sheet.</summary>
    public double? RatedWatts { get; init; }

    internal double? Piston => PistonSquareMeters ?? Math.PI / 4 * PistonDiameterMeters * PistonDiameterMeters;

    // Evenly spaced sweeps crowd at the top: of points nearer than half a percent one is kept, so that every octave counts alike.
    internal IReadOnlyList<ImpedancePoint> Points(string table)
    {
        var kept = new List<ImpedancePoint>();
        foreach (var point in ImpedanceTable.Parse(table).Points.TakeWhile(point => point.Hertz <= (ToHertz ?? double.MaxValue)))
        {
            if (kept.Count == 0 || point.Hertz >= 1.005 * kept[^1].Hertz)
                kept.Add(point);
        }

        return kept;
    }

    /// <summary>What is wrong; empty when it can be computed.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        checks.InRange(nameof(ReOhms), "DC resistance in Ω", ReOhms, 0.1, 64);
        checks.InRange(nameof(PistonSquareMeters), "Piston area in m²", PistonSquareMeters, 1e-5, 1);
        checks.InRange(nameof(PistonDiameterMeters), "Diameter of the piston", PistonDiameterMeters, 0.004, 1.1, QuantityKind.SmallLength);
        checks.InRange($"{nameof(AddedMass)}.Kilograms", "Mass added in kg", AddedMass?.Kilograms, 1e-5, 2);
        checks.InRange($"{nameof(KnownVolume)}.CubicMeters", "Known volume in m³", KnownVolume?.CubicMeters, 1e-5, 2);
        checks.InRange(nameof(ToHertz), "Highest frequency in Hz", ToHertz, 50, 200_000);
        checks.InRange(nameof(AirCelsius), "Air temperature", AirCelsius, -40, 80, QuantityKind.Temperature);
        checks.InRange(nameof(XmaxMeters), "Linear excursion", XmaxMeters, 1e-5, 0.1, QuantityKind.SmallLength);
        checks.InRange(nameof(RatedWatts), "Rated power", RatedWatts, 0.1, 20_000, QuantityKind.Power);
        if ((AddedMass is not null || KnownVolume is not null) && Piston is null)
            checks.Add(nameof(PistonSquareMeters), "Piston area: nothing was entered; enter the area or the diameter.");
        Table(checks, nameof(FreeAir), "Free air", FreeAir);
        Table(checks, $"{nameof(AddedMass)}.Table", "With added mass", AddedMass?.Table);
        Table(checks, $"{nameof(KnownVolume)}.Table", "On the known volume", KnownVolume?.Table);
        return checks.Problems;
    }

    private void Table(InputChecks checks, string field, string label, string? table)
    {
        if (table is null)
            return;
        var reading = ImpedanceTable.Parse(table, field);
        checks.AddRange(reading.Problems);
        if (reading.Problems.Count == 0 && ImpedanceFit.Refusal(Points(table)) is { } reason)
            checks.Add(field, $"{label}: {reason}");
    }
}

/// <summary>A driver as measured.</summary>
public sealed record DriverMeasurementResult
{
    /// <summary>Fit in free air.</summary>
    public required ImpedanceFitResult FreeAir { get; init; }

    /// <summary>Fit with the mass; null when not done.</summary>
    public required ImpedanceFitResult? WithMass { get; init; }

    /// <summary>Fit on the known volume; null when not done.</summary>
    public required ImpedanceFitResult? OnVolume { get; init; }

    /// <summary>Vas by the added mass, m³; null when not done or impossible.</summary>
    public required FittedValue? VasByMassCubicMeters { get; init; }

    /// <summary>Vas by the known volume, m³; null when not done or impossible.</summary>
    public required FittedValue? VasByVolumeCubicMeters { get; init; }

    /// <summary>The sheet as measured.</summary>
    public required DriverSheet Sheet { get; init; }

    /// <summary>The driver as lumped elements; null while Vas was not measured.</summary>
    public required DriverParameters? Parameters { get; init; }

    /// <summary>What was found, gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>How it was reached.</summary>
    public required Explanation Explanation { get; init; }
}

/// <summary>Small-signal parameters from impedance sweeps.</summary>
/// <remarks>
/// Added mass: Mms = M/((fs/fm)² − 1). Known volume: Vas = V·(fc·Qec/(fs·Qes) − 1), which lets the air load change (Small, JAES 20, 1972). With
/// both, Vas is their mean.
/// </remarks>
public static class DriverMeasurement
{
    private const string Small = "Small, JAES 20 (1972)";

    /// <summary>Works the driver out.</summary>
    /// <param name="input">Sweeps.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="DriverMeasurementInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static DriverMeasurementResult Compute(DriverMeasurementInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));
        var air = Air.At(input.AirCelsius);
        var free = ImpedanceFit.Of(input.Points(input.FreeAir), input.ReOhms);
        // The coil is the same: its resistance is taken over.
        var withMass = input.AddedMass is { } added ? ImpedanceFit.Of(input.Points(added.Table), free.ReOhms.Value) : null;
        var onVolume = input.KnownVolume is { } known ? ImpedanceFit.Of(input.Points(known.Table), free.ReOhms.Value) : null;
        var (byMass, byVolume) = (ByMass(input, air, free, withMass), ByVolume(input, free, onVolume));
        var vas = byMass is not null && byVolume is not null ? (byMass.Value + byVolume.Value) / 2 : (byMass ?? byVolume)?.Value;
        var sheet = new DriverSheet
        {
            ReOhms = free.ReOhms.Value,
            ResonanceHertz = free.ResonanceHertz.Value,
            Qes = free.Qes.Value,
            Qms = free.Qms.Value,
            LeHenries = free.LeHenries.Value,
            VasCubicMeters = vas,
            PistonSquareMeters = input.Piston,
            XmaxMeters = input.XmaxMeters,
            RatedWatts = input.RatedWatts,
        };
        var completed = DriverCompletion.Complete(sheet, air, text).Parameters;
        var parameters = completed is null ? null : completed with { LossHenries = free.LossHenries?.Value ?? 0, LossOhms = free.LossOhms?.Value ?? 0 };
        return new DriverMeasurementResult
        {
            FreeAir = free,
            WithMass = withMass,
            OnVolume = onVolume,
            VasByMassCubicMeters = byMass,
            VasByVolumeCubicMeters = byVolume,
            Sheet = sheet,
            Parameters = parameters,
            Findings = DriverMeasurementFindings.Find(free, withMass, onVolume, byMass, byVolume, text),
            Explanation = Explain(input, free, withMass, onVolume, byMass, byVolume, text),
        };
    }

    private static FittedValue? ByMass(DriverMeasurementInput input, Air air, ImpedanceFitResult free, ImpedanceFitResult? with)
    {
        if (input.AddedMass is not { } added || with is null || input.Piston is not { } area)
            return null;
        var square = Math.Pow(free.ResonanceHertz.Value / with.ResonanceHertz.Value, 2);
        if (square <= 1)
            return null;
        var mms = added.Kilograms / (square - 1);
        var omega = 2 * Math.PI * free.ResonanceHertz.Value;
        var error = 2 * square / (square - 1) * Both(free.ResonanceHertz.ShareError, with.ResonanceHertz.ShareError);
        return new FittedValue(air.BulkModulusPascals * area * area / (omega * omega * mms), error);
    }

    private static FittedValue? ByVolume(DriverMeasurementInput input, ImpedanceFitResult free, ImpedanceFitResult? on)
    {
        if (input.KnownVolume is not { } known || on is null)
            return null;
        var ratio = on.ResonanceHertz.Value * on.Qes.Value / (free.ResonanceHertz.Value * free.Qes.Value);
        if (ratio <= 1)
            return null;
        var error = ratio / (ratio - 1) * Both(Both(free.ResonanceHertz.ShareError, free.Qes.ShareError), Both(on.ResonanceHertz.ShareError, on.Qes.ShareError));
        return new FittedValue(known.CubicMeters * (ratio - 1), error);
    }

    private static double? Both(double? a, double? b) => a is { } one && b is { } two ? Math.Sqrt(one * one + two * two) : null;

    private static Explanation Explain(
        DriverMeasurementInput input, ImpedanceFitResult free, ImpedanceFitResult? withMass, ImpedanceFitResult? onVolume, FittedValue? byMass, FittedValue? byVolume, UnitText text)
    {
        var steps = new List<ExplainedStep>
        {
            new("Impedance in free air", "Z = Re + Zcoil + Res/(1 + jQms·(f/fs − fs/f))", $"{free.Points} points, {text.Number(free.MagnitudeDecibels, 2)} dB off",
                $"fs {text.Number(free.ResonanceHertz.Value, 4)} Hz, Qms {text.Number(free.Qms.Value)}, Qes {text.Number(free.Qes.Value)}, Re {text.Number(free.ReOhms.Value)} Ω", Small),
        };
        if (byMass is not null && withMass is not null && input.AddedMass is { } added)
        {
            steps.Add(new ExplainedStep("Vas by added mass", "Mms = M/((fs/fm)² − 1); Vas = ρc²·Sd²/((2πfs)²·Mms)",
                $"{text.Number(1000 * added.Kilograms)} g, {text.Number(free.ResonanceHertz.Value, 4)} Hz to {text.Number(withMass.ResonanceHertz.Value, 4)} Hz", $"{text.Number(1000 * byMass.Value)} L", Small));
        }

        if (byVolume is not null && onVolume is not null && input.KnownVolume is { } known)
        {
            steps.Add(new ExplainedStep("Vas by known volume", "Vas = V·(fc·Qec/(fs·Qes) − 1)",
                $"{text.Number(1000 * known.CubicMeters)} L, fc {text.Number(onVolume.ResonanceHertz.Value, 4)} Hz, Qec {text.Number(onVolume.Qes.Value)}", $"{text.Number(1000 * byVolume.Value)} L", Small));
        }

        return new Explanation(
            "What are the driver's parameters?",
            $"fs {text.Number(free.ResonanceHertz.Value)} Hz, Qts {text.Number(free.Qts)}" + ((byMass ?? byVolume) is { } vas ? $", Vas {text.Number(1000 * vas.Value)} L" : "; Vas not measured"),
            [new ExplainedInput("DC resistance", free.ReOhms.Value, "Ω", input.ReOhms is null ? "found from the sweep" : "entered")],
            steps,
            [],
            null);
    }
}
