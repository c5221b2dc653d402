using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>How warm a compartment gets from the heat in it: one well-mixed body of air with walls and an airflow.</summary>
/// <remarks>
/// Steady rise ΔT = Q/(Σ U·A + ρ·c_p·V̇); in time ΔT(t) = ΔT·(1 − e^(−t/τ)) with τ = C/(Σ U·A + ρ·c_p·V̇). Density of the air by the ideal
/// gas law at sea level and ambient temperature, c_p = 1006 J/(kg·K) (dry air, handbook value). Sun on the panels is not counted.
/// </remarks>
public static class CompartmentHeat
{
    /// <summary>Rise of the air to be held when nothing is entered, K. Common practice, no source.</summary>
    public const double DefaultAllowedRiseKelvin = 15;

    /// <summary>Air speed in vents when nothing is entered, m/s: quiet with a small fan. Common practice, no source.</summary>
    public const double DefaultFaceVelocity = 1.5;

    /// <summary>How much warmer than the air an amplifier's case gets on music, K. From memory; measure it.</summary>
    public const double DefaultCaseRiseKelvin = 20;

    /// <summary>Specific heat of dry air, J/(kg·K).</summary>
    public const double AirJoulesPerKilogramKelvin = 1006;

    /// <summary>ft³/min in one m³/s.</summary>
    public const double CubicFeetPerMinutePerCubicMeterPerSecond =
        60 / (ExactFactors.MetersPerFoot * ExactFactors.MetersPerFoot * ExactFactors.MetersPerFoot);

    private const string AirSource = "heat carried by air: Q = ρ · c_p · V̇ · ΔT";
    private const int CoursePoints = 40;

    /// <summary>Density of dry air at sea level, kg/m³: p/(R·T), p = 101 325 Pa, R = 287.05 J/(kg·K).</summary>
    /// <param name="celsius">Temperature, °C.</param>
    public static double AirKilogramsPerCubicMeter(double celsius) => 101_325 / (287.05 * (celsius + 273.15));

    /// <summary>Airflow that carries a heat away at a rise, m³/s: Q/(ρ·c_p·ΔT).</summary>
    /// <param name="watts">Heat, W.</param>
    /// <param name="riseKelvin">Rise, K, above 0.</param>
    /// <param name="inletCelsius">Temperature of the air entering, °C.</param>
    /// <exception cref="ArgumentOutOfRangeException">The rise is not above 0.</exception>
    public static double AirflowCubicMetersPerSecond(double watts, double riseKelvin, double inletCelsius)
    {
        if (!(riseKelvin > 0))
            throw new ArgumentOutOfRangeException(nameof(riseKelvin), riseKelvin, "Enter a rise above 0 K.");
        return watts / (AirKilogramsPerCubicMeter(inletCelsius) * AirJoulesPerKilogramKelvin * riseKelvin);
    }

    /// <summary>Computes warmth, time and air.</summary>
    /// <param name="input">Compartment, sources and air.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="CompartmentHeatInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static CompartmentHeatResult Compute(CompartmentHeatInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));

        var walls = input.Walls.Sum(w => w.AreaSquareMeters * w.WattsPerSquareMeterKelvin);
        var air = AirKilogramsPerCubicMeter(input.AmbientCelsius) * AirJoulesPerKilogramKelvin * input.AirflowCubicMetersPerSecond;
        var conductance = walls + air;
        var tau = input.HeatCapacityJoulesPerKelvin / conductance / 60;

        HeatLevel At(Func<HeatSource, double?> heat)
        {
            var watts = input.Sources.Sum(s => heat(s) ?? 0);
            var rise = watts / conductance;
            var left = Math.Max(0, watts - walls * input.AllowedRiseKelvin);
            double? minutes = rise > input.AllowedRiseKelvin ? -tau * Math.Log(1 - input.AllowedRiseKelvin / rise) : null;
            return new HeatLevel(watts, rise, input.AmbientCelsius + rise, AirflowCubicMetersPerSecond(left, input.AllowedRiseKelvin, input.AmbientCelsius), minutes);
        }

