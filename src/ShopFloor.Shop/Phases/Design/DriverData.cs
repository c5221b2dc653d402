using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Units;
using ShopFloor.Engineering.Physics;
using ShopFloor.Shop.Catalogue;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Where a datum of a driver comes from.</summary>
public enum DriverDatumState
{
    Entered,
    FilledIn,
    Contradicts,
    Missing,
}

/// <param name="Entered">As on the part, in <paramref name="Unit"/>; null when it is not there.</param>
/// <param name="Worked">As the other data give it; null when they do not.</param>
/// <param name="Why">The relation it is filled in or checked by.</param>
/// <param name="Source">By whom and when it was measured; null where it was typed or follows.</param>
public sealed record DriverDatum(string Name, string Symbol, string Unit, double? Entered, double? Worked, DriverDatumState State, string Why, string? Source = null)
{
    /// <summary>How far what follows lies off what is entered, as a share of it; null where there is nothing to compare.</summary>
    public double? Off => Entered is { } said && said != 0 && Worked is { } follows ? follows / said - 1 : null;
}

/// <summary>The driver of a part: its data sheet, what follows from it, and where it contradicts itself.</summary>
public static class DriverData
{
    public static DriverSheet Sheet(LoudspeakerData data)
    {
        ArgumentNullException.ThrowIfNull(data);
        return new DriverSheet
        {
            ResonanceHertz = data.ResonanceHertz,
            Qes = data.Qes,
            Qms = data.Qms,
            Qts = data.Qts,
            VasCubicMeters = data.VasLitres / 1000,
            PistonSquareMeters = data.PistonSquareCentimeters / 10_000,
            ReOhms = data.ReOhms,
            LeHenries = data.LeMillihenries / 1000,
            MmsKilograms = data.MmsGrams / 1000,
            CmsMetersPerNewton = data.CmsMillimetersPerNewton / 1000,
            RmsKilogramsPerSecond = data.RmsKilogramsPerSecond,
            BlTeslaMeters = data.BlTeslaMeters,
            XmaxMeters = data.XmaxMillimeters / 1000,
            RatedWatts = data.RatedWatts,
            LossHenries = data.LossMillihenries / 1000,
            LossOhms = data.LossOhms,
            SensitivityDecibels = data.SensitivityDecibels,
        };
    }

    /// <summary>What follows from the data of a part. Of several coils a sheet does not say for which joining its sensitivity is; the one that fits best counts.</summary>
    /// <returns>Null while a datum is refused.</returns>
    public static CompletedDriver? Complete(LoudspeakerData data, UnitText text)
    {
        var sheet = Sheet(data);
        if (sheet.Validate(text).Count > 0)
        {
            return null;
        }

        var plain = DriverCompletion.Complete(sheet, Air.Standard, text);
        var coils = SignalPorts.Coils(data);
        if (coils == 1 || plain.Parameters is not { } known || sheet.SensitivityDecibels is not { } said)
        {
            return plain;
        }

        var parallel = data.CoilsStated == CoilsStated.CoilsInSeries ? known.ReOhms / (coils * coils) : known.ReOhms;
        var nearest = new[] { parallel, parallel * coils, parallel * coils * coils }.MinBy(ohms => Math.Abs(known.SensitivityDecibels(Air.Standard, ohms) - said));
        return DriverCompletion.Complete(sheet with { SensitivityReOhms = nearest }, Air.Standard, text);
    }

