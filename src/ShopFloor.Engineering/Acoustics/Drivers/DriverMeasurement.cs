using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Acoustics.Drivers;

/// <summary>The driver measured again with a mass on its cone: by a sweep, or by its resonance alone.</summary>
/// <param name="Kilograms">Mass added, kg (1e-5 to 2).</param>
/// <param name="Table">Impedance as text; null when the resonance is given.</param>
/// <param name="ResonanceHertz">Resonance with the mass found by tone and meter, Hz (1 to 20,000); null when there is a sweep.</param>
public sealed record AddedMassSweep(double Kilograms, string? Table = null, double? ResonanceHertz = null);

/// <summary>The driver measured again on a closed box of known volume: by a sweep, or by its resonance alone.</summary>
/// <param name="CubicMeters">Volume with what the cone and cut-out add, m³ (1e-5 to 2).</param>
/// <param name="Table">Impedance as text; null when the resonance is given.</param>
/// <param name="ResonanceHertz">Resonance on the box found by tone and meter, Hz (1 to 20,000); null when there is a sweep.</param>
public sealed record KnownVolumeSweep(double CubicMeters, string? Table = null, double? ResonanceHertz = null);

/// <summary>A driver measured by its impedance.</summary>
public sealed record DriverMeasurementInput
{
    /// <summary>Impedance in free air as text: frequency, ohms and, where measured, phase; see <see cref="ImpedanceTable"/>. Null when the resonance is given.</summary>
    public string? FreeAir { get; init; }

    /// <summary>Resonance in free air found by tone and meter, Hz (5 to 20,000), where there is no sweep.</summary>
    public double? ResonanceHertz { get; init; }

    /// <summary>Electrical Q (0.05 to 20), where there is no sweep and it is known.</summary>
    public double? Qes { get; init; }

