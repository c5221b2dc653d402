using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Tuning.Measurements;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What a cabin adds over free air, measured in the car: a table of frequency and level.</summary>
/// <param name="Response">Level over frequency, dB; null when the file cannot be read.</param>
/// <param name="Problem">Why it cannot, in words; null when it can.</param>
public sealed record CabinTransfer(string FileName, FrequencyResponse? Response, string? Problem)
{
    // A table of levels is small; a recording taken for one is not worth reading.
    private const int MostBytes = 4 * 1024 * 1024;

    /// <summary>The same table lying at 0 dB at a frequency.</summary>
    public FrequencyResponse? At(double? zeroHertz) => Response is { } known && zeroHertz is { } hertz
        ? known with { Decibels = [.. known.Decibels.Select(level => level - known.DecibelsAt(hertz))] }
        : Response;

    public static CabinTransfer Read(OpenedJobFile? file)
    {
        if (file is not { Kind: JobFileKind.MeasurementTable })
        {
            return new CabinTransfer("", null, "The file of the measurement is no longer there; choose another.");
        }

        var proposal = ResponseTable.Propose(file.Content, MostBytes);
        if (proposal.Layout is not { } layout)
        {
            return Refused(proposal.Problems);
        }

        var reading = ResponseTable.Read(file.Content, layout, MostBytes);
        return reading.Response is { } response ? new CabinTransfer(file.FileName, response, null) : Refused(reading.Problems);

        CabinTransfer Refused(IReadOnlyList<TableProblem> problems) => new(file.FileName, null, $"'{file.FileName}' cannot be read: {problems[0].Message}");
    }
}
