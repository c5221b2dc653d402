using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Acoustics.Drivers;

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
            steps.Add(new ExplainedStep("Vas by added mass", "Vas = ρc²·Sd²/((2πfs)²·Mms)", $"Sd {text.Number(10_000 * input.Piston!.Value)} cm²", $"{text.Number(1000 * byMass.Value)} l", Small)); // by an area
        if (byVolume is not null && seen.OnVolume is { } boxed && input.KnownVolume is { } known)
        {
            steps.Add(free is not null && onVolume is not null
                ? new ExplainedStep("Vas by known volume", "Vas = V·(fc·Qec/(fs·Qes) − 1)", $"{text.Number(1000 * known.CubicMeters)} l, fc {text.Number(boxed.Value, 4)} Hz, Qec {text.Number(onVolume.Qes.Value)}", $"{text.Number(1000 * byVolume.Value)} l", Small)
                : new ExplainedStep("Vas by known volume", "Vas = V·((fc/fs)² − 1)", $"{text.Number(1000 * known.CubicMeters)} l, {text.Number(seen.Free.Value, 4)} Hz to {text.Number(boxed.Value, 4)} Hz", $"{text.Number(1000 * byVolume.Value)} l", Small));
        }

        if (filled is { MmsKilograms: { } moving, CmsMetersPerNewton: { } soft })
            steps.Add(new ExplainedStep("Compliance", "Cms = 1/((2πfs)²·Mms)", $"Mms {text.Number(1000 * moving)} g", $"{text.Number(1000 * soft)} mm/N", Small));
        if (filled is { BlTeslaMeters: { } motor, MmsKilograms: not null, Qes: { } qes })
            steps.Add(new ExplainedStep("Force factor", "Bl = √(2πfs·Mms·Re/Qes)", $"Qes {text.Number(qes)}", $"{text.Number(motor)} T·m", Small));
        return new Explanation(
            "What are the driver's parameters?",
            $"fs {text.Number(seen.Free.Value)} Hz" + (free is null ? "" : $", Qts {text.Number(free.Qts)}") + (filled.VasCubicMeters is { } vas ? $", Vas {text.Number(1000 * vas)} l" : "; Vas not measured"),
            inputs,
            steps,
            [],
            null);
    }
}

/// <summary>The resonances, fitted or given.</summary>
internal sealed record Seen(FittedValue Free, FittedValue? WithMass, FittedValue? OnVolume);