    /// <summary>Mechanical Q (0.2 to 100), where there is no sweep and it is known.</summary>
    public double? Qms { get; init; }

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
        checks.InRange(nameof(ResonanceHertz), "Resonance in free air in Hz", ResonanceHertz, 5, 20_000);
        checks.InRange(nameof(Qes), "Electrical Q", Qes, 0.05, 20);
        checks.InRange(nameof(Qms), "Mechanical Q", Qms, 0.2, 100);
        checks.InRange($"{nameof(AddedMass)}.ResonanceHertz", "Resonance with added mass in Hz", AddedMass?.ResonanceHertz, 1, 20_000);
        checks.InRange($"{nameof(KnownVolume)}.ResonanceHertz", "Resonance on the known volume in Hz", KnownVolume?.ResonanceHertz, 1, 20_000);
        Either(checks, nameof(FreeAir), "Free air", true, FreeAir, ResonanceHertz);
        Either(checks, $"{nameof(AddedMass)}.Table", "With added mass", AddedMass is not null, AddedMass?.Table, AddedMass?.ResonanceHertz);
        Either(checks, $"{nameof(KnownVolume)}.Table", "On the known volume", KnownVolume is not null, KnownVolume?.Table, KnownVolume?.ResonanceHertz);
        return checks.Problems;
    }

    private void Either(InputChecks checks, string field, string label, bool done, string? table, double? resonance)
    {
        if (done && table is null && resonance is null)
            checks.Add(field, $"{label}: neither a sweep nor a resonance was given; give one of both.");
        if (table is not null && resonance is not null)
            checks.Add(field, $"{label}: a sweep and a resonance were given; the sweep tells the resonance, so give one of both.");
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
    /// <summary>Fit in free air; null when its resonance was given.</summary>
    public required ImpedanceFitResult? FreeAir { get; init; }

    /// <summary>Fit with the mass; null when not done.</summary>
    public required ImpedanceFitResult? WithMass { get; init; }

    /// <summary>Fit on the known volume; null when not done.</summary>
    public required ImpedanceFitResult? OnVolume { get; init; }

    /// <summary>Vas by the added mass, m³; null when not done or impossible.</summary>
    public required FittedValue? VasByMassCubicMeters { get; init; }

    /// <summary>Vas by the known volume, m³; null when not done or impossible.</summary>
    public required FittedValue? VasByVolumeCubicMeters { get; init; }

    /// <summary>The sheet as measured, with what follows filled in.</summary>
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
/// Added mass: Mms = M/((fs/fm)² − 1). Known volume: Vas = V·(fc·Qec/(fs·Qes) − 1), which lets the air load change (Small, JAES 20, 1972), or, by
/// resonances alone, V·((fc/fs)² − 1), which does not. With both, Vas is their mean. A mass needs no piston area for Mms, a volume none for Vas.
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
        var free = input.FreeAir is { } table ? ImpedanceFit.Of(input.Points(table), input.ReOhms) : null;
        var re = free?.ReOhms.Value ?? input.ReOhms;
        // The coil is the same: its resistance is taken over.
        var withMass = input.AddedMass is { Table: { } heavier } ? ImpedanceFit.Of(input.Points(heavier), re) : null;
        var onVolume = input.KnownVolume is { Table: { } boxed } ? ImpedanceFit.Of(input.Points(boxed), re) : null;
        var seen = new Seen(
            free?.ResonanceHertz ?? new FittedValue(input.ResonanceHertz!.Value, null), // one of both was asked for
            withMass?.ResonanceHertz ?? Typed(input.AddedMass?.ResonanceHertz), onVolume?.ResonanceHertz ?? Typed(input.KnownVolume?.ResonanceHertz));
        var mms = Mass(input, seen);
        var byMass = mms is not null && input.Piston is { } area ? Compliance(mms, seen.Free, air.BulkModulusPascals * area * area) : null;
        var byVolume = ByVolume(input, seen, free, onVolume);
        var vas = byMass is not null && byVolume is not null ? (byMass.Value + byVolume.Value) / 2 : (byMass ?? byVolume)?.Value;
        var sheet = new DriverSheet
        {
            ReOhms = re,
            ResonanceHertz = seen.Free.Value,
            Qes = free?.Qes.Value ?? input.Qes,
            Qms = free?.Qms.Value ?? input.Qms,
            LeHenries = free?.LeHenries.Value,
            LossHenries = free?.LossHenries?.Value,
            LossOhms = free?.LossOhms?.Value,
            VasCubicMeters = vas,
            // Without an area the mass says what moves; with a volume too, the area follows.
            MmsKilograms = byMass is null ? mms?.Value : null,
            PistonSquareMeters = input.Piston,
            XmaxMeters = input.XmaxMeters,
            RatedWatts = input.RatedWatts,
        };
        // A fit may find values no sheet may have, such as a coil without inductance; they are left out there.
        var problems = sheet.Validate(text).Select(problem => problem.Field).ToHashSet();
        sheet = Without(sheet, problems);
        var completed = DriverCompletion.Complete(sheet, air, text);
        return new DriverMeasurementResult
        {
            FreeAir = free,
            WithMass = withMass,
            OnVolume = onVolume,
            VasByMassCubicMeters = byMass,
            VasByVolumeCubicMeters = byVolume,
            Sheet = completed.Filled,
            Parameters = completed.Parameters,
            Findings = DriverMeasurementFindings.Find(input, seen, free, withMass, onVolume, byMass, byVolume, text),
            Explanation = Explain(input, seen, free, onVolume, mms, byMass, byVolume, completed.Filled, text),
        };
    }

    // A lossy coil is told by two values or by none.
    private static DriverSheet Without(DriverSheet sheet, HashSet<string> refused)
    {
        bool Bad(string field) => refused.Contains(field);
        var loss = Bad(nameof(sheet.LossHenries)) || Bad(nameof(sheet.LossOhms));
        return sheet with
        {
            ReOhms = Bad(nameof(sheet.ReOhms)) ? null : sheet.ReOhms,
            ResonanceHertz = Bad(nameof(sheet.ResonanceHertz)) ? null : sheet.ResonanceHertz,
            Qes = Bad(nameof(sheet.Qes)) ? null : sheet.Qes,
            Qms = Bad(nameof(sheet.Qms)) ? null : sheet.Qms,
            LeHenries = Bad(nameof(sheet.LeHenries)) ? null : sheet.LeHenries,
            LossHenries = loss ? null : sheet.LossHenries,
            LossOhms = loss ? null : sheet.LossOhms,
            VasCubicMeters = Bad(nameof(sheet.VasCubicMeters)) ? null : sheet.VasCubicMeters,
            MmsKilograms = Bad(nameof(sheet.MmsKilograms)) ? null : sheet.MmsKilograms,
        };
    }

    private static FittedValue? Typed(double? hertz) => hertz is { } value ? new FittedValue(value, null) : null;

    private static FittedValue? Mass(DriverMeasurementInput input, Seen seen)
    {
        if (input.AddedMass is not { } added || seen.WithMass is not { } with)
            return null;
        var square = Math.Pow(seen.Free.Value / with.Value, 2);
        return square <= 1 ? null : new FittedValue(added.Kilograms / (square - 1), 2 * square / (square - 1) * Both(seen.Free.ShareError, with.ShareError));
    }

    // The suspension that resonates with the mass at fs, as a volume behind the piston.
    private static FittedValue Compliance(FittedValue mms, FittedValue resonance, double stiffness)
    {
        var omega = 2 * Math.PI * resonance.Value;
        return new FittedValue(stiffness / (omega * omega * mms.Value), mms.ShareError);
    }

    private static FittedValue? ByVolume(DriverMeasurementInput input, Seen seen, ImpedanceFitResult? free, ImpedanceFitResult? on)
    {
        if (input.KnownVolume is not { } known || seen.OnVolume is not { } boxed)
            return null;
        var (fs, fc) = (seen.Free, boxed);
        var byQ = free is not null && on is not null;
        var ratio = byQ ? fc.Value * on!.Qes.Value / (fs.Value * free!.Qes.Value) : Math.Pow(fc.Value / fs.Value, 2); // both asked for
        if (ratio <= 1)
            return null;
        var error = byQ
            ? ratio / (ratio - 1) * Both(Both(fs.ShareError, free!.Qes.ShareError), Both(fc.ShareError, on!.Qes.ShareError))
            : 2 * ratio / (ratio - 1) * Both(fs.ShareError, fc.ShareError);
        return new FittedValue(known.CubicMeters * (ratio - 1), error);
    }

    private static double? Both(double? a, double? b) => a is { } one && b is { } two ? Math.Sqrt(one * one + two * two) : null;

    private static Explanation Explain(
        DriverMeasurementInput input, Seen seen, ImpedanceFitResult? free, ImpedanceFitResult? onVolume, FittedValue? mms, FittedValue? byMass, FittedValue? byVolume, DriverSheet filled, UnitText text)
    {
        List<ExplainedStep> steps = [];
        List<ExplainedInput> inputs = [];
        if (free is not null)
        {
            inputs.Add(new ExplainedInput("DC resistance", free.ReOhms.Value, "Ω", input.ReOhms is null ? "found from the sweep" : "entered"));
            steps.Add(new ExplainedStep("Impedance in free air", "Z = Re + Zcoil + Res/(1 + jQms·(f/fs − fs/f))", $"{free.Points} points, {text.Number(free.MagnitudeDecibels, 2)} dB off",
                $"fs {text.Number(free.ResonanceHertz.Value, 4)} Hz, Qms {text.Number(free.Qms.Value)}, Qes {text.Number(free.Qes.Value)}, Re {text.Number(free.ReOhms.Value)} Ω", Small));
        }
        else
            inputs.Add(new ExplainedInput("Resonance in free air", seen.Free.Value, "Hz", "entered"));
        if (input.Piston is { } area)
            inputs.Add(new ExplainedInput("Piston area", 10_000 * area, "cm²", input.PistonSquareMeters is null ? "by its diameter" : "entered"));
        if (mms is not null && seen.WithMass is { } heavy && input.AddedMass is { } added)
        {
            steps.Add(new ExplainedStep("Moving mass by added mass", "Mms = M/((fs/fm)² − 1)",
                $"{text.Number(1000 * added.Kilograms)} g, {text.Number(seen.Free.Value, 4)} Hz to {text.Number(heavy.Value, 4)} Hz", $"{text.Number(1000 * mms.Value)} g", Small));
        }

        if (byMass is not null)
            steps.Add(new ExplainedStep("Vas by added mass", "Vas = ρc²·Sd²/((2πfs)²·Mms)", $"Sd {text.Number(10_000 * input.Piston!.Value)} cm²", $"{text.Number(1000 * byMass.Value)} L", Small)); // by an area
        if (byVolume is not null && seen.OnVolume is { } boxed && input.KnownVolume is { } known)
        {
            steps.Add(free is not null && onVolume is not null
                ? new ExplainedStep("Vas by known volume", "Vas = V·(fc·Qec/(fs·Qes) − 1)", $"{text.Number(1000 * known.CubicMeters)} L, fc {text.Number(boxed.Value, 4)} Hz, Qec {text.Number(onVolume.Qes.Value)}", $"{text.Number(1000 * byVolume.Value)} L", Small)
                : new ExplainedStep("Vas by known volume", "Vas = V·((fc/fs)² − 1)", $"{text.Number(1000 * known.CubicMeters)} L, {text.Number(seen.Free.Value, 4)} Hz to {text.Number(boxed.Value, 4)} Hz", $"{text.Number(1000 * byVolume.Value)} L", Small));
        }

        if (filled is { MmsKilograms: { } moving, CmsMetersPerNewton: { } soft })
            steps.Add(new ExplainedStep("Compliance", "Cms = 1/((2πfs)²·Mms)", $"Mms {text.Number(1000 * moving)} g", $"{text.Number(1000 * soft)} mm/N", Small));
        if (filled is { BlTeslaMeters: { } motor, MmsKilograms: not null, Qes: { } qes })
            steps.Add(new ExplainedStep("Force factor", "Bl = √(2πfs·Mms·Re/Qes)", $"Qes {text.Number(qes)}", $"{text.Number(motor)} T·m", Small));
        return new Explanation(
            "What are the driver's parameters?",
            $"fs {text.Number(seen.Free.Value)} Hz" + (free is null ? "" : $", Qts {text.Number(free.Qts)}") + (filled.VasCubicMeters is { } vas ? $", Vas {text.Number(1000 * vas)} L" : "; Vas not measured"),
            inputs,
            steps,
            [],
            null);
    }
}

/// <summary>The resonances, fitted or given.</summary>
internal sealed record Seen(FittedValue Free, FittedValue? WithMass, FittedValue? OnVolume);
