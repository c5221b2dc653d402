using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>Compares what the alternator gives, hot, at idle and at cruise, with the vehicle and the added loads on music.</summary>
public static class AlternatorBudget
{
    /// <summary>Share of the charge put in that a lead-acid battery gives back. From memory.</summary>
    public const double ChargeEfficiency = 0.85;

    private const string Subject = "Alternator";
    private const string SubjectId = "alternator";

    /// <summary>Computes the balance at idle and at cruise.</summary>
    /// <param name="input">Charging system, speeds and loads.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="AlternatorBudgetInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static AlternatorBudgetResult Compute(AlternatorBudgetInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));

        var output = AlternatorOutput.Of(input);
        var origin = output.Origin;
        var byShares = input.Curve.Count == 0 && input.StampedRating is null;
        double? hot = byShares ? null : input.Curve.Count > 0 && input.CurveIsHot ? 1 : input.HotFraction;
        var vehicle = input.VehicleBaseAmperes ?? ElectricalDefaults.VehicleBaseAmperes;
        var vehicleOrigin = input.VehicleBaseAmperes is null ? $"default: {ElectricalDefaults.FromMemory}" : "entered";
        var added = input.Loads.Sum(l => l.MusicAmperes ?? 0);
        var missing = input.Loads.Where(l => l.MusicAmperes is null).ToList();

        AlternatorBalance At(double engineRpm)
        {
            var rpm = engineRpm * input.PulleyRatio;
            var available = output.AmperesAt(engineRpm);
            var surplus = available - vehicle - added;
            var drift = input.BatteryAmpereHours is { } capacity ? 100 * surplus * (surplus > 0 ? ChargeEfficiency : 1) / capacity : (double?)null;
            return new AlternatorBalance(engineRpm, rpm, available, vehicle + added, surplus, drift);
        }

