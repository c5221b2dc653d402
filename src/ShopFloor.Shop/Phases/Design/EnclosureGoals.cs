using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What a box of a job is to reach.</summary>
public enum EnclosureAim
{
    /// <summary>A closed box of a wanted total Q.</summary>
    Qtc,

    /// <summary>The smallest closed box 3 dB down at a frequency.</summary>
    Corner,

    /// <summary>Flattest in the cabin of this car, closed or vented as it is.</summary>
    FlatInCar,

    /// <summary>The largest box in which the cone keeps its linear excursion at the power it gets.</summary>
    WithinExcursion,
}

/// <param name="Reached">Whether the aim is reached within the room; else it is the nearest box.</param>
/// <param name="Box">The alternative with volume and tuning changed; null when it was refused.</param>
/// <param name="Words">What came of it, for people.</param>
public sealed record AimedBox(bool Reached, BoxAlternative? Box, string Words, Explanation? Explanation);

/// <summary>Finds the box for an aim, by the driver, the power and the car of the job.</summary>
public static class EnclosureGoals
{
    /// <param name="view">The enclosure as it stands.</param>
    /// <param name="index">Alternative to change.</param>
    /// <param name="target">Q or Hz; not used by the other aims.</param>
    /// <param name="mostCubicMeters">Room there is, m³.</param>
    public static AimedBox Find(EnclosureView view, int index, EnclosureAim aim, double target, double mostCubicMeters, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(text);
        var alternative = view.Alternatives[index];
        if (EnclosureStudies.SheetOf(view) is not { } sheet)
        {
            return new AimedBox(false, null, "The driver data are not complete.", null);
        }

        if (aim == EnclosureAim.FlatInCar && view.Cabin is null)
        {
            return new AimedBox(false, null, "The cabin was not measured: enter its longest size inside on the vehicle.", null);
        }

        if (aim == EnclosureAim.WithinExcursion && view.Power.Watts is null)
        {
            return new AimedBox(false, null, "The power for the box is not known.", null);
        }

        var box = alternative.Alternative;
        var vented = box.Kind == EnclosureKind.Vented;
        // The goal counts power into Re.
        var driver = view.Built.Result?.Driver ?? alternative.Result?.Driver;
        var watts = view.Power.Volts * view.Power.Volts / (driver?.ReOhms ?? sheet.ReOhms ?? 4);
        var input = new EnclosureGoalInput
        {
            Driver = sheet,
            Count = view.Form.Count,
            InSeries = view.Form.InSeries,
            Isobaric = view.Form.Isobaric,
            LeastCubicMeters = Math.Min(0.001, mostCubicMeters / 2),
            MostCubicMeters = mostCubicMeters,
            PortSquareMeters = box.PortSquareMeters,
            LeakQ = box.LeakQ ?? 7,
            // Without the low-pass: it ends the band from above and is no matter of the box.
            Filters = EnclosureStudies.Filters(box, alternative.HighPassHertz, null),
            Goal = aim switch
            {
                EnclosureAim.Qtc => new QtcGoal(target),
                EnclosureAim.Corner => new CornerGoal(target),
                EnclosureAim.FlatInCar => new FlatGoal(vented, view.Cabin ?? new CabinLift(0)),
                _ => new ExcursionGoal(watts, vented ? box.TuningHertz : null),
            },
        };
        var problems = input.Validate(text);
        if (problems.Count > 0)
        {
            return new AimedBox(false, null, string.Join(" ", problems.Select(problem => problem.Message)), null);
        }

        var found = EnclosureGoalSearch.Compute(input, text);
        var changed = box with { Kind = found.Box is VentedBox ? EnclosureKind.Vented : EnclosureKind.Closed, NetCubicMeters = found.Box.NetCubicMeters, TuningHertz = (found.Box as VentedBox)?.TuningHertz ?? box.TuningHertz };
        return new AimedBox(found.Reached, changed, found.Findings.Count > 0 ? found.Findings[0].Text : found.Explanation.Answer, found.Explanation);
    }

    /// <summary>A box to begin with: closed with a Q of 0.7, beside it the usual vented one, as far as the driver allows.</summary>
    public static EnclosureForm Begin(EnclosureDriver driver, EnclosureFacts facts, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(driver);
        var form = new EnclosureForm { LoudspeakerPartId = driver.PartId, Count = Math.Clamp(driver.Quantity, 1, 16) };
        var view = EnclosureStudies.Of(form, facts, Guid.Empty, "", text);
        if (view.Completed?.Parameters is not { } one)
        {
            return form;
        }

        var (vas, qts) = (form.Count * one.VasCubicMeters(Air.Standard), one.Qts);
        form.Alternatives[0].NetCubicMeters = Rounded(ClosedBoxTheory.VolumeFor(qts, vas, Math.Sqrt(0.5)) is { } closed && closed < 4 * vas ? closed : vas);
        if (qts is >= 0.1 and <= 0.6)
        {
            // Above the Q of the fourth-order Butterworth box no quasi-Butterworth one exists; then the fits of Margolis and Small, JAES 29 (1981), from memory.
            var (vasOverVolume, tuningOverResonance) = VentedAlignments.QuasiButterworth(qts, 7) is { } aligned
                ? (aligned.VasOverVolume, aligned.TuningOverResonance)
                : (1 / (15 * Math.Pow(qts, 2.87)), 0.42 * Math.Pow(qts, -0.9));
            // A port of an eighth of the cone or more: common practice, no source.
            var diameter = Math.Sqrt(form.Count * one.PistonSquareMeters / 8 * 4 / Math.PI);
            form.Alternatives.Add(new BoxAlternative
            {
                Kind = EnclosureKind.Vented,
                NetCubicMeters = Rounded(vas / vasOverVolume),
                TuningHertz = Math.Round(Math.Clamp(tuningOverResonance * one.ResonanceHertz, 10, 200)),
                PortDiameterMeters = Math.Round(Math.Clamp(diameter, 0.03, 0.3) * 200) / 200,
            });
        }

        return form;
    }

    private static double Rounded(double cubicMeters) => Math.Clamp(Math.Round(cubicMeters * 2000) / 2000, 0.0005, 2);
}
