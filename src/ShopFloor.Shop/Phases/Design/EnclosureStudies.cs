using System.Globalization;
using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Physics;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>An enclosure worked out, alternative by alternative.</summary>
public sealed record EnclosureView
{
    public required EnclosureForm Form { get; init; }

    /// <summary>Null while no loudspeaker is chosen, or when it is gone from the list.</summary>
    public required EnclosureDriver? Driver { get; init; }

    /// <summary>Null without a driver, or while a datum is refused.</summary>
    public required CompletedDriver? Completed { get; init; }

    public required EnclosurePower Power { get; init; }

    /// <summary>Corner of the cabin, Hz; null while nobody measured the cabin.</summary>
    public required double? CabinCornerHertz { get; init; }

    /// <summary>What the cabin adds, measured before estimated; null while neither is known.</summary>
    public required CabinLift? Cabin { get; init; }

    /// <summary>The table measured in the car that was chosen; null for none.</summary>
    public required CabinTransfer? Transfer { get; init; }

    public required IReadOnlyList<StudiedAlternative> Alternatives { get; init; }

    /// <summary>Those of the driver and of the alternative to be built, gravest first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    public StudiedAlternative Built => Alternatives[Math.Clamp(Form.Chosen, 0, Alternatives.Count - 1)];
}

/// <param name="Watts">Power for the box, W; null when it is not known.</param>
/// <param name="Volts">Voltage at its terminals, V rms; 2.83 while the power is not known.</param>
/// <param name="Origin">Where it comes from, in plain words.</param>
public sealed record EnclosurePower(double? Watts, double Volts, string Origin);

/// <param name="Letter">A, B or C.</param>
/// <param name="HighPassHertz">Corner of the high-pass it is worked out with; null for none.</param>
/// <param name="Result">Null while something is missing or refused.</param>
public sealed record StudiedAlternative(string Letter, BoxAlternative Alternative, double? HighPassHertz, EnclosureStudyResult? Result, IReadOnlyList<InputProblem> Problems)
{
    /// <summary>Corner of the low-pass it is worked out with, Hz; null for none.</summary>
    public double? LowPassHertz { get; init; }

    /// <summary>Whether its ports find room inside; null where that cannot be told.</summary>
    public PortRoom? Room { get; init; }
}

/// <summary>Maps an enclosure of a job to its calculation. Pure, so that a screen can ask while a handle is dragged.</summary>
public static class EnclosureStudies
{
    /// <summary>Points over the band: curves are smooth on paper, and a redraw stays short.</summary>
    public const int Points = 161;

    public const double FromHertz = 10;

    public const double ToHertz = 500;

    // Small, JAES 21 (1973), takes 7 as the usual loss of vented boxes.
    private const double UsualLeakQ = 7;

    // From memory; Small gives 100 and more for bare walls, 30 to 80 for lined ones, 3 to 10 for a box filled whole.
    private const double LinedQ = 50;
    private const double FilledQ = 8;

    // From memory: flared ends stay quiet at about half again the speed.
    private const double FlaredMetersPerSecond = 25;

