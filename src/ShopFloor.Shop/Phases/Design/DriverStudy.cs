using System.Globalization;
using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>A sweep's points with the fit of them; null where only a resonance was given.</summary>
public sealed record StudiedSweep(string FileName, IReadOnlyList<ImpedancePoint> Points, ImpedanceFitResult Fit);

/// <summary>A measurement of a driver worked out, beside what its part says now.</summary>
public sealed record DriverStudy
{
    public required DriverMeasurementForm Form { get; init; }

    /// <summary>Why nothing is worked out; empty otherwise.</summary>
    public IReadOnlyList<Problem> Problems { get; init; } = [];

    /// <summary>Null while there are problems.</summary>
    public DriverMeasurementResult? Result { get; init; }

    public StudiedSweep? FreeAir { get; init; }

    public StudiedSweep? Again { get; init; }

    /// <summary>What keeping it would write to the part, in the part's units.</summary>
    public IReadOnlyList<MeasuredChange> Changes { get; init; } = [];

    /// <summary>The part's data with that written.</summary>
    public LoudspeakerData? Data { get; init; }

    /// <summary>Of the measurement, and of the part's data with it.</summary>
    public IReadOnlyList<Finding> Findings { get; init; } = [];

    /// <summary>Works a measurement out. Pure, so that a screen can ask at every change.</summary>
    /// <param name="files">Sweeps that were brought, by file.</param>
    /// <param name="words">By whom and when, as it is written beside the figures.</param>
    internal static DriverStudy Of(DriverMeasurementForm form, LoudspeakerData data, IReadOnlyDictionary<Guid, OpenedJobFile> files, string words, UnitText text)
    {
        var problems = form.Problems();
        var (free, freeName) = Points(form.FreeAir, nameof(form.FreeAir), files, problems);
        var again = form.Second == SecondSweep.None ? null : form.Again;
        var (second, secondName) = Points(again, nameof(form.Again), files, problems);
        if (problems.Count > 0)
        {
            return new DriverStudy { Form = form, Problems = problems };
        }

        var input = InputOf(form, data, free, second);
        var refused = input.Validate(text);
        if (refused.Count > 0)
        {
            return new DriverStudy { Form = form, Problems = [.. refused.Select(problem => new Problem(FieldOf(problem.Field), problem.Message))] };
        }

        var result = DriverMeasurement.Compute(input, text);
        var changes = Figures(form, data, result);
        var written = Written(data, changes, words);
        return new DriverStudy
        {
            Form = form,
            Problems = [.. written.Problems()],
            Result = result,
            FreeAir = result.FreeAir is { } fit ? new StudiedSweep(freeName, free, fit) : null,
            Again = (result.WithMass ?? result.OnVolume) is { } other ? new StudiedSweep(secondName, second, other) : null,
            Changes = changes,
            Data = written,
            Findings = [.. result.Findings.Concat(DriverData.Complete(written, text)?.Findings ?? []).OrderByDescending(finding => finding.Severity)],
        };
    }

    /// <summary>A copy of the data with figures written, and with them as what was measured.</summary>
    internal static LoudspeakerData Written(LoudspeakerData data, IReadOnlyList<MeasuredChange> changes, string words)
    {
        var copy = (LoudspeakerData)data.Copy(); // of a loudspeaker
        foreach (var change in changes)
        {
            Set(copy, change.Field, change.After);
        }

        copy.Measured ??= [];
        foreach (var change in changes)
        {
            copy.Measured.Remove(change.Field);
            if (change.After is { } value)
            {
                copy.Measured[change.Field] = new MeasuredFigure(value, words);
            }
        }

        return copy;
    }

    internal static double? Get(LoudspeakerData data, string field) => (double?)Field(field)?.Get(data);

    internal static void Set(LoudspeakerData data, string field, double? value) => Field(field)?.Set(data, value);

    private static PartField? Field(string name) => PartKinds.Of(PartKind.Loudspeaker).Fields.FirstOrDefault(field => field.Name == name);

    private static (IReadOnlyList<ImpedancePoint> Points, string FileName) Points(SweepFile? sweep, string field, IReadOnlyDictionary<Guid, OpenedJobFile> files, List<Problem> problems)
    {
        if (sweep is null)
        {
            return ([], "");
        }

        if (!files.TryGetValue(sweep.FileId, out var file))
        {
            problems.Add(new Problem(field, "The file of this sweep is not on this job; choose another."));
            return ([], "");
        }

        if (sweep.Layout.Validate() is { Count: > 0 } wrong)
        {
            problems.Add(new Problem(field, wrong[0].Message));
            return ([], file.FileName);
        }

        var reading = ImpedanceFile.Read(file.Content, sweep.Layout);
        problems.AddRange(reading.Problems.Take(3).Select(problem => new Problem(field, $"'{file.FileName}': {problem.Message}")));
        return (reading.Points, file.FileName);
    }

