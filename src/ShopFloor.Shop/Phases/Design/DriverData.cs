using ShopFloor.Engineering.Acoustics.Drivers;
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
public sealed record DriverDatum(string Name, string Symbol, string Unit, double? Entered, double? Worked, DriverDatumState State, string Why);

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
        };
    }

    /// <summary>Every datum with what it is, what it ought to be, and why.</summary>
    public static IReadOnlyList<DriverDatum> Rows(LoudspeakerData data, CompletedDriver completed)
    {
        ArgumentNullException.ThrowIfNull(completed);
        var sheet = Sheet(data);
        var known = completed.Parameters;
        var contradicted = completed.Findings.Select(finding => finding.Subject).ToHashSet();
        DriverDatum Row(string name, string symbol, string unit, double? entered, double? worked, string why, double factor = 1, string? told = null) => new(
            name, symbol, unit, entered * factor, worked * factor,
            entered is null ? worked is null ? DriverDatumState.Missing : DriverDatumState.FilledIn
                : told is not null && contradicted.Contains(told) ? DriverDatumState.Contradicts
                : DriverDatumState.Entered,
            why);
        return
        [
            Row("Resonance in free air", "fs", "Hz", sheet.ResonanceHertz, known?.ResonanceHertz, "1/(2π·√(Mms·Cms))", told: "Resonance"),
            Row("Electrical Q", "Qes", "", sheet.Qes, known?.Qes, "2π·fs·Mms·Re/Bl²", told: "Electrical Q"),
            Row("Mechanical Q", "Qms", "", sheet.Qms, known?.Qms, "2π·fs·Mms/Rms", told: "Mechanical Q"),
            Row("Total Q", "Qts", "", sheet.Qts, known?.Qts, "Qes·Qms/(Qes + Qms)", told: "Qts"),
            Row("Compliance as a volume", "Vas", "l", sheet.VasCubicMeters, known?.VasCubicMeters(Air.Standard), "ρc²·Sd²·Cms", 1000, "Vas"),
            Row("Piston area", "Sd", "cm²", sheet.PistonSquareMeters, known?.PistonSquareMeters, "√(Vas/(ρc²·Cms))", 10_000),
            Row("DC resistance", "Re", "Ω", sheet.ReOhms, known?.ReOhms, "measured"),
            Row("Coil inductance", "Le", "mH", sheet.LeHenries, known is { LeHenries: > 0 } ? known.LeHenries : null, "measured; left out where it is not known", 1000),
            Row("Moving mass", "Mms", "g", sheet.MmsKilograms, known?.MmsKilograms, "1/((2π·fs)²·Cms)", 1000),
            Row("Compliance", "Cms", "mm/N", sheet.CmsMetersPerNewton, known?.CmsMetersPerNewton, "Vas/(ρc²·Sd²)", 1000),
            Row("Mechanical resistance", "Rms", "kg/s", sheet.RmsKilogramsPerSecond, known?.RmsKilogramsPerSecond, "2π·fs·Mms/Qms"),
            Row("Force factor", "Bl", "T·m", sheet.BlTeslaMeters, known?.BlTeslaMeters, "√(2π·fs·Mms·Re/Qes)"),
            Row("Linear excursion one way", "Xmax", "mm", sheet.XmaxMeters, null, "from the maker or a measurement", 1000),
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
        var (re, le, bl) = data.CoilsStated == CoilsStated.CoilsInSeries
            ? (stated.ReOhms / (coils * coils), stated.LeHenries / (coils * coils), stated.BlTeslaMeters / coils)
            : (stated.ReOhms, stated.LeHenries, stated.BlTeslaMeters);
        (re, le, bl) = use switch
        {
            CoilUse.AllInSeries => (re * coils * coils, le * coils * coils, bl * coils),
            CoilUse.OneCoil => (re * coils, le * coils, bl),
            _ => (re, le, bl),
        };
        return new DriverSheet
        {
            ReOhms = re,
            LeHenries = le,
            BlTeslaMeters = bl,
            MmsKilograms = stated.MmsKilograms,
            CmsMetersPerNewton = stated.CmsMetersPerNewton,
            RmsKilogramsPerSecond = stated.RmsKilogramsPerSecond,
            PistonSquareMeters = stated.PistonSquareMeters,
            XmaxMeters = stated.XmaxMeters,
            RatedWatts = RatedIntoResistance(stated.RatedWatts, data, use, re),
        };
    }
}
