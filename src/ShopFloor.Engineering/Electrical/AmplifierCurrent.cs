using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical;

/// <summary>Supply current and heat of an amplifier by its class and level.</summary>
/// <remarks>
/// At rated output I = P/(η·V) + I_idle for every class. Below it, with f the fraction of rated power:
/// class D keeps its efficiency, so the signal current goes with f; class AB follows the ideal class B law η(f) = (π/4)·√f,
/// normalised here to the full-power efficiency of the amplifier, so the signal current goes with √f; class A draws the same at every
/// level; class G/H is given the √f law of class AB from its own full-power efficiency, which is on the safe side because stepped rails
/// only lower the current below that. A constant efficiency in class AB would understate the current at one eighth power by √8 = 2.83.
/// </remarks>
public static class AmplifierCurrent
{
    private const string ClassBLaw = "class B theory: efficiency (π/4)·√f of a sine at fraction f of clipping power";

    /// <summary>Average power of music that peaks where a full sine peaks, as a fraction of the sine's power: 10^(−(CF − 3.01)/10).</summary>
    /// <param name="crestFactorDecibels">Peak to RMS ratio, dB; a sine has 3.01.</param>
    /// <returns>0 to 1.</returns>
    public static double PowerFraction(double crestFactorDecibels) =>
        Math.Min(1, Math.Pow(10, -(crestFactorDecibels - 10 * Math.Log10(2)) / 10));

    /// <summary>Computes current and heat at rated output, on music and at idle.</summary>
    /// <param name="input">Data of the amplifier.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// <see cref="AmplifierCurrentInput.Validate"/> finds a problem; the parameter name is the field.
    /// </exception>
    public static AmplifierCurrentResult Compute(AmplifierCurrentInput input, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        text ??= UnitText.Invariant;
        InputChecks.ThrowIfAny(input.Validate(text));

        var efficiency = input.FullPowerEfficiency ?? ElectricalDefaults.Efficiency(input.Class);
        var efficiencyOrigin = input.FullPowerEfficiency is null ? ElectricalDefaults.EfficiencyOrigin(input.Class) : "entered";
        var constantDraw = input.Class == AmplifierClass.A;
        var signalAmperes = input.RatedOutputWatts / (efficiency * input.SupplyVolts);
        // A class A stage has no idle state of its own: it draws its full current all the time.
        var idleAmperes = constantDraw ? 0 : input.IdleAmperes ?? ElectricalDefaults.IdleAmperes;
        var idleOrigin = constantDraw ? "class A draws the same at every level"
            : input.IdleAmperes is null ? $"default: {Unsourced.CommonPractice}" : "entered";

        AmplifierLevel At(double fraction)
        {
            var amperes = signalAmperes * CurrentFraction(input.Class, fraction) + idleAmperes;
            var output = input.RatedOutputWatts * fraction;
            var supply = amperes * input.SupplyVolts;
            return new AmplifierLevel(output, amperes, supply, supply > 0 ? output / supply : 0, supply - output);
        }

        var musicFraction = PowerFraction(input.CrestFactorDecibels);
        var rated = At(1);
        var music = At(musicFraction);
        return new AmplifierCurrentResult
        {
            Rated = rated,
            Music = music,
            Idle = At(0),
            MusicPowerFraction = musicFraction,
            FullPowerEfficiency = efficiency,
            EfficiencyOrigin = efficiencyOrigin,
            IdleOrigin = idleOrigin,
            Findings = Findings(input, efficiency, text),
            Explanation = Explain(input, efficiency, efficiencyOrigin, idleAmperes, idleOrigin, rated, music, musicFraction, text),
        };
    }

    /// <summary>Signal current at a fraction of rated power, as a fraction of the signal current at rated power.</summary>
    private static double CurrentFraction(AmplifierClass amplifierClass, double powerFraction) => amplifierClass switch
    {
        AmplifierClass.A => 1,
        AmplifierClass.AB or AmplifierClass.GH => Math.Sqrt(powerFraction),
        AmplifierClass.D => powerFraction,
        _ => throw new ArgumentOutOfRangeException(nameof(amplifierClass)),
    };

