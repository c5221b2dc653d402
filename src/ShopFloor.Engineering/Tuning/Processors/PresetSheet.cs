using System.Globalization;
using System.Text;
using System.Text.Json;
using ShopFloor.Engineering.Tuning.Filters;

namespace ShopFloor.Engineering.Tuning.Processors;

/// <summary>A channel as it is typed into a processor.</summary>
public sealed record SheetChannel
{
    /// <summary>Identifier of the channel.</summary>
    public required string Id { get; init; }

    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Level, dB.</summary>
    public required double LevelDecibels { get; init; }

    /// <summary>Delay, ms.</summary>
    public required double DelayMilliseconds { get; init; }

    /// <summary>Delay in samples at the processor's rate.</summary>
    public required double DelaySamples { get; init; }

    /// <summary>The way sound goes in that time, cm.</summary>
    public required double DelayCentimeters { get; init; }

    /// <summary>Whether the polarity is turned.</summary>
    public required bool Inverted { get; init; }

    /// <summary>High-pass; null for none.</summary>
    public required Crossover? HighPass { get; init; }

    /// <summary>Low-pass; null for none.</summary>
    public required Crossover? LowPass { get; init; }

    /// <summary>Equaliser filters.</summary>
    public required IReadOnlyList<FilterSetting> Filters { get; init; }

    /// <summary>Sections in order, high-pass, low-pass, filters; a1 and a2 with the sign the processor takes.</summary>
    public required IReadOnlyList<SheetSection> Sections { get; init; }
}

/// <summary>Coefficients of a section on the sheet.</summary>
/// <param name="Use">What it belongs to: "high-pass", "low-pass" or "filter 3".</param>
/// <param name="B0">b0.</param>
/// <param name="B1">b1.</param>
/// <param name="B2">b2.</param>
/// <param name="A1">a1, with the processor's sign.</param>
/// <param name="A2">a2, with the processor's sign.</param>
public sealed record SheetSection(string Use, double B0, double B1, double B2, double A1, double A2);

/// <summary>What is typed into a processor, or read by it.</summary>
/// <param name="Preset">Name of the preset.</param>
/// <param name="Processor">Name of the processor.</param>
/// <param name="SampleRateHertz">Sample rate of the coefficients, Hz.</param>
/// <param name="FeedbackSign">Sign of a1 and a2.</param>
/// <param name="SpeedMetersPerSecond">Speed of sound the distances are reckoned with, m/s.</param>
/// <param name="Channels">Channels.</param>
public sealed record PresetSheet(string Preset, string Processor, double SampleRateHertz, FeedbackSign FeedbackSign, double SpeedMetersPerSecond, IReadOnlyList<SheetChannel> Channels)
{
    /// <summary>What is set at inputs, before they are mixed; empty where nothing is.</summary>
    public IReadOnlyList<SheetChannel> Inputs { get; init; } = [];

    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true, Converters = { new System.Text.Json.Serialization.JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
    };

    /// <summary>The sheet of a preset. Give the one <see cref="SettingQuantiser"/> made: what is written is what is set.</summary>
    /// <param name="preset">The preset.</param>
    /// <param name="profile">The processor.</param>
    /// <param name="speedMetersPerSecond">Speed of sound, m/s: many processors take the delay as a distance, reckoned with theirs.</param>
    /// <exception cref="ArgumentOutOfRangeException">The preset has a problem; the parameter name is the field.</exception>
    public static PresetSheet Of(ProcessorPreset preset, ProcessorProfile profile, double speedMetersPerSecond)
    {
        ArgumentNullException.ThrowIfNull(preset);
        ArgumentNullException.ThrowIfNull(profile);
        Explained.InputChecks.ThrowIfAny(preset.Validate(profile.SampleRateHertz));
        var rate = profile.SampleRateHertz;
        var sign = profile.FeedbackSign == FeedbackSign.Added ? -1 : 1;
        SheetSection Section(string use, Biquad section) => new(use, section.B0, section.B1, section.B2, sign * section.A1, sign * section.A2);
        return new PresetSheet(preset.Name, profile.Name, rate, profile.FeedbackSign, speedMetersPerSecond, [.. preset.Channels.Select(Row)]) { Inputs = [.. preset.Inputs.Select(Row)] };

        SheetChannel Row(ChannelSetting channel) => new()
        {
            Id = channel.Id,
            Name = channel.Name,
            LevelDecibels = channel.GainDecibels,
            DelayMilliseconds = channel.DelaySeconds * 1e3,
            DelaySamples = channel.DelaySeconds * rate,
            DelayCentimeters = channel.DelaySeconds * speedMetersPerSecond * 100,
            Inverted = channel.Inverted,
            HighPass = channel.HighPass,
            LowPass = channel.LowPass,
            Filters = channel.Filters,
            Sections =
            [
                .. channel.HighPass is { } high ? CrossoverSections.Of(high, true, rate).Select(section => Section("high-pass", section)) : [],
                .. channel.LowPass is { } low ? CrossoverSections.Of(low, false, rate).Select(section => Section("low-pass", section)) : [],
                .. channel.Filters.Select((filter, n) => Section($"filter {n + 1}", CookbookFilters.Design(filter, rate))),
            ],
        };
    }