        var music = At(s => s.MusicWatts);
        var needed = music.NeededAirflowCubicMetersPerSecond;
        var missing = input.Sources.Where(s => s.MusicWatts is null).ToList();
        var limits = new List<LimitCheck>
        {
            new("Rise of the air on music", music.SteadyRiseKelvin, input.AllowedRiseKelvin, "K", music.SteadyRiseKelvin <= input.AllowedRiseKelvin, "entered, or common practice"),
        };
        limits.AddRange(
            from source in input.Sources
            where source.ProtectionCelsius is not null
            let celsius = music.SteadyCelsius + source.CaseRiseKelvin
            select new LimitCheck($"{source.Name}: case below its protection temperature", celsius, source.ProtectionCelsius!.Value, "°C", // filtered
                celsius < source.ProtectionCelsius, "part data; case above air from memory unless entered"));

        return new CompartmentHeatResult
        {
            Idle = At(s => s.IdleWatts),
            Music = music,
            Full = At(s => s.FullWatts),
            WattsPerKelvin = conductance,
            TimeConstantMinutes = tau,
            NeededCubicMetersPerHour = needed * 3600,
            NeededCubicFeetPerMinute = needed * CubicFeetPerMinutePerCubicMeterPerSecond,
            FreeVentAreaSquareMeters = needed / input.FaceVelocityMetersPerSecond,
            Course = [.. Enumerable.Range(0, CoursePoints + 1).Select(i => 5 * tau * i / CoursePoints)
                .Select(t => new RisePoint(t, music.SteadyRiseKelvin * (1 - Math.Exp(-t / tau))))],
            MissingSourceIds = [.. missing.Select(s => s.Id)],
            Findings = Findings(input, missing, music, needed, text),
            Explanation = Explain(input, walls, air, tau, music, needed, missing.Count, limits, text),
        };
    }

    private static List<Finding> Findings(CompartmentHeatInput input, List<HeatSource> missing, HeatLevel music, double needed, UnitText text)
    {
        var findings = missing.Select(s => new Finding(
            "heat-missing", Severity.Warn, s.Id, s.Name, "Its heat on music is not known, so it is not in the sum.", "Enter the data of the part.", "needed for the heat")).ToList();
        void Add(string code, Severity severity, string id, string name, string what, string remedy, string source) =>
            findings.Add(new Finding(code, severity, id, name, what, remedy, source));

        if (music.SteadyRiseKelvin > input.AllowedRiseKelvin)
        {
            var after = music.MinutesToAllowedRise is { } minutes ? $", after {text.With(minutes, "min")}" : "";
            Add("compartment-too-warm", Severity.Warn, input.Id, input.Name,
                $"On music the air rises {text.With(music.SteadyRiseKelvin, "K")} above ambient; {text.With(input.AllowedRiseKelvin, "K")} were to be held{after}.",
                $"Move {text.With(needed * 3600, "m³/h")} ({text.With(needed * CubicFeetPerMinutePerCubicMeterPerSecond, "ft³/min")}) through it, inlet low and outlet high, each with {text.With(needed / input.FaceVelocityMetersPerSecond * 1e4, "cm²")} free area.",
                AirSource);
        }

        foreach (var source in input.Sources)
        {
            var celsius = music.SteadyCelsius + source.CaseRiseKelvin;
            if (source.ProtectionCelsius is not { } protection)
            {
                Add("protection-temperature-missing", Severity.Note, source.Id, source.Name, "The temperature at which it protects itself is not known.",
                    "Take it from the data sheet.", "needed for the check");
            }
            else if (celsius >= protection)
            {
                Add("amplifier-protection-reached", Severity.Warn, source.Id, source.Name,
                    $"On music its case gets to about {text.Celsius(celsius)}; it protects itself at {text.Celsius(protection)} and goes quiet.",
                    "Give it more air, a cooler place or less load.", "part data; case above air from memory unless entered");
            }
        }

        if (input.Covered)
        {
            Add("covered-heat", Severity.Warn, input.Id, input.Name,
                "It is under a false floor or behind a shut panel: things laid on it close the vents, and carpet and foam next to a hot case can scorch.",
                "Keep the vents where nothing can cover them, keep the clearance the amplifier's maker asks for, keep flammable lining away from the case, and try it warm for an hour before delivery.",
                Unsourced.CommonPractice);
        }

        return [.. findings.OrderByDescending(f => f.Severity)];
    }

    private static Explanation Explain(
        CompartmentHeatInput input, double walls, double air, double tau, HeatLevel music, double needed, int missing, List<LimitCheck> limits, UnitText text)
    {
        var inputs = new List<ExplainedInput>
        {
            new("Heat on music", music.HeatWatts, "W", "part data"),
            new("Ambient", input.AmbientCelsius, "°C", ElectricalDefaults.Origin(input.AmbientCelsius, ElectricalDefaults.AmbientCelsius, $"closed car in the sun, {Unsourced.CommonPractice}")),
            new("Airflow", input.AirflowCubicMetersPerSecond * 3600, "m³/h", "entered"),
            new("Heat stored", input.HeatCapacityJoulesPerKelvin, "J/K", "entered"),
            new("Rise to be held", input.AllowedRiseKelvin, "K", ElectricalDefaults.Origin(input.AllowedRiseKelvin, DefaultAllowedRiseKelvin, Unsourced.CommonPractice)),
            new("Air speed in the vents", input.FaceVelocityMetersPerSecond, "m/s", ElectricalDefaults.Origin(input.FaceVelocityMetersPerSecond, DefaultFaceVelocity, Unsourced.CommonPractice)),
        };
        inputs.AddRange(input.Walls.Select(w => new ExplainedInput($"{w.Name}, {text.With(w.AreaSquareMeters, "m²")}", w.WattsPerSquareMeterKelvin, "W/(m²·K)", w.Origin)));
        var steps = new List<ExplainedStep>
        {
            new("Rise of the air after a long time", "ΔT = Q / (Σ U · A + ρ · c_p · V̇)", $"{text.Number(music.HeatWatts)} / ({text.Number(walls)} + {text.Number(air)})",
                text.With(music.SteadyRiseKelvin, "K"), "steady heat balance of one body of air"),
            new("Time constant", "τ = C / (Σ U · A + ρ · c_p · V̇)", $"{text.Number(input.HeatCapacityJoulesPerKelvin)} / {text.Number(walls + air)}", text.With(tau, "min"), "first-order heating"),
            new("Airflow to hold the rise", "V̇ = (Q / ΔT − Σ U · A) / (ρ · c_p), not below 0",
                $"({text.Number(music.HeatWatts)} / {text.Number(input.AllowedRiseKelvin)} − {text.Number(walls)}) / ({text.Number(AirKilogramsPerCubicMeter(input.AmbientCelsius))} · {text.Number(AirJoulesPerKilogramKelvin, 4)})",
                $"{text.With(needed * 3600, "m³/h")} ({text.With(needed * CubicFeetPerMinutePerCubicMeterPerSecond, "ft³/min")})", AirSource),
            new("Free area of each vent", "A = V̇ / v", $"{text.Number(needed, 4)} / {text.Number(input.FaceVelocityMetersPerSecond)}",
                text.With(needed / input.FaceVelocityMetersPerSecond * 1e4, "cm²"), "continuity"),
        };
        return new Explanation($"{input.Name}: how warm does it get?",
            $"{text.With(music.SteadyRiseKelvin, "K")} above ambient on music ({text.Celsius(music.SteadyCelsius)})"
            + (needed > 0 ? $"; needs {text.With(needed * 3600, "m³/h")}" : "; the walls suffice") + (missing > 0 ? $"; not complete: {missing} without a heat" : ""),
            inputs, steps, limits, limits.FirstOrDefault(l => !l.Passed)?.Name);
    }
}
