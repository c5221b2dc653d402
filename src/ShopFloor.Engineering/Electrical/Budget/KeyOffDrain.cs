using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>Sums what is drawn with the key off: days = Ah · share / (24 · I).</summary>
/// <remarks>At such currents no Peukert correction is made: a battery gives at least its 20-hour capacity. Self-discharge is not counted.</remarks>
public static class KeyOffDrain
{
    /// <summary>Identifier of the vehicle in <see cref="KeyOffDrainResult.Shares"/>.</summary>
    public const string VehicleId = "vehicle";

    /// <summary>Share of the capacity after which a car may not start at 25 °C, percent. Vehicle service practice.</summary>
    public const double DefaultNoStartPercent = 40;

    private const string NoStartSource = "vehicle service practice: about 40 % of the capacity gone means no start at 25 °C, sooner in the cold";

    /// <summary>Sums the draws and compares them with the limit.</summary>
    /// <param name="input">Draws, vehicle and battery.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException"><see cref="KeyOffDrainInput.Validate"/> finds a problem; the parameter name is the field.</exception>
    public static KeyOffDrainResult Compute(KeyOffDrainInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));

        var missing = input.Draws.Where(d => d.StandbyAmperes is null).ToList();
        var added = input.Draws.Sum(d => d.StandbyAmperes ?? 0);
        var known = added + (input.VehicleSleepAmperes ?? 0);
        var named = input.Draws.Where(d => d.StandbyAmperes is not null).Select(d => (d.Id, d.Name, Amperes: d.StandbyAmperes!.Value)); // filtered
        if (input.VehicleSleepAmperes is { } sleep)
            named = named.Append((VehicleId, "Vehicle", sleep));
        List<DrainShare> shares =
        [
            .. named.Select(d => new DrainShare(d.Id, d.Name, d.Amperes, known > 0 ? 100 * d.Amperes / known : 0))
                .OrderByDescending(d => d.Amperes).ThenBy(d => d.Id, StringComparer.Ordinal),
        ];
        var dominant = shares.FirstOrDefault(s => s.Amperes > 0);
        var (limit, limitOrigin) = input.MakersLimitAmperes is { } makers ? (makers, "the vehicle maker's limit, entered")
            : input.ReserveCapacityMinutes is { } minutes ? (ReserveCapacity.DrainLimitAmperes(minutes), ReserveCapacity.DrainSource)
            : ((double?)null, (string?)null);
        var (capacity, capacityOrigin) = input.BatteryAmpereHours is { } entered ? (entered, "entered")
            : input.ReserveCapacityMinutes is { } reserve ? (ReserveCapacity.SlowAmpereHours(reserve), ReserveCapacity.SlowSource)
            : ((double?)null, "");
        double? days = capacity is { } ampereHours && known > 0 ? ampereHours * input.NoStartPercent / 100 / (24 * known) : null;
        var complete = missing.Count == 0 && input.VehicleSleepAmperes is not null;
        var limits = new List<LimitCheck>();
        if (limit is { } allowed)
            limits.Add(new LimitCheck("Key-off current within the limit", known, allowed, "A", known <= allowed, limitOrigin ?? ""));
        if (days is { } reached && input.ParkedDays is { } wanted)
            limits.Add(new LimitCheck("Days parked within what the battery stands", wanted, reached, "d", wanted <= reached, NoStartSource));

        return new KeyOffDrainResult
        {
            KnownAmperes = known,
            AddedAmperes = added,
            IsComplete = complete,
            MissingDrawIds = [.. missing.Select(d => d.Id)],
            Shares = shares,
            Dominant = dominant,
            LimitAmperes = limit,
            LimitOrigin = limitOrigin,
            DaysToNoStart = days,
            Findings = Findings(input, missing, known, limit, limitOrigin, days, dominant, text),
            Explanation = Explain(input, known, added, capacity, capacityOrigin, days, complete, dominant, limits, text),
        };
    }

    private static List<Finding> Findings(
        KeyOffDrainInput input, List<StandbyDraw> missing, double known, double? limit, string? limitOrigin, double? days, DrainShare? dominant, UnitText text)
    {
        var findings = missing.Select(d => new Finding(
            "standby-current-missing", Severity.Warn, d.Id, d.Name, "Its current with the key off is not known, so it is not in the sum.",
            "Take it from the data sheet, or measure it once the part sleeps.", "needed for the key-off drain")).ToList();
        void Add(string code, Severity severity, string what, string remedy, string source) =>
            findings.Add(new Finding(code, severity, "key-off-drain", "Key-off drain", what, remedy, source));

        if (input.VehicleSleepAmperes is null)
        {
            Add("vehicle-sleep-missing", Severity.Warn, "The vehicle's own sleep current is not known, so it is not in the sum.",
                "Measure it before the build, with doors latched and the key away, after every module has gone to sleep (often half an hour or more).",
                Unsourced.CommonPractice);
        }

        var most = dominant is { } d ? $" Most of it is {d.Name} with {Milliamperes(d.Amperes, text)} ({text.Percent(d.SharePercent)})." : "";
        if (limit is { } allowed && known > allowed)
        {
            Add("key-off-drain-above-limit", Severity.Warn, $"{Milliamperes(known, text)} are drawn with the key off; the limit is {Milliamperes(allowed, text)}.{most}",
                "Feed the largest draws from a switched supply, or tell the client how many days the car may stand.", limitOrigin ?? "");
        }

        if (limit is null)
        {
            Add("key-off-limit-missing", Severity.Note, "There is no limit to compare with.", "Enter the vehicle maker's limit or the reserve capacity of the battery.", ReserveCapacity.DrainSource);
        }

        if (days is { } reached && input.ParkedDays is { } wanted && wanted > reached)
        {
            Add("parked-too-long", Severity.Warn, $"The car is to stand {text.With(wanted, "d")}; it may not start after {text.With(reached, "d")}.{most}",
                "Cut the drain, fit a battery maintainer, or agree on fewer days with the client.", NoStartSource);
        }

        return [.. findings.OrderByDescending(f => f.Severity)];
    }

    private static string Milliamperes(double amperes, UnitText text) => text.With(amperes * 1000, "mA");

    private static Explanation Explain(
        KeyOffDrainInput input, double known, double added, double? capacity, string capacityOrigin, double? days, bool complete,
        DrainShare? dominant, List<LimitCheck> limits, UnitText text)
    {
        var inputs = new List<ExplainedInput> { new("Added parts", added * 1000, "mA", "part data") };
        if (input.VehicleSleepAmperes is { } sleep)
            inputs.Add(new("Vehicle asleep", sleep * 1000, "mA", input.VehicleSleepOrigin == SleepCurrentOrigin.Measured ? "measured" : "the vehicle maker's figure"));
        if (capacity is { } ampereHours)
            inputs.Add(new("Battery capacity", ampereHours, "Ah", capacityOrigin));
        inputs.Add(new("Share gone before the car may not start", input.NoStartPercent, "%", ElectricalDefaults.Origin(input.NoStartPercent, DefaultNoStartPercent, NoStartSource)));

        var steps = new List<ExplainedStep>
        {
            new("Key-off current", "I = I_vehicle + Σ I_standby", $"{text.Number((known - added) * 1000)} + {text.Number(added * 1000)}", Milliamperes(known, text), "sum"),
        };
        if (capacity is { } full && days is { } reached)
        {
            steps.Add(new("Days until the car may not start", "d = C · share / (24 · I)",
                $"{text.Number(full)} · {text.Number(input.NoStartPercent / 100)} / (24 · {text.Number(known)})", text.With(reached, "d"), NoStartSource));
        }

        var answer = Milliamperes(known, text)
            + (days is { } d ? $", {(complete ? "" : "at most ")}{text.With(d, "days")} until the car may not start" : "")
            + (dominant is { } most ? $"; most of it {most.Name}" : "") + (complete ? "" : "; not complete");
        return new Explanation("What is drawn with the key off?", answer, inputs, steps, limits, limits.FirstOrDefault(l => !l.Passed)?.Name);
    }
}
