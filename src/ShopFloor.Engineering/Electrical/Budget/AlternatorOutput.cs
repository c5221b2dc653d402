namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>What an alternator gives when hot, over its speed: the one answer budget, plan and network take.</summary>
public sealed record AlternatorOutput
{
    /// <summary>Hot output over the speed of the alternator's shaft, speeds rising, at least one point; read by <see cref="AlternatorPoint.OutputAmperes"/>.</summary>
    public required IReadOnlyList<AlternatorPoint> HotCurve { get; init; }

    /// <summary>Shaft speed over engine speed (1 to 5).</summary>
    public double PulleyRatio { get; init; } = AlternatorBudgetInput.DefaultPulleyRatio;

    /// <summary>Engine speed at idle, 1/min (300 to 2000).</summary>
    public double IdleEngineRpm { get; init; } = AlternatorBudgetInput.DefaultIdleRpm;

    /// <summary>Engine speed at cruise, 1/min (800 to 8000).</summary>
    public double CruiseEngineRpm { get; init; } = AlternatorBudgetInput.DefaultCruiseRpm;

    /// <summary>Where it comes from.</summary>
    public required string Origin { get; init; }

    /// <summary>Output at an engine speed, A.</summary>
    /// <param name="engineRpm">Engine speed, 1/min.</param>
    public double AmperesAt(double engineRpm) => AlternatorPoint.OutputAmperes(HotCurve, engineRpm * PulleyRatio);

    /// <summary>The output by the first that is known: a curve, the stamped rating, the rated current with default shares.</summary>
    /// <param name="input">Charging system and speeds, checked.</param>
    internal static AlternatorOutput Of(AlternatorBudgetInput input)
    {
        var rating = AlternatorRating.Parse(input.StampedRating);
        var points = input.Curve.Count > 0 ? input.Curve : rating?.Points;
        var hot = input.Curve.Count > 0 && input.CurveIsHot ? 1 : input.HotFraction;
        return new AlternatorOutput
        {
            HotCurve = points is not null
                ? [.. points.Select(point => point with { Amperes = hot * point.Amperes })]
                : Shares(input, input.RatedAmperes!.Value), // validated: the rating is there when no curve and no stamp is
            PulleyRatio = input.PulleyRatio,
            IdleEngineRpm = input.IdleEngineRpm,
            CruiseEngineRpm = input.CruiseEngineRpm,
            Origin = input.Curve.Count > 0 ? "output curve entered"
                : rating is not null ? "stamped rating (SAE J56, ISO 8854; its speeds from memory)"
                : $"default shares of the rating: {ElectricalDefaults.FromMemory}",
        };
    }

    // The shares hold at the two speeds the car is judged at, so these are the points.
    private static IReadOnlyList<AlternatorPoint> Shares(AlternatorBudgetInput input, double rated)
    {
        AlternatorPoint idle = new(input.IdleEngineRpm * input.PulleyRatio, ElectricalDefaults.AlternatorIdleFraction * rated);
        AlternatorPoint cruise = new(input.CruiseEngineRpm * input.PulleyRatio, ElectricalDefaults.AlternatorHotFraction * rated);
        return idle.AlternatorRpm < cruise.AlternatorRpm ? [idle, cruise] : [idle];
    }
}