    /// <param name="id">Id of the design; what findings are about.</param>
    /// <param name="name">Its name.</param>
    public static EnclosureView Of(EnclosureForm form, EnclosureFacts facts, Guid id, string name, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(form);
        ArgumentNullException.ThrowIfNull(facts);
        var subject = id.ToString();
        List<Finding> findings = [];
        var driver = facts.Find(form.LoudspeakerPartId);
        var completed = driver is null ? null : Complete(driver, findings, text);
        if (form.LoudspeakerPartId is not null && driver is null)
        {
            findings.Add(new Finding("enclosure-driver-gone", Severity.Warn, subject, name, "Its loudspeaker is no longer on the parts list.", "Choose another loudspeaker.", "the parts list"));
        }

        var coils = form.Coils ?? driver?.Coils ?? CoilUse.AllInParallel;
        var power = Power(form, driver, coils);
        if (driver is not null && power.Watts is null)
        {
            findings.Add(new Finding("enclosure-power-unknown", Severity.Note, subject, name, $"The power it gets is not known; it is shown at {text.Volts(power.Volts)}.", "Link the loudspeaker to an amplifier with a rating, or enter the power.", "needed for excursion and air speed"));
        }

        if (LoadDiffers(form, driver, coils) is { } joined && driver?.Drive is { } drive)
        {
            findings.Add(new Finding(
                "enclosure-load-differs", Severity.Warn, subject, name, $"As the loudspeakers of the box are joined here they are {text.With(joined, "Ω")}; {drive.Channel} is linked to {text.With(drive.Ohms, "Ω")}, and the box is worked out at that voltage.",
                "Link the loudspeakers as they are joined, or enter the power for the box.", "the links and the enclosure"));
        }

        var transfer = form.TransferFileId is { } file ? facts.Transfers.GetValueOrDefault(file) : null;
        if (transfer?.Problem is { } unread)
        {
            findings.Add(new Finding("enclosure-transfer-unread", Severity.Warn, subject, name, unread, "Take another file, or use the estimate.", "file of the job"));
        }

        double? corner = facts.CabinLengthMeters is { } length ? CabinGain.CornerHertz(Air.Standard, length) : null;
        var measured = transfer?.At(form.TransferZeroHertz);
        // The corner counts only without a measurement; 60 Hz stands where the cabin has no length.
        var cabin = measured is null && corner is null ? null : new CabinLift(corner ?? 60, form.CabinLeakHertz, measured);
        var sheet = completed?.Parameters is { } stated && driver is not null ? DriverData.Joined(stated, driver.Data, coils) : null;
        List<StudiedAlternative> studied =
        [
            .. form.Alternatives.Select((alternative, index) =>
            {
                var letter = EnclosureForm.Letter(index);
                var highPass = alternative.Tuned is { } set ? set.HighPassHertz : alternative.HighPassHertz ?? driver?.Data.HighPassHertz;
                var lowPass = alternative.Tuned is { } also ? also.LowPassHertz : alternative.LowPassHertz ?? driver?.Data.LowPassHertz;
                if (sheet is null || driver is null)
                {
                    return new StudiedAlternative(letter, alternative, highPass, null, []) { LowPassHertz = lowPass };
                }

                var input = InputOf(form, alternative, driver, sheet, power, Filters(alternative, highPass, lowPass), cabin) with { Id = subject, Name = form.Alternatives.Count > 1 ? $"{name} {letter}" : name };
                var problems = input.Validate(text);
                var result = problems.Count > 0 ? null : EnclosureStudy.Compute(input, text);
                return new StudiedAlternative(letter, alternative, highPass, result, problems) { LowPassHertz = lowPass, Room = PortRoom.Of(form, alternative, result?.PortMeters, text) };
            }),
        ];
        var built = studied[Math.Clamp(form.Chosen, 0, studied.Count - 1)];
        findings.AddRange(built.Result?.Findings ?? []);
        findings.AddRange(built.Problems.Select(problem => new Finding("enclosure-refused", Severity.Warn, $"{subject}:{problem.Field}", name, problem.Message, "Correct it; until then it is not computed.", "limits of the calculation")));
        if (built.Room is { Fits: false } room)
        {
            findings.Add(new Finding("enclosure-port-no-room", Severity.Warn, subject, name, room.Words, $"Make the port smaller or two of them, the tuning higher, or the {(built.Alternative.Kind == EnclosureKind.BandPass ? "front chamber" : "box")} longer; or bend it twice and measure the tuning.", room.Around ? "plane geometry of the box around the surface, with a bore of free air before the inner end" : "plane geometry of the sides inside, with a bore of free air before the inner end"));
        }
        else if (built.Room is { Around: true } roughly)
        {
            findings.Add(new Finding("enclosure-port-room-around", Severity.Note, subject, name, $"The port {roughly.Words}; where the shape narrows it may still meet a wall.", "Hold a pipe of its length into the box, or into its drawing, before it is cut.", "box around the surface of the file"));
        }


        if (driver is not null && built.HighPassHertz is { } kept && driver.Data.HighPassHertz is { } set && Math.Abs(kept - set) > 0.02 * kept)
        {
            findings.Add(new Finding("enclosure-high-pass-differs", Severity.Warn, subject, name, $"The box is worked out with a high-pass of {text.With(kept, "Hz")}; {text.With(set, "Hz")} is set on {driver.Name}.", "Set the same on both.", "the part and the enclosure"));
        }

        findings.AddRange(TunedFindings.Of(form, facts, built, subject, name));
        return new EnclosureView
        {
            Form = form,
            Driver = driver,
            Completed = completed,
            Power = power,
            CabinCornerHertz = corner,
            Cabin = cabin,
            Transfer = transfer,
            Alternatives = studied,
            Findings = [.. findings.OrderByDescending(finding => finding.Severity)],
        };
    }

    /// <summary>The driver with its coils joined as in the box; null while data are missing.</summary>
    public static DriverSheet? SheetOf(EnclosureView view)
    {
        ArgumentNullException.ThrowIfNull(view);
        return view is { Completed.Parameters: { } stated, Driver: { } driver } ? DriverData.Joined(stated, driver.Data, view.Form.Coils ?? driver.Coils ?? CoilUse.AllInParallel) : null;
    }

