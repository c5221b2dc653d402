using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Acoustics.Drivers;

/// <summary>Completes a data sheet and says where it contradicts itself.</summary>
/// <remarks>Relations of Thiele (JAES 19, 1971) and Small (JAES 20, 1972). Elements given are kept before those worked out.</remarks>
public static class DriverCompletion
{
    /// <summary>Difference of a stated and a worked-out value that is still rounding on a data sheet, share of the value. Common practice, no source.</summary>
    public const double Tolerance = 0.05;

    /// <summary>The same for a sensitivity, dB: sheets average it over bands where the coil and the cone's own modes have their say. Common practice, no source.</summary>
    public const double SensitivityTolerance = 3;

    private const string Relations = "relations of Thiele (1971) and Small (1972)";

    /// <summary>The driver as lumped elements.</summary>
    /// <param name="sheet">What is known.</param>
    /// <param name="air">The air.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="DriverSheet.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static CompletedDriver Complete(DriverSheet sheet, Air air, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(air);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(sheet.Validate(text));
        var known = new Known(sheet, air);
        known.FillIn();
        var findings = new List<Finding>();
        foreach (var (name, stated, worked) in known.Pairs())
        {
            if (stated is { } s && worked is { } w && Math.Abs(s - w) > Tolerance * Math.Abs(s))
            {
                findings.Add(new Finding(
                    "driver-data-contradict", Severity.Warn, name, name, $"The sheet says {text.Number(s, 4)}; the other data give {text.Number(w, 4)}, {text.Percent(100 * Math.Abs(w / s - 1))} {(w > s ? "more" : "less")}.",
                    "Measure the driver, or trust the value that was measured.", Relations));
            }
        }

        if (sheet.SensitivityDecibels is { } said && known.Sensitivity is { } follows && Math.Abs(said - follows) > SensitivityTolerance)
        {
            findings.Add(new Finding(
                "driver-sensitivity-contradicts", Severity.Note, "Sensitivity", "Sensitivity",
                $"The sheet says {text.With(said, "dB")} at 2.83 V; the other data give {text.With(follows, "dB")}, {text.With(Math.Abs(follows - said), "dB", 2)} {(follows > said ? "more" : "less")}.",
                "Look whether it is stated at 1 W or for other coils; else measure the driver.", "4π²·fs³·Vas/(c³·Qes), Small (1972)"));
        }

