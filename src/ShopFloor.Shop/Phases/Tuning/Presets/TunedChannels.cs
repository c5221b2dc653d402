using System.Globalization;
using ShopFloor.Engineering.Acoustics.Enclosures;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Tuning.Measurements;
using ShopFloor.Shop.Storage;
using BoxFilter = ShopFloor.Engineering.Acoustics.Enclosures.FilterKind;
using FilterKind = ShopFloor.Engineering.Tuning.Filters.FilterKind;

namespace ShopFloor.Shop.Phases.Tuning.Presets;

/// <summary>Tells the enclosures what the preset in the car does to their loudspeakers. Level, delay and polarity of a channel are no matter of the box.</summary>
internal sealed class TunedChannels : ITunedChannels
{
    public Task<IReadOnlyList<ChannelInCar>> InCarAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken) => ReadAsync(db, jobId, cancellationToken);

    internal static async Task<IReadOnlyList<ChannelInCar>> ReadAsync(ShopDbContext db, Guid jobId, CancellationToken cancellationToken)
    {
        var inCar = (await TuningPresets.ListAsync(db, jobId, cancellationToken)).SelectMany(preset => preset.Versions).FirstOrDefault(version => version.Form.InCar is not null);
        if (inCar is null)
        {
            return [];
        }

        var played = await TuningChannels.ListAsync(db, jobId, cancellationToken);
        return
        [
            .. from channel in inCar.Form.Channels
               let plays = played.Find(each => each.Id == channel.Id)
               where plays is not null
               select new ChannelInCar(plays.LoudspeakerPartIds, Of(channel, inCar.Id, PresetForm.Label(inCar.Name, inCar.Form.Number))),
        ];
    }

    internal static TunedFilters Of(ChannelSetting channel, Guid versionId, string label) => new()
    {
        VersionId = versionId,
        Label = label,
        Channel = channel.Name,
        HighPassHertz = channel.HighPass?.Hertz,
        LowPassHertz = channel.LowPass?.Hertz,
        HighPass = Sections(channel.HighPass, highPass: true),
        LowPass = Sections(channel.LowPass, highPass: false),
        Others = [.. channel.Filters.Select(Section)],
        Words = string.Join("; ", new[]
        {
            channel.HighPass is { } high ? $"high-pass {Words(high)}" : "no high-pass",
            channel.LowPass is { } low ? $"low-pass {Words(low)}" : "no low-pass",
            channel.Filters.Count == 0 ? null : string.Create(CultureInfo.CurrentCulture, $"{channel.Filters.Count} filter{(channel.Filters.Count > 1 ? "s" : "")} of the equaliser"),
        }.OfType<string>()),
    };

    private static List<FilterSection> Sections(Crossover? half, bool highPass) => half is null ? [] :
    [
        .. CrossoverSections.Analogue(half, highPass).Select(section => section.Q is { } q
            ? new FilterSection(highPass ? BoxFilter.HighPass : BoxFilter.LowPass, section.Hertz, q)
            : new FilterSection(highPass ? BoxFilter.HighPassFirst : BoxFilter.LowPassFirst, section.Hertz)),
    ];

    private static FilterSection Section(FilterSetting filter) => new(
        filter.Kind switch
        {
            FilterKind.Peaking => BoxFilter.Bell,
            FilterKind.LowShelf => BoxFilter.LowShelf,
            FilterKind.HighShelf => BoxFilter.HighShelf,
            FilterKind.LowPass => BoxFilter.LowPass,
            FilterKind.HighPass => BoxFilter.HighPass,
            FilterKind.BandPass => BoxFilter.BandPass,
            FilterKind.Notch => BoxFilter.Notch,
            FilterKind.AllPass => BoxFilter.AllPass,
            FilterKind.FirstOrderLowPass => BoxFilter.LowPassFirst,
            FilterKind.FirstOrderHighPass => BoxFilter.HighPassFirst,
            FilterKind.FirstOrderAllPass => BoxFilter.AllPassFirst,
            _ => throw new InvalidOperationException("Unknown filter."),
        },
        filter.Hertz, filter.Q, filter.GainDecibels);

    private static string Words(Crossover half) =>
        string.Create(CultureInfo.CurrentCulture, $"{(half.Shape == CrossoverShape.LinkwitzRiley ? "Linkwitz-Riley" : half.Shape.ToString())} {half.SlopeDecibelsPerOctave} dB an octave at {half.Hertz:0.#} Hz");
}