    /// <summary>Tuning of box and port or radiator, Hz; null for a closed box.</summary>
    public static double? TuningHertz(BoxAlternative alternative)
    {
        ArgumentNullException.ThrowIfNull(alternative);
        return alternative.HasPort ? alternative.TuningHertz
            : alternative.Kind == EnclosureKind.PassiveRadiator ? Math.Sqrt(RadiatorStiffness(alternative) / (alternative.RadiatorKilograms + alternative.RadiatorAddedKilograms)) / (2 * Math.PI)
            : null;
    }

    /// <summary>Tunes the box: a port by its length, a radiator by added mass, as far down as that goes.</summary>
    public static void Tune(BoxAlternative alternative, double hertz)
    {
        ArgumentNullException.ThrowIfNull(alternative);
        if (alternative.Kind == EnclosureKind.PassiveRadiator)
        {
            var omega = 2 * Math.PI * hertz;
            alternative.RadiatorAddedKilograms = Math.Clamp(RadiatorStiffness(alternative) / (omega * omega) - alternative.RadiatorKilograms, 0, 5);
        }
        else
        {
            alternative.TuningHertz = hertz;
        }
    }

    // Suspension of one radiator and its share of the air in the box, N/m.
    private static double RadiatorStiffness(BoxAlternative a)
    {
        var omega = 2 * Math.PI * a.RadiatorHertz;
        return omega * omega * a.RadiatorKilograms + Air.Standard.BulkModulusPascals * a.RadiatorSquareMeters * a.RadiatorSquareMeters * a.Radiators / a.NetCubicMeters;
    }

    /// <summary>Largest air speed in a port before it is heard, m/s.</summary>
    public static double PortLimit(BoxAlternative alternative) => alternative is { HasPort: true, PortFlared: true } ? FlaredMetersPerSecond : LevelLimits.DefaultPortMetersPerSecond;

    private static CompletedDriver? Complete(EnclosureDriver driver, List<Finding> findings, UnitText text)
    {
        var sheet = DriverData.Sheet(driver.Data);
        var problems = sheet.Validate(text);
        if (problems.Count > 0)
        {
            findings.AddRange(problems.Select(problem => new Finding("driver-data-refused", Severity.Warn, $"{driver.PartId}:{problem.Field}", driver.Name, problem.Message, "Correct it on the part.", "limits of the calculation")));
            return null;
        }

        var completed = DriverData.Complete(driver.Data, text)!; // no problems
        findings.AddRange(completed.Findings.Select(finding => finding with { SubjectId = $"{driver.PartId}:{finding.SubjectId}", Subject = $"{driver.Name}: {finding.Subject}" }));
        if (completed.Missing.Count > 0)
        {
            findings.Add(new Finding(
                "driver-data-missing", Severity.Warn, driver.PartId.ToString(), driver.Name, $"Not known and not to be worked out: {string.Join(", ", completed.Missing)}.", "Enter them on the part, from the data sheet or a measurement.", "needed for enclosures"));
        }

        return completed;
    }

    // Null where the channel's load is that of the box, or shared: as many alike channels as there are loudspeakers side by side.
    private static double? LoadDiffers(EnclosureForm form, EnclosureDriver? driver, CoilUse coils)
    {
        if (form.Watts is not null || driver?.Drive is not { } drive || SignalMapping.LoadOhms(driver.Data, coils) is not { } one)
        {
            return null;
        }

        var joined = form.InSeries ? one * form.Count : one / form.Count;
        var shared = form.InSeries ? joined : joined * drive.Channels;
        return Math.Abs(joined - drive.Ohms) <= 0.05 * drive.Ohms || Math.Abs(shared - drive.Ohms) <= 0.05 * drive.Ohms ? null : joined;
    }

    private static EnclosurePower Power(EnclosureForm form, EnclosureDriver? driver, CoilUse coils)
    {
        if (form.Watts is { } typed && driver is not null && SignalMapping.LoadOhms(driver.Data, coils) is { } ohms)
        {
            var load = form.InSeries ? ohms * form.Count : ohms / form.Count;
            return new EnclosurePower(typed, Math.Sqrt(typed * load), string.Create(CultureInfo.CurrentCulture, $"entered, into {load:0.##} Ω"));
        }

        return driver?.Drive is { } drive
            ? new EnclosurePower(drive.Watts, drive.Volts, string.Create(CultureInfo.CurrentCulture, $"{drive.Channel}, into {drive.Ohms:0.##} Ω"))
            : new EnclosurePower(null, 2.83, "not known");
    }

