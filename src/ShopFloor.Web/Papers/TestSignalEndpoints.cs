using System.Globalization;
using ShopFloor.Engineering.Signal.TestSignals;
using ShopFloor.Engineering.Tuning.Measurements;
using ShopFloor.Engineering.Waves;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Web.Papers;

/// <summary>Test signals as files to play, made when they are asked for.</summary>
public static class TestSignalEndpoints
{
    private const int Rate = 48_000;
    private const int Bits = 16;
    private const double LeastHertz = 10;
    private const double MostHertz = 20_000;
    private const double LeastDecibels = -60;

    // Pink noise needs room for its peaks.
    private const double MostNoiseDecibels = -12;

    // What the cabin rings after the sweep belongs to the recording.
    private const double SilenceSeconds = 1;

    public static void MapTestSignals(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/documents/test-signals/{name}.wav", Make).ExcludeFromDescription().RequireAuthorization(nameof(Permission.SeeJobs));
        routes.MapGet("/documents/measuring-sweep.wav", MakeSweep).ExcludeFromDescription().RequireAuthorization(nameof(Permission.SeeJobs));
    }

    /// <summary>Address of a sweep to measure with, as a recording of it is taken apart.</summary>
    public static string MeasuringSweep(ExponentialSweep sweep)
    {
        ArgumentNullException.ThrowIfNull(sweep);
        return string.Create(CultureInfo.InvariantCulture, $"/documents/measuring-sweep.wav?from={sweep.FromHertz:0.##}&to={sweep.ToHertz:0.##}&seconds={sweep.Seconds:0.##}&level={sweep.LevelDecibelsFullScale:0.##}");
    }

    /// <summary>Address of pink noise.</summary>
    public static string PinkNoise(double decibels) => string.Create(CultureInfo.InvariantCulture, $"/documents/test-signals/pink-noise.wav?level={decibels:0.##}");

    private static IResult MakeSweep(HttpContext context, string? from, string? to, string? seconds, string? level)
    {
        if (!Read(from, 20, 1, 10_000, out var low) || !Read(to, MostHertz, 20, 0.45 * Rate, out var high) || !Read(seconds, 10, 0.5, ExponentialSweep.LongestSeconds, out var length) || !Read(level, -20, LeastDecibels, 0, out var decibels))
        {
            return Results.Problem("from, to (Hz), seconds and level (dB full scale) are numbers with a decimal point; from 1 to 10000, to 20 to 21600, seconds 0.5 to 60, level -60 to 0.", statusCode: StatusCodes.Status400BadRequest, title: "This sweep cannot be made");
        }

        var sweep = new ExponentialSweep { FromHertz = low, ToHertz = high, Seconds = length, LevelDecibelsFullScale = decibels, SampleRateHertz = Rate };
        if (sweep.Validate() is [var problem, ..])
        {
            return Results.Problem(problem.Message, statusCode: StatusCodes.Status400BadRequest, title: "This sweep cannot be made");
        }

        double[] samples = [.. sweep.Samples(), .. new double[(int)(SilenceSeconds * Rate)]];
        context.Response.Headers.CacheControl = "private, max-age=3600";
        context.Response.Headers.XContentTypeOptions = "nosniff";
        return Results.File(WaveFile.Write(Both(samples), Bits), "audio/wav", string.Create(CultureInfo.InvariantCulture, $"sweep-{low:0.##}-to-{high:0.##}-Hz-{length:0.##}-s{decibels:0.##}-dB.wav"));
    }

    /// <summary>Address of a tone.</summary>
    public static string Tone(double hertz, double decibels) => string.Create(CultureInfo.InvariantCulture, $"/documents/test-signals/tone.wav?hz={hertz:0.##}&level={decibels:0.##}");

    private static IResult Make(HttpContext context, string name, string? hz, string? level)
    {
        var noise = name == "pink-noise";
        var most = noise ? MostNoiseDecibels : 0;
        if (!Read(level, noise ? -20 : -12, LeastDecibels, most, out var decibels))
        {
            return Refused("level", level, LeastDecibels, most, "dB full scale");
        }

        if (!Read(hz, 1_000, LeastHertz, MostHertz, out var hertz))
        {
            return Refused("hz", hz, LeastHertz, MostHertz, "Hz");
        }

        var sound = name switch
        {
            "tone" => Both(TestTone.Sine(hertz, decibels, 20, Rate)),
            "sweep" => Both(TestTone.Sweep(20, MostHertz, decibels, 20, Rate)),
            "pink-noise" => Both(TestTone.PinkNoise(decibels, 20, Rate)),
            "sides" => TestTone.Sides(decibels, Rate),
            "polarity" => Both(TestTone.PolarityPulses(decibels, 10, Rate)),
            _ => null,
        };
        if (sound is null)
        {
            return Results.NotFound();
        }

        context.Response.Headers.CacheControl = "private, max-age=3600";
        context.Response.Headers.XContentTypeOptions = "nosniff";
        var named = name == "tone" ? string.Create(CultureInfo.InvariantCulture, $"tone-{hertz:0.##}-Hz{decibels:0.##}-dB.wav") : string.Create(CultureInfo.InvariantCulture, $"{name}{decibels:0.##}-dB.wav");
        return Results.File(WaveFile.Write(sound, Bits), "audio/wav", named);
    }

    private static SampledSound Both(double[] samples) => new(Rate, [samples, samples]);

    private static bool Read(string? text, double usual, double least, double most, out double value)
    {
        value = usual;
        return string.IsNullOrWhiteSpace(text)
            || (double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out value) && value >= least && value <= most);
    }

    private static IResult Refused(string field, string? value, double least, double most, string unit) => Results.Problem(
        string.Create(CultureInfo.InvariantCulture, $"{field} is '{value}'; accepted is {least} to {most} {unit}, with a decimal point."), statusCode: StatusCodes.Status400BadRequest, title: "This test signal cannot be made");
}