    /// <summary>Every datum with what it is, what it ought to be, and why.</summary>
    public static IReadOnlyList<DriverDatum> Rows(LoudspeakerData data, CompletedDriver completed)
    {
        ArgumentNullException.ThrowIfNull(completed);
        var (sheet, filled, worked) = (Sheet(data), completed.Filled, completed.Worked);
        var contradicted = completed.Findings.Select(finding => finding.Subject).ToHashSet();
        DriverDatum Row(string field, string name, string symbol, string unit, double? entered, double? follows, string why, double factor = 1, double? check = null, string? told = null)
        {
            var contradicts = entered is not null && told is not null && contradicted.Contains(told);
            var state = entered is null ? follows is null ? DriverDatumState.Missing : DriverDatumState.FilledIn : contradicts ? DriverDatumState.Contradicts : DriverDatumState.Entered;
            return new DriverDatum(name, symbol, unit, entered * factor, (entered is null ? follows : contradicts ? check : null) * factor, state, why, entered is null ? null : data.SourceOf(field));
        }

        return
        [
            Row(nameof(data.ResonanceHertz), "Resonance in free air", "fs", "Hz", sheet.ResonanceHertz, filled.ResonanceHertz, "1/(2π·√(Mms·Cms))", check: worked.ResonanceHertz, told: "Resonance"),
            Row(nameof(data.Qes), "Electrical Q", "Qes", "", sheet.Qes, filled.Qes, "2π·fs·Mms·Re/Bl²", check: worked.Qes, told: "Electrical Q"),
            Row(nameof(data.Qms), "Mechanical Q", "Qms", "", sheet.Qms, filled.Qms, "2π·fs·Mms/Rms", check: worked.Qms, told: "Mechanical Q"),
            Row(nameof(data.Qts), "Total Q", "Qts", "", sheet.Qts, filled.Qts, "Qes·Qms/(Qes + Qms)", check: worked.Qts, told: "Qts"),
            Row(nameof(data.VasLitres), "Compliance as a volume", "Vas", "l", sheet.VasCubicMeters, filled.VasCubicMeters, "ρc²·Sd²·Cms", 1000, worked.VasCubicMeters, "Vas"),
            Row(nameof(data.PistonSquareCentimeters), "Piston area", "Sd", "cm²", sheet.PistonSquareMeters, filled.PistonSquareMeters, "√(Vas/(ρc²·Cms))", 10_000),
            Row(nameof(data.ReOhms), "DC resistance", "Re", "Ω", sheet.ReOhms, filled.ReOhms, "measured"),
            Row(nameof(data.LeMillihenries), "Coil inductance", "Le", "mH", sheet.LeHenries, filled.LeHenries, "measured; left out where it is not known", 1000),
            Row(nameof(data.MmsGrams), "Moving mass", "Mms", "g", sheet.MmsKilograms, filled.MmsKilograms, "1/((2π·fs)²·Cms)", 1000),
            Row(nameof(data.CmsMillimetersPerNewton), "Compliance", "Cms", "mm/N", sheet.CmsMetersPerNewton, filled.CmsMetersPerNewton, "Vas/(ρc²·Sd²)", 1000),
            Row(nameof(data.RmsKilogramsPerSecond), "Mechanical resistance", "Rms", "kg/s", sheet.RmsKilogramsPerSecond, filled.RmsKilogramsPerSecond, "2π·fs·Mms/Qms"),
            Row(nameof(data.BlTeslaMeters), "Force factor", "Bl", "T·m", sheet.BlTeslaMeters, filled.BlTeslaMeters, "√(2π·fs·Mms·Re/Qes)"),
            Row(nameof(data.XmaxMillimeters), "Linear excursion one way", "Xmax", "mm", sheet.XmaxMeters, null, "from the maker or a measurement", 1000),
            Row(nameof(data.SensitivityDecibels), "Sensitivity at 2.83 V and 1 m", "SPL", "dB", sheet.SensitivityDecibels, filled.SensitivityDecibels, "η0 with 8 V²/Re, in half-space", check: worked.SensitivityDecibels, told: "Sensitivity"),
            Row("", "Reference efficiency", "η0", "%", null, completed.Parameters?.ReferenceEfficiency(Air.Standard), "4π²·fs³·Vas/(c³·Qes)", 100),
        ];
    }

    // A rating is a voltage squared over the nominal impedance (IEC 60268-5); what the coil bears is counted in its resistance, which is lower.
    private static double? RatedIntoResistance(double? watts, LoudspeakerData data, CoilUse use, double re) =>
        watts * (use == CoilUse.OneCoil ? 1.0 / SignalPorts.Coils(data) : 1) * Math.Max(1, (SignalMapping.LoadOhms(data, use) ?? re) / re);

    /// <summary>The driver with its coils joined as on the job. Bl, Re and Le of all coils side by side: Bl, Re, Le; in a row n times Bl, n² times the others; one alone n times Re and Le.</summary>
    internal static DriverSheet Joined(DriverParameters stated, LoudspeakerData data, CoilUse use)
    {
        var coils = SignalPorts.Coils(data);
        // First as if all were side by side.
        var (ohms, motor) = data.CoilsStated == CoilsStated.CoilsInSeries ? (1.0 / (coils * coils), 1.0 / coils) : (1, 1);
        (ohms, motor) = use switch
        {
            CoilUse.AllInSeries => (ohms * coils * coils, motor * coils),
            CoilUse.OneCoil => (ohms * coils, motor),
            _ => (ohms, motor),
        };
        var re = stated.ReOhms * ohms;
        return new DriverSheet
        {
            ReOhms = re,
            LeHenries = stated.LeHenries * ohms,
            LossHenries = stated.LossHenries > 0 ? stated.LossHenries * ohms : null,
            LossOhms = stated.LossHenries > 0 ? stated.LossOhms * ohms : null,
            BlTeslaMeters = stated.BlTeslaMeters * motor,
            MmsKilograms = stated.MmsKilograms,
            CmsMetersPerNewton = stated.CmsMetersPerNewton,
            RmsKilogramsPerSecond = stated.RmsKilogramsPerSecond,
            PistonSquareMeters = stated.PistonSquareMeters,
            XmaxMeters = stated.XmaxMeters,
            RatedWatts = RatedIntoResistance(stated.RatedWatts, data, use, re),
        };
    }
}