    /// <summary>As JSON, with all digits.</summary>
    public string ToJson() => JsonSerializer.Serialize(this, Json);

    /// <summary>As comma-separated values: one line per input, channel, crossover half and filter; coefficients with all digits. Names are quoted.</summary>
    public string ToCsv()
    {
        var csv = new StringBuilder("channel,name,row,kind,frequency_hz,gain_db,q,slope_db_per_oct,delay_ms,delay_samples,delay_cm,polarity,b0,b1,b2,a1,a2\n");
        void Line(SheetChannel channel, params string[] cells) => csv.Append(Quoted(channel.Id)).Append(',').Append(Quoted(channel.Name)).Append(',').AppendJoin(',', cells).Append('\n');
        foreach (var (channel, row) in Inputs.Select(input => (input, "input")).Concat(Channels.Select(channel => (channel, "channel"))))
        {
            Line(channel, row, "", "", Exact(channel.LevelDecibels), "", "", Exact(channel.DelayMilliseconds), Exact(channel.DelaySamples), Exact(channel.DelayCentimeters), channel.Inverted ? "turned" : "normal", "", "", "", "", "");
            foreach (var section in channel.Sections)
            {
                var half = section.Use == "high-pass" ? channel.HighPass : section.Use == "low-pass" ? channel.LowPass : null;
                var filter = half is null ? channel.Filters[int.Parse(section.Use.AsSpan("filter ".Length), CultureInfo.InvariantCulture) - 1] : null;
                Line(
                    channel, section.Use, half is not null ? SettingText.Shape(half.Shape) : SettingText.Kind(filter!.Kind), Exact(half?.Hertz ?? filter!.Hertz), // one of both
                    filter is { HasGain: true } ? Exact(filter.GainDecibels) : "", filter is { HasQ: true } ? Exact(filter.Q) : "", half?.SlopeDecibelsPerOctave.ToString(CultureInfo.InvariantCulture) ?? "", "", "", "", "",
                    Exact(section.B0), Exact(section.B1), Exact(section.B2), Exact(section.A1), Exact(section.A2));
            }
        }

        return csv.ToString();
    }

    /// <summary>As plain text to type from.</summary>
    public string ToText()
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"{Preset}\n{Processor}, {SampleRateHertz:0} Hz, speed of sound {SpeedMetersPerSecond:0.0} m/s\n");
        List<(string Name, SheetChannel Channel)> all = [.. Inputs.Select(input => ($"Input: {input.Name}", input)), .. Channels.Select(channel => (channel.Name, channel))];
        foreach (var (name, channel) in all)
        {
            text.Append(CultureInfo.InvariantCulture, $"\n{name}\n");
            text.Append(CultureInfo.InvariantCulture, $"  Level      {SettingText.Gain(channel.LevelDecibels)}\n");
            text.Append(CultureInfo.InvariantCulture, $"  Delay      {channel.DelayMilliseconds:0.000} ms = {channel.DelaySamples:0.##} samples = {channel.DelayCentimeters:0.0} cm\n");
            text.Append(CultureInfo.InvariantCulture, $"  Polarity   {(channel.Inverted ? "turned" : "normal")}\n");
            text.Append(CultureInfo.InvariantCulture, $"  High-pass  {SettingText.Crossover(channel.HighPass)}\n");
            text.Append(CultureInfo.InvariantCulture, $"  Low-pass   {SettingText.Crossover(channel.LowPass)}\n");
            foreach (var (filter, n) in channel.Filters.Select((filter, n) => (filter, n + 1)))
            {
                text.Append(CultureInfo.InvariantCulture, $"  {"Filter " + n,-11}{SettingText.Kind(filter.Kind)} {SettingText.Number(filter.Hertz, "0.##")} Hz");
                if (filter.HasGain)
                    text.Append(' ').Append(SettingText.Gain(filter.GainDecibels));
                if (filter.HasQ)
                    text.Append(" Q ").Append(SettingText.Number(filter.Q, "0.###"));
                text.Append('\n');
            }
        }

        text.Append(FeedbackSign == FeedbackSign.Added
            ? "\nCoefficients: y[n] = b0 x[n] + b1 x[n-1] + b2 x[n-2] + a1 y[n-1] + a2 y[n-2]\n"
            : "\nCoefficients: y[n] = b0 x[n] + b1 x[n-1] + b2 x[n-2] - a1 y[n-1] - a2 y[n-2]\n");
        foreach (var (name, channel) in all)
        {
            foreach (var section in channel.Sections)
                text.Append(CultureInfo.InvariantCulture, $"  {name}, {section.Use}: b0 {Exact(section.B0)} b1 {Exact(section.B1)} b2 {Exact(section.B2)} a1 {Exact(section.A1)} a2 {Exact(section.A2)}\n");
        }

        return text.ToString();
    }

    // A name that begins like a formula must not become one in a spreadsheet.
    private static string Quoted(string name) => $"\"{(name.Length > 0 && name[0] is '=' or '+' or '-' or '@' ? "'" : "")}{name.Replace("\"", "\"\"", StringComparison.Ordinal).ReplaceLineEndings(" ")}\"";

    private static string Exact(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
