using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>Checks of what an alternator gives, for budget and plan alike.</summary>
internal static class AlternatorChecks
{
    public static void Speeds(InputChecks checks, string at, double pulleyRatio, double idleEngineRpm, double cruiseEngineRpm)
    {
        checks.InRange(at + nameof(AlternatorOutput.PulleyRatio), "Pulley ratio, alternator over engine speed", pulleyRatio, 1, 5);
        checks.InRange(at + nameof(AlternatorOutput.IdleEngineRpm), "Engine speed at idle in 1/min", idleEngineRpm, 300, 2000);
        checks.InRange(at + nameof(AlternatorOutput.CruiseEngineRpm), "Engine speed at cruise in 1/min", cruiseEngineRpm, 800, 8000);
    }

    /// <param name="leastRpm">Lowest accepted speed of the shaft, 1/min.</param>
    /// <param name="mostRpm">Highest accepted speed of the shaft, 1/min.</param>
    public static void Curve(InputChecks checks, string field, IReadOnlyList<AlternatorPoint> curve, double leastRpm, double mostRpm)
    {
        for (var i = 0; i < curve.Count; i++)
        {
            var at = $"{field}[{i}].";
            checks.InRange(at + nameof(AlternatorPoint.AlternatorRpm), $"Output curve, point {i + 1}, alternator speed in 1/min", curve[i].AlternatorRpm, leastRpm, mostRpm);
            checks.InRange(at + nameof(AlternatorPoint.Amperes), $"Output curve, point {i + 1}, output", curve[i].Amperes, 0, 1000, QuantityKind.Current);
            if (i > 0 && curve[i].AlternatorRpm <= curve[i - 1].AlternatorRpm)
                checks.Add(at + nameof(AlternatorPoint.AlternatorRpm), $"Output curve, point {i + 1}: its speed is not above the speed before it; enter the points in rising speed.");
        }
    }
}
