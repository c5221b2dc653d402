using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Acoustics.Drivers;

/// <summary>What is doubtful in a measurement.</summary>
internal static class DriverMeasurementFindings
{
    private const string Practice = Unsourced.CommonPractice;

    // Differences a careful sweep stays below.
    private const double PoorDecibels = 0.5;
    private const double PoorShare = 0.1;

    public static IReadOnlyList<Finding> Find(
        ImpedanceFitResult free, ImpedanceFitResult? withMass, ImpedanceFitResult? onVolume, FittedValue? byMass, FittedValue? byVolume, UnitText text)
    {
        var findings = new FindingList("driver", "Driver");
        foreach (var (fit, name, id) in new[] { (free, "Free air", "free-air"), (withMass, "Added mass", "added-mass"), (onVolume, "Known volume", "known-volume") })
        {
            if (fit is null)
                continue;
            if (!fit.Converged || fit.MagnitudeDecibels > PoorDecibels)
            {
                findings.About(id, name, "fit-poor", Severity.Warn, $"The curve and the model differ by {text.Number(fit.MagnitudeDecibels, 2)} dB.",
                    "Leave out high frequencies, measure at a lower voltage, and look for a buzz, a leak or something touching the cone.", Practice);
            }

            foreach (var (value, what) in new[] { (fit.ResonanceHertz, "resonance"), (fit.Qms, "mechanical Q"), (fit.Qes, "electrical Q") })
            {
                if (value.ShareError is not { } share || share > PoorShare)
                {
                    findings.About(id, name, $"fit-uncertain-{what.Replace(' ', '-')}", Severity.Warn,
                        value.ShareError is { } known ? $"The {what} is known to {text.Percent(100 * known)} only." : $"The sweep does not tell the {what}.",
                        "Measure more points around the peak.", "95 % interval of the fit");
                }
            }
        }

        if (withMass is not null)
        {
            var shift = 1 - withMass.ResonanceHertz.Value / free.ResonanceHertz.Value;
            if (shift is < 0.15 or > 0.5)
            {
                findings.About("added-mass", "Added mass", "mass-shift", Severity.Warn, $"The mass lowers the resonance by {text.Percent(100 * shift)}; 15 to 50 % tell best.",
                    shift < 0.15 ? "Add more mass, or make sure it is fast on the cone." : "Take less mass.", Practice);
            }
        }

        if (onVolume is not null && onVolume.ResonanceHertz.Value < 1.15 * free.ResonanceHertz.Value)
        {
            findings.About("known-volume", "Known volume", "volume-shift", Severity.Warn, $"The box raises the resonance only from {text.Number(free.ResonanceHertz.Value)} to {text.Number(onVolume.ResonanceHertz.Value)} Hz.",
                "Take a smaller box and seal the driver on it.", Practice);
        }

        if (byMass is not null && byVolume is not null && Math.Abs(byMass.Value - byVolume.Value) > PoorShare * Math.Max(byMass.Value, byVolume.Value))
        {
            findings.Add("vas-differs", Severity.Warn, $"Vas is {text.Number(1000 * byMass.Value)} L by the mass and {text.Number(1000 * byVolume.Value)} L by the volume.",
                "Check the piston diameter, the mass and leaks of the box.", Practice);
        }

        return findings.Sorted;
    }
}
