using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Acoustics.Drivers;

/// <summary>What is doubtful in a measurement.</summary>
internal static class DriverMeasurementFindings
{
    private const string Practice = Unsourced.CommonPractice;

    private const string Small = "Small, JAES 20 (1972)";

    // Differences a careful sweep stays below.
    private const double PoorDecibels = 0.5;
    private const double PoorShare = 0.1;

    public static IReadOnlyList<Finding> Find(
        DriverMeasurementInput input, Seen seen, ImpedanceFitResult? free, ImpedanceFitResult? withMass, ImpedanceFitResult? onVolume, FittedValue? byMass, FittedValue? byVolume, UnitText text)
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

        if (seen.WithMass is { } heavy)
        {
            var shift = 1 - heavy.Value / seen.Free.Value;
            if (shift <= 0)
            {
                findings.About("added-mass", "Added mass", "mass-raises", Severity.Warn, $"With the mass it resonates at {text.With(heavy.Value, "Hz")}, not below the {text.With(seen.Free.Value, "Hz")} without; no mass follows from that.",
                    "Look whether the two were changed over.", Small);
            }
            else if (shift is < 0.15 or > 0.5)
            {
                findings.About("added-mass", "Added mass", "mass-shift", Severity.Warn, $"The mass lowers the resonance by {text.Percent(100 * shift)}; 15 to 50 % tell best.",
                    shift < 0.15 ? "Add more mass, or make sure it is fast on the cone." : "Take less mass.", Practice);
            }

            if (input.Piston is null && input.KnownVolume is null)
                findings.About("added-mass", "Added mass", "piston-missing", Severity.Note, "Moving mass and force factor follow, Vas does not: the piston area is not known.", "Measure the cone from the middle of the surround to the middle.", Small);
        }

        if (seen.OnVolume is { } boxed && boxed.Value < 1.15 * seen.Free.Value)
        {
            findings.About("known-volume", "Known volume", "volume-shift", Severity.Warn, $"The box raises the resonance only from {text.Number(seen.Free.Value)} to {text.Number(boxed.Value)} Hz.",
                "Take a smaller box and seal the driver on it.", Practice);
        }

        if (seen.OnVolume is not null && input.Piston is null)
            findings.About("known-volume", "Known volume", "piston-missing", Severity.Note, "Vas follows, moving mass and force factor do not: the piston area is not known.", "Measure the cone from the middle of the surround to the middle.", Small);

        if (byMass is not null && byVolume is not null && Math.Abs(byMass.Value - byVolume.Value) > PoorShare * Math.Max(byMass.Value, byVolume.Value))
        {
            findings.Add("vas-differs", Severity.Warn, $"Vas is {text.Number(1000 * byMass.Value)} l by the mass and {text.Number(1000 * byVolume.Value)} l by the volume.",
                "Check the piston diameter, the mass and leaks of the box.", Practice);
        }

        return findings.Sorted;
    }
}
