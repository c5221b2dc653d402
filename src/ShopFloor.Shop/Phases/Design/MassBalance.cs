using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Mass;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Where a missing fact is entered.</summary>
public enum FactPlace
{
    Vehicle,
    Part,
    Scales,
}

/// <summary>A fact the balance would need.</summary>
/// <param name="Name">What is missing, and what cannot be said without it.</param>
/// <param name="PartId">The part it is entered on, for <see cref="FactPlace.Part"/>.</param>
public sealed record MissingFact(string Name, FactPlace Where, Guid? PartId = null);

/// <summary>Middle of what was put in and taken out together.</summary>
public sealed record AddedCenter(double RearwardMeters, double LeftMeters, double UpMeters);

/// <summary>What the placed masses do to axles, corners and the centre of mass.</summary>
/// <param name="Axles">Axles by moments, against their ratings and that of the vehicle; null without a wheelbase.</param>
/// <param name="BeforeIsWeighed">Whether the loads before come from the scales of this job, else from the vehicle.</param>
/// <param name="CornerChange">Change of each wheel; null without wheelbase and track.</param>
/// <param name="Corners">The scales before and after, reconciled with the masses; null before the car was weighed.</param>
/// <param name="WeighedAxles">Axles as weighed after the build, against their ratings; null before that.</param>
/// <param name="Center">Middle of the change; null while the sum is near nothing.</param>
/// <param name="UnplacedKilograms">Mass that is in the sum and on no axle, for want of a place.</param>
/// <param name="MeasuredShare">Share of the placed mass, put in and taken out alike, whose place was measured.</param>
/// <param name="Missing">Facts that are not there, each with where it is entered.</param>
/// <param name="Findings">Gravest first.</param>
public sealed record MassBalance(
    AxleLoadsResult? Axles,
    bool BeforeIsWeighed,
    CornerReadings? CornerChange,
    CornerLoadsResult? Corners,
    AxleLoadsResult? WeighedAxles,
    AddedCenter? Center,
    double UnplacedKilograms,
    double MeasuredShare,
    IReadOnlyList<MissingFact> Missing,
    IReadOnlyList<Finding> Findings)
{
    // Below this sum its middle lies anywhere: what is taken out cancels what is put in.
    private const double LeastForCenterKilograms = 0.5;

    internal static MassBalance Of(IReadOnlyList<PlacedPart> parts, Vehicle vehicle, CornerScalesForm? scales, UnitText text)
    {
        var measures = vehicle.Measures;
        PlacedMass[] masses = [.. parts.Select(part => part.Mass).OfType<PlacedMass>()];
        var (before, after) = (scales?.Before, scales?.After);
        AxleLoadsInput Input(double? front, double? rear, double? gross, PlacedMass[] of) => new()
        {
            WheelbaseMeters = measures.WheelbaseMeters ?? 0, // asked for only with one
            TrackMeters = measures.TrackMeters,
            FrontKilograms = front,
            RearKilograms = rear,
            FrontRatingKilograms = measures.FrontAxleRatingKilograms,
            RearRatingKilograms = measures.RearAxleRatingKilograms,
            GrossRatingKilograms = gross,
            Masses = of,
        };

        var gross = vehicle.GrossRatingKilograms is >= 300 and <= 40_000 ? vehicle.GrossRatingKilograms : null; // what the calculation takes
        var (axles, weighed, corners, change) = ((AxleLoadsResult?)null, (AxleLoadsResult?)null, (CornerLoadsResult?)null, (CornerReadings?)null);
        if (measures.WheelbaseMeters is { } wheelbase)
        {
            axles = AxleLoads.Compute(Input(before?.Front() ?? measures.FrontAxleKilograms, before?.Rear() ?? measures.RearAxleKilograms, gross, masses), text);
            weighed = after is null ? null : AxleLoads.Compute(Input(after.Front(), after.Rear(), gross, []), text);
            if (measures.TrackMeters is { } track)
            {
                change = CornerLoads.Change(masses, wheelbase, track);
                corners = before is null ? null : CornerLoads.Compute(
                    new CornerLoadsInput
                    {
                        WheelbaseMeters = wheelbase,
                        TrackMeters = track,
                        Before = before,
                        After = after,
                        Masses = masses,
                        ScaleShare = scales!.ErrorPercent / 100, // there are readings
                        ScaleStepKilograms = scales.StepKilograms,
                        OtherKilograms = scales.OtherKilograms,
                    },
                    text);
            }
        }

        var moved = masses.Sum(mass => Math.Abs(mass.Kilograms));
        return new MassBalance(
            axles,
            before is not null,
            change,
            corners,
            weighed,
            CenterOf(parts),
            parts.Where(part => part.Mass is null).Sum(part => part.Kilograms ?? 0),
            moved > 0 ? parts.Where(part => part is { Origin: PlaceOrigin.Measured, Mass: not null }).Sum(part => Math.Abs(part.Kilograms!.Value)) / moved : 0, // a mass is known
            MissingOf(parts, vehicle, before, after),
            // What was weighed goes before what was reckoned.
            [.. (weighed ?? axles)?.Findings ?? [], .. corners?.Findings ?? []]);
    }

    private static AddedCenter? CenterOf(IReadOnlyList<PlacedPart> parts)
    {
        var placed = parts.Where(part => part.Mass is not null).ToList();
        var sum = placed.Sum(part => part.Kilograms!.Value); // placed
        return Math.Abs(sum) < LeastForCenterKilograms
            ? null
            : new AddedCenter(
                placed.Sum(part => part.Kilograms!.Value * part.RearwardMeters!.Value) / sum,
                placed.Sum(part => part.Kilograms!.Value * part.LeftMeters!.Value) / sum,
                placed.Sum(part => part.Kilograms!.Value * (part.UpMeters ?? 0)) / sum);
    }

    private static List<MissingFact> MissingOf(IReadOnlyList<PlacedPart> parts, Vehicle vehicle, CornerReadings? before, CornerReadings? after)
    {
        var measures = vehicle.Measures;
        List<MissingFact> missing = [];
        void Ask(bool known, string name, FactPlace where = FactPlace.Vehicle)
        {
            if (!known)
            {
                missing.Add(new MissingFact(name, where));
            }
        }

        Ask(measures.WheelbaseMeters is not null, "Wheelbase: no axle load can be said without it");
        Ask(measures.TrackMeters is not null, "Track: no corner and no side can be said without it");
        Ask(before is not null || measures is { FrontAxleKilograms: not null, RearAxleKilograms: not null }, "Axle loads as it came, on scales or from its papers: only the change is known");
        Ask(measures is { FrontAxleRatingKilograms: not null, RearAxleRatingKilograms: not null }, "Axle ratings (GAWR) of the label");
        Ask(vehicle.GrossRatingKilograms is not null, "Gross vehicle weight rating (GVWR) of the label");
        Ask(vehicle.PayloadKilograms is not null, "Payload of the tyre and loading placard");
        Ask(before is null || after is not null, "Corner scales after the build", FactPlace.Scales);
        missing.AddRange(parts.Where(part => part.Kilograms is null).Select(part => new MissingFact($"{part.Name}: mass", FactPlace.Part, part.PartId)));
        missing.AddRange(parts.Where(part => part.Origin == PlaceOrigin.Unknown).Select(part => new MissingFact($"{part.Name}: place", FactPlace.Part, part.PartId)));
        missing.AddRange(parts.Where(part => part.MayBeAPair).Select(part => new MissingFact($"{part.Name}: all on one side? Measure the middle of the pair, or make two lines", FactPlace.Part, part.PartId)));
        return missing;
    }
}

internal static class CornerSums
{
    public static double Front(this CornerReadings readings) => readings.FrontLeft + readings.FrontRight;

    public static double Rear(this CornerReadings readings) => readings.RearLeft + readings.RearRight;
}