        return new CompletedDriver(known.Parameters, known.Missing, findings) { Filled = known.Filled, Worked = known.Worked };
    }

    // One pass after another until nothing new is found: every relation is one line.
    private sealed class Known(DriverSheet sheet, Air air)
    {
        private double? _fs = sheet.ResonanceHertz;
        private double? _qes = sheet.Qes;
        private double? _qms = sheet.Qms;
        private double? _qts = sheet.Qts;
        private double? _cms = sheet.CmsMetersPerNewton;
        private double? _mms = sheet.MmsKilograms;
        private double? _rms = sheet.RmsKilogramsPerSecond;
        private double? _bl = sheet.BlTeslaMeters;
        private double? _sd = sheet.PistonSquareMeters;
        private double? _vas = sheet.VasCubicMeters;

        public void FillIn()
        {
            var before = -1;
            while (Count() != before)
            {
                before = Count();
                // A total Q that equals one of its parts leaves nothing for the other: it stays unknown.
                _qes ??= 1 / (1 / _qts - 1 / _qms) is { } qes and > 0 and < double.PositiveInfinity ? qes : null;
                _qms ??= 1 / (1 / _qts - 1 / _qes) is { } qms and > 0 and < double.PositiveInfinity ? qms : null;
                _qts ??= 1 / (1 / _qes + 1 / _qms);
                _cms ??= _vas / (air.BulkModulusPascals * _sd * _sd);
                _vas ??= air.BulkModulusPascals * _sd * _sd * _cms;
                _sd ??= _vas / (air.BulkModulusPascals * _cms) is { } area ? Math.Sqrt(area) : null;
                _mms ??= 1 / (Omega * Omega * _cms);
                _cms ??= 1 / (Omega * Omega * _mms);
                _fs ??= _mms * _cms is { } product ? 1 / (2 * Math.PI * Math.Sqrt(product)) : null;
                _rms ??= Omega * _mms / _qms;
                _qms ??= Omega * _mms / _rms;
                _bl ??= Omega * _mms * sheet.ReOhms / _qes is { } square ? Math.Sqrt(square) : null;
                _qes ??= Omega * _mms * sheet.ReOhms / (_bl * _bl);
            }
        }

        public DriverParameters? Parameters => (sheet.ReOhms, _bl, _mms, _cms, _rms, _sd) is ({ } re, { } bl, { } mms, { } cms, { } rms, { } sd)
            ? new DriverParameters(re, sheet.LeHenries ?? 0, bl, mms, cms, rms, sd) { XmaxMeters = sheet.XmaxMeters, RatedWatts = sheet.RatedWatts, LossHenries = sheet.LossHenries ?? 0, LossOhms = sheet.LossOhms ?? 0 }
            : null;

        // What is stated stays as it is.
        public DriverSheet Filled => sheet with
        {
            ResonanceHertz = _fs, Qes = _qes, Qms = _qms, Qts = _qts, CmsMetersPerNewton = _cms, MmsKilograms = _mms, RmsKilogramsPerSecond = _rms, BlTeslaMeters = _bl,
            PistonSquareMeters = _sd, VasCubicMeters = _vas, SensitivityDecibels = sheet.SensitivityDecibels ?? Sensitivity,
        };

        // Each of what can be told twice, by the others.
        public DriverSheet Worked => new()
        {
            Qts = 1 / (1 / _qes + 1 / _qms),
            ResonanceHertz = _mms * _cms is { } product ? 1 / (2 * Math.PI * Math.Sqrt(product)) : null,
            VasCubicMeters = air.BulkModulusPascals * _sd * _sd * _cms,
            Qes = Omega * _mms * sheet.ReOhms / (_bl * _bl),
            Qms = Omega * _mms / _rms,
            SensitivityDecibels = Sensitivity,
        };

        public double? Sensitivity => Parameters?.SensitivityDecibels(air, sheet.SensitivityReOhms);

        public IReadOnlyList<string> Missing => Parameters is not null ? [] : [.. new (string Name, double? Value)[]
        {
            ("DC resistance", sheet.ReOhms), ("resonance", _fs), ("piston area", _sd), ("Vas or moving mass", _cms ?? _mms), ("electrical Q or force factor", _qes ?? _bl), ("mechanical Q", _qms ?? _rms),
        }.Where(pair => pair.Value is null).Select(pair => pair.Name)];

        public IEnumerable<(string Name, double? Stated, double? Worked)> Pairs()
        {
            var worked = Worked;
            yield return ("Qts", sheet.Qts, worked.Qts);
            yield return ("Resonance", sheet.ResonanceHertz, worked.ResonanceHertz);
            yield return ("Vas", sheet.VasCubicMeters, worked.VasCubicMeters);
            yield return ("Electrical Q", sheet.Qes, worked.Qes);
            yield return ("Mechanical Q", sheet.Qms, worked.Qms);
        }

        private double? Omega => 2 * Math.PI * _fs;

        private int Count() => new[] { _fs, _qes, _qms, _qts, _cms, _mms, _rms, _bl, _sd, _vas }.Count(value => value is not null);
    }
}

/// <summary>A driver completed.</summary>
/// <param name="Parameters">Its elements; null while something is missing.</param>
/// <param name="Missing">What is missing, in plain words.</param>
/// <param name="Findings">Where the sheet contradicts itself.</param>
public sealed record CompletedDriver(DriverParameters? Parameters, IReadOnlyList<string> Missing, IReadOnlyList<Finding> Findings)
{
    /// <summary>The sheet with what follows from the rest filled in; what was stated stays.</summary>
    public required DriverSheet Filled { get; init; }

    /// <summary>Resonance, Qes, Qms, Qts, Vas and sensitivity as the other data give them, to hold against what is stated; null where they do not.</summary>
    public required DriverSheet Worked { get; init; }
}