    private static List<Finding> Findings(AmplifierCurrentInput input, double efficiency, UnitText text)
    {
        // Class A 50 % is the transformer- or choke-loaded limit; class B π/4.
        double? ceiling = input.Class switch { AmplifierClass.A => 0.5, AmplifierClass.AB => Math.PI / 4, _ => null };
        if (ceiling is not { } limit || efficiency <= limit)
            return [];
        return
        [
            new Finding(
                "efficiency-above-theory", Severity.Warn, input.Name, input.Name,
                $"An efficiency of {text.Percent(efficiency * 100)} is above what a class {input.Class} stage can reach ({text.Percent(limit * 100)}).",
                "Check the class and the efficiency on the data sheet.", "textbook limits of class A and class B stages"),
        ];
    }

    private static Explanation Explain(
        AmplifierCurrentInput input, double efficiency, string efficiencyOrigin, double idleAmperes, string idleOrigin,
        AmplifierLevel rated, AmplifierLevel music, double fraction, UnitText text)
    {
        var (law, lawSource) = input.Class switch
        {
            AmplifierClass.A => ("I = P / (η · V), at every level", "class A theory"),
            AmplifierClass.D => ("I = f · P / (η · V) + I_idle", "constant efficiency plus idle current; " + Unsourced.CommonPractice),
            AmplifierClass.AB => ("I = √f · P / (η · V) + I_idle", ClassBLaw),
            _ => ("I = √f · P / (η · V) + I_idle", $"{ClassBLaw}; on the safe side for stepped rails"),
        };
        var n = text;
        var idleDraw = input.Class == AmplifierClass.A ? rated.CurrentAmperes : idleAmperes;
        return new Explanation(
            $"{input.Name}: how much current?",
            $"{n.Amperes(rated.CurrentAmperes)} at rated output, {n.Amperes(music.CurrentAmperes)} on music, {n.Amperes(idleDraw)} at idle",
            [
                new ExplainedInput("Rated output power", input.RatedOutputWatts, "W", "entered"),
                new ExplainedInput("Supply voltage", input.SupplyVolts, "V",
                    ElectricalDefaults.Origin(input.SupplyVolts, ElectricalDefaults.SupplyVolts, Unsourced.CommonPractice)),
                new ExplainedInput("Efficiency at rated output", efficiency, "", efficiencyOrigin),
                new ExplainedInput("Idle current", idleDraw, "A", idleOrigin),
                new ExplainedInput("Crest factor of the music", input.CrestFactorDecibels, "dB",
                    ElectricalDefaults.Origin(input.CrestFactorDecibels, ElectricalDefaults.CrestFactorDecibels, "typical music, one-eighth power (16 CFR 432.3, EN 60065)")),
            ],
            [
                new ExplainedStep(
                    "Current at rated output", "I = P / (η · V) + I_idle",
                    $"{n.Number(input.RatedOutputWatts)} / ({n.Number(efficiency)} · {n.Number(input.SupplyVolts)}) + {n.Number(idleAmperes)}",
                    n.Amperes(rated.CurrentAmperes), "energy balance"),
                new ExplainedStep(
                    "Music power as a fraction of rated power", "f = 10^(−(CF − 3.01) / 10)",
                    $"10^(−({n.Number(input.CrestFactorDecibels)} − 3.01) / 10)", n.Number(fraction), "definition of crest factor; a sine has 3.01 dB"),
                new ExplainedStep(
                    "Current on music", law, $"f = {n.Number(fraction)}", n.Amperes(music.CurrentAmperes), lawSource),
                new ExplainedStep(
                    "Heat in the amplifier on music", "Q = V · I − f · P",
                    $"{n.Number(music.SupplyWatts)} − {n.Number(music.OutputWatts)}", n.Watts(music.HeatWatts), "energy balance"),
            ],
            [],
            null);
    }
}