    private static EnclosureStudyInput InputOf(EnclosureForm form, BoxAlternative alternative, EnclosureDriver driver, DriverSheet sheet, EnclosurePower power, IReadOnlyList<FilterSection> filters, CabinLift? cabin) => new()
    {
        Id = "",
        Name = "",
        Simulation = new EnclosureInput
        {
            Driver = sheet,
            Count = form.Count,
            InSeries = form.InSeries,
            Isobaric = form.Isobaric,
            Box = BoxOf(alternative),
            Volts = power.Volts,
            AmplifierVolts = power.Watts is null ? null : power.Volts,
            PortMetersPerSecond = PortLimit(alternative),
            RadiatorMeters = alternative.Kind == EnclosureKind.PassiveRadiator ? alternative.RadiatorXmaxMeters : null,
            FromHertz = FromHertz,
            ToHertz = ToHertz,
            Points = Points,
        },
        Filters = filters,
        MechanicalMeters = driver.Data.MechanicalMillimeters / 1000,
        Cabin = cabin,
        Ports = alternative.HasPort ? alternative.Ports : 1,
        Ends = Ends(alternative),
    };

    /// <summary>How the ends of a port meet the air: the inner end of a plain pipe stands free, a flare or the walls of a slot are a flange.</summary>
    internal static (PortEnd Outer, PortEnd Inner) Ends(BoxAlternative box) => box.PortShape == PortShape.Round && !box.PortFlared ? (PortEnd.Flush, PortEnd.Free) : (PortEnd.Flush, PortEnd.Flush);

    /// <summary>The chain before the amplifier: high-pass, low-pass, then what was entered.</summary>
    /// <param name="lowPass">Null leaves the low-pass out.</param>
    internal static IReadOnlyList<FilterSection> Filters(BoxAlternative alternative, double? highPass, double? lowPass) => alternative.Tuned is { } tuned
        ? [.. tuned.HighPass, .. lowPass is null ? [] : tuned.LowPass, .. tuned.Others]
        :
    [
        .. highPass is { } high ? ButterworthHighPass.Sections(high, alternative.HighPassOrder) : [],
        .. lowPass is { } low ? ButterworthLowPass.Sections(low, alternative.LowPassOrder) : [],
        .. alternative.Filters.Select(row => row.Section),
    ];

    private static Enclosure BoxOf(BoxAlternative a)
    {
        double? absorption = a.Filling switch { BoxFilling.LinedWalls => LinedQ, BoxFilling.FilledWhole => FilledQ, _ => null };
        return a.Kind switch
        {
            EnclosureKind.Closed => new ClosedBox { NetCubicMeters = a.NetCubicMeters, LeakQ = a.LeakQ, AbsorptionQ = absorption },
            EnclosureKind.Vented => new VentedBox { NetCubicMeters = a.NetCubicMeters, LeakQ = a.LeakQ ?? UsualLeakQ, AbsorptionQ = absorption, TuningHertz = a.TuningHertz, PortSquareMeters = a.PortSquareMeters },
            EnclosureKind.BandPass => new BandPassBox { NetCubicMeters = a.NetCubicMeters, AbsorptionQ = absorption, FrontCubicMeters = a.FrontCubicMeters, FrontQ = a.LeakQ ?? UsualLeakQ, TuningHertz = a.TuningHertz, PortSquareMeters = a.PortSquareMeters },
            EnclosureKind.PassiveRadiator => Radiator(a, absorption),
            _ => throw new ArgumentOutOfRangeException(nameof(a), a.Kind, "Unknown kind of box."),
        };
    }

    // Alike side by side are one of as many times the area, mass and friction.
    private static RadiatorBox Radiator(BoxAlternative a, double? absorption)
    {
        var omega = 2 * Math.PI * a.RadiatorHertz;
        return new RadiatorBox
        {
            NetCubicMeters = a.NetCubicMeters,
            LeakQ = a.LeakQ ?? UsualLeakQ,
            AbsorptionQ = absorption,
            RadiatorKilograms = a.Radiators * (a.RadiatorKilograms + a.RadiatorAddedKilograms),
            RadiatorMetersPerNewton = 1 / (omega * omega * a.RadiatorKilograms * a.Radiators),
            RadiatorKilogramsPerSecond = a.Radiators * omega * a.RadiatorKilograms / a.RadiatorQms,
            RadiatorSquareMeters = a.Radiators * a.RadiatorSquareMeters,
        };
    }
}