    // What the part says already is not asked for again.
    private static DriverMeasurementInput InputOf(DriverMeasurementForm form, LoudspeakerData data, IReadOnlyList<ImpedancePoint> free, IReadOnlyList<ImpedancePoint> second)
    {
        var table = second.Count > 0 ? ImpedanceTable.Write(second) : null;
        var resonance = table is null ? form.AgainHertz : null;
        return new DriverMeasurementInput
        {
            FreeAir = free.Count > 0 ? ImpedanceTable.Write(free) : null,
            ResonanceHertz = free.Count > 0 ? null : form.ResonanceHertz,
            Qes = free.Count > 0 ? null : data.Qes,
            Qms = free.Count > 0 ? null : data.Qms,
            ReOhms = form.ReOhms ?? (free.Count > 0 ? null : data.ReOhms / ToStated(form, data)),
            PistonSquareMeters = form.PistonMillimeters is null ? data.PistonSquareCentimeters / 10_000 : null,
            PistonDiameterMeters = form.PistonMillimeters / 1000,
            AddedMass = form is { Second: SecondSweep.AddedMass, AddedGrams: { } grams } ? new AddedMassSweep(grams / 1000, table, resonance) : null,
            KnownVolume = form is { Second: SecondSweep.KnownBox, BoxLitres: { } litres } ? new KnownVolumeSweep(litres / 1000, table, resonance) : null,
            ToHertz = form.UsedToHertz,
            AirCelsius = form.AirCelsius,
        };
    }

    // From ohms of the coils as they were joined while measured to ohms as the part states them: n² apart; force factors are n apart.
    private static double ToStated(DriverMeasurementForm form, LoudspeakerData data)
    {
        var coils = SignalPorts.Coils(data);
        return form.Coils == data.CoilsStated ? 1 : form.Coils == CoilsStated.CoilsInSeries ? 1.0 / (coils * coils) : coils * coils;
    }

    private static List<MeasuredChange> Figures(DriverMeasurementForm form, LoudspeakerData data, DriverMeasurementResult result)
    {
        List<MeasuredChange> changes = [];
        void Write(string field, double? value, double factor = 1)
        {
            if (value is { } found && double.IsFinite(found))
            {
                changes.Add(new MeasuredChange(field, Get(data, field), Digits(found * factor)));
            }
        }

        var (sheet, stated) = (result.Sheet, ToStated(form, data));
        Write(nameof(data.ResonanceHertz), sheet.ResonanceHertz);
        if (result.FreeAir is not null || form.ReOhms is not null)
        {
            Write(nameof(data.ReOhms), sheet.ReOhms, stated);
        }

        if (result.FreeAir is { } fit)
        {
            Write(nameof(data.Qes), sheet.Qes);
            Write(nameof(data.Qms), sheet.Qms);
            Write(nameof(data.Qts), sheet.Qts);
            Write(nameof(data.LeMillihenries), sheet.LeHenries, 1000 * stated);
            if (sheet.LossHenries is not null || data.LossMillihenries is not null)
            {
                changes.Add(new MeasuredChange(nameof(data.LossMillihenries), data.LossMillihenries, sheet.LossHenries is { } second ? Digits(second * 1000 * stated) : null));
                changes.Add(new MeasuredChange(nameof(data.LossOhms), data.LossOhms, sheet.LossOhms is { } across ? Digits(across * stated) : null));
            }

            // The curve is that of all coils as they were joined, the part states one coil.
            var coils = SignalPorts.Coils(data);
            Write(nameof(data.MinimumOhms), fit.LeastOhms * (form.Coils == CoilsStated.CoilsInSeries ? 1.0 / coils : coils));
        }

        if (form.Second != SecondSweep.None)
        {
            Write(nameof(data.VasLitres), sheet.VasCubicMeters, 1000);
            Write(nameof(data.MmsGrams), sheet.MmsKilograms, 1000);
            Write(nameof(data.CmsMillimetersPerNewton), sheet.CmsMetersPerNewton, 1000);
            Write(nameof(data.RmsKilogramsPerSecond), sheet.RmsKilogramsPerSecond);
            Write(nameof(data.BlTeslaMeters), sheet.BlTeslaMeters, Math.Sqrt(stated));
        }

        if (form.PistonMillimeters is not null || data.PistonSquareCentimeters is null)
        {
            Write(nameof(data.PistonSquareCentimeters), sheet.PistonSquareMeters, 10_000);
        }

        return changes;
    }

    private static string FieldOf(string field) => field switch
    {
        "AddedMass.Table" or "KnownVolume.Table" => nameof(DriverMeasurementForm.Again),
        "AddedMass.ResonanceHertz" or "KnownVolume.ResonanceHertz" => nameof(DriverMeasurementForm.AgainHertz),
        "AddedMass.Kilograms" => nameof(DriverMeasurementForm.AddedGrams),
        "KnownVolume.CubicMeters" => nameof(DriverMeasurementForm.BoxLitres),
        "ToHertz" => nameof(DriverMeasurementForm.UsedToHertz),
        "PistonSquareMeters" or "PistonDiameterMeters" => nameof(DriverMeasurementForm.PistonMillimeters),
        _ => field,
    };

    // Four digits: more than a measurement tells, and what a form shows.
    private static double Digits(double value) => double.Parse(value.ToString("G4", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
}