        var idle = At(input.IdleEngineRpm);
        var cruise = At(input.CruiseEngineRpm);
        var limits = new List<LimitCheck>
        {
            new("Demand within the alternator's output at engine idle", idle.DemandAmperes, idle.AvailableAmperes, "A", idle.SurplusAmperes >= 0, origin),
            new("Demand within the alternator's output at cruise", cruise.DemandAmperes, cruise.AvailableAmperes, "A", cruise.SurplusAmperes >= 0, origin),
        };
        return new AlternatorBudgetResult
        {
            Idle = idle,
            Cruise = cruise,
            VehicleBaseAmperes = vehicle,
            VehicleBaseOrigin = vehicleOrigin,
            AddedMusicAmperes = added,
            Output = output,
            OutputOrigin = origin,
            MissingLoadIds = [.. missing.Select(l => l.Id)],
            Findings = Findings(missing, idle, cruise, byShares, text),
            Explanation = Explain(input, idle, cruise, vehicle, vehicleOrigin, added, missing.Count, origin, hot, limits, text),
        };
    }

    private static List<Finding> Findings(List<MusicLoad> missing, AlternatorBalance idle, AlternatorBalance cruise, bool byDefault, UnitText text)
    {
        var findings = missing.Select(l => new Finding(
            "music-current-missing", Severity.Warn, l.Id, l.Name, "Its current on music is not known, so it is not in the balance.",
            "Enter the data of the part, or measure it.", "needed for the balance")).ToList();
        void Add(string code, Severity severity, string what, string remedy, string source) =>
            findings.Add(new Finding(code, severity, SubjectId, Subject, what, remedy, source));

        string Drift(AlternatorBalance at) => at.DriftPercentPerHour is { } drift
            ? $" The battery loses {text.Percent(-drift)} of its capacity an hour." : "";
        if (cruise.SurplusAmperes < 0)
        {
            Add("alternator-deficit-cruise", Severity.Warn,
                $"At cruise {text.Amperes(cruise.DemandAmperes)} are drawn and {text.Amperes(cruise.AvailableAmperes)} available: the battery never recovers while music plays."
                + Drift(cruise), "Fit a larger alternator, take load out or play lower. A second battery or a capacitor only delays it.", "balance of currents");
        }

        if (idle.SurplusAmperes < 0)
        {
            Add("alternator-deficit-idle", cruise.SurplusAmperes < 0 ? Severity.Warn : Severity.Note,
                $"At engine idle {text.Amperes(idle.DemandAmperes)} are drawn and {text.Amperes(idle.AvailableAmperes)} available; the battery makes up {text.Amperes(-idle.SurplusAmperes)}."
                + Drift(idle), "Tell the client, or fit an alternator that gives more at low speed.", "balance of currents");
        }

        if (byDefault)
        {
            Add("alternator-output-assumed", Severity.Note, "The output at idle and at cruise is a guess from the rated current.",
                "Read the rating stamped on the alternator, or take its output curve.", ElectricalDefaults.FromMemory);
        }

        return [.. findings.OrderByDescending(f => f.Severity)];
    }

    private static Explanation Explain(
        AlternatorBudgetInput input, AlternatorBalance idle, AlternatorBalance cruise, double vehicle, string vehicleOrigin, double added, int missing,
        string origin, double? hot, List<LimitCheck> limits, UnitText text)
    {
        string Balance(AlternatorBalance at) => at.SurplusAmperes >= 0
            ? $"{text.Amperes(at.SurplusAmperes)} to spare" : $"{text.Amperes(-at.SurplusAmperes)} short";
        string Standard(double value, double standard) => ElectricalDefaults.Origin(value, standard, ElectricalDefaults.FromMemory);
        var inputs = new List<ExplainedInput>
        {
            new("Vehicle itself", vehicle, "A", vehicleOrigin),
            new("Added equipment on music", added, "A", "part data"),
        };
        var steps = new List<ExplainedStep>();
        if (hot is { } share)
        {
            inputs.Add(new("Pulley ratio", input.PulleyRatio, "", Standard(input.PulleyRatio, AlternatorBudgetInput.DefaultPulleyRatio)));
            inputs.Add(new("Engine speed at idle", input.IdleEngineRpm, "1/min", Standard(input.IdleEngineRpm, AlternatorBudgetInput.DefaultIdleRpm)));
            inputs.Add(new("Engine speed at cruise", input.CruiseEngineRpm, "1/min", Standard(input.CruiseEngineRpm, AlternatorBudgetInput.DefaultCruiseRpm)));
            inputs.Add(new("Hot output over cold output", share, "", share == 1 ? "curve measured hot" : Standard(share, ElectricalDefaults.AlternatorHotFraction)));
        }
        else if (input.RatedAmperes is { } rated)
        {
            inputs.Add(new("Rated output", rated, "A", "entered"));
        }

        foreach (var (name, at) in new[] { ("engine idle", idle), ("cruise", cruise) })
        {
            steps.Add(new($"Hot output at {name}", hot is null ? "I = share · I_rated" : "I = k_hot · I(n_engine · ratio), straight lines between points",
                hot is null ? $"rated {text.Amperes(input.RatedAmperes ?? 0)}" : $"{text.Number(hot.Value)} · I({text.Number(at.AlternatorRpm, 4)} 1/min)",
                text.Amperes(at.AvailableAmperes), origin));
            steps.Add(new($"Balance at {name}", "ΔI = I − I_vehicle − I_added",
                $"{text.Number(at.AvailableAmperes)} − {text.Number(vehicle)} − {text.Number(added)}", text.Amperes(at.SurplusAmperes), "balance of currents"));
            if (input.BatteryAmpereHours is { } capacity && at.DriftPercentPerHour is { } drift)
            {
                steps.Add(new($"State of charge at {name}", "100 · ΔI / C, times 0.85 when charging",
                    $"100 · {text.Number(at.SurplusAmperes)} / {text.Number(capacity)}", $"{text.Percent(drift)} per hour",
                    "definition of capacity; charge efficiency from memory; a rise is an upper bound"));
            }
        }

        return new Explanation("Does the alternator carry the music?",
            $"Engine idle: {Balance(idle)}; cruise: {Balance(cruise)}" + (missing > 0 ? $"; not complete: {missing} without a current" : ""),
            inputs, steps, limits, limits.FirstOrDefault(l => !l.Passed)?.Name);
    }
}
