using System.Globalization;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Loads;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What hangs on one amplifier output, put together from its links.</summary>
/// <param name="Devices">Its loudspeakers; those behind a passive crossover as one, since each lies on the output in its own range alone.</param>
/// <param name="HighPassHertz">Lowest corner of its loudspeakers; null while one is not known.</param>
internal sealed record SignalLoad(
    IReadOnlyList<DriverDevice> Devices, CoilWiring Wiring, double CableOhms, string Names, string Coils, double? HighPassHertz, double? LowPassHertz, ImageSide Side)
{
    /// <param name="processed">Whether a processor feeds it, so that its filters are looked for there.</param>
    /// <returns>Null when an impedance is not known, which is told.</returns>
    public static SignalLoad? Of(
        List<SignalLink> group, Func<Guid?, JobPart?> partOf, IReadOnlyList<SpeakerRow> runs, bool processed, string channel, List<Finding> findings)
    {
        var ends = group.Select(link => new End(link, partOf(link.ToPartId)!, runs)).ToList(); // links to loudspeakers of the list
        if (ends.Find(end => end.Ohms is null) is { } unknown)
        {
            findings.Add(new Finding("load-not-known", Severity.Warn, $"load:{unknown.Part.Id}", channel, $"The impedance of {unknown.Part.Name} is not known, so this channel is not worked out.", "Enter it on the part.", "needed for the load"));
            return null;
        }

        var apart = ends.Where(end => end.Link.Form.BehindCrossover).ToList();
        var divided = apart.Count > 1;
        List<DriverDevice> devices = [];
        List<(CoilWiring Wiring, double Ohms, double Cable)> branches = [];
        if (divided)
        {
            var whole = Divided(apart, findings);
            devices.Add(whole);
            branches.Add((new Coil(whole.Id), whole.CoilOhms, apart.Where(end => end.Cable is not null).Select(end => end.Cable!.Value).DefaultIfEmpty(0).Min())); // filtered
        }

        foreach (var end in ends.Where(end => !divided || !end.Link.Form.BehindCrossover))
        {
            if (devices.TrueForAll(device => device.Id != end.Id))
            {
                devices.Add(SignalDevices.Driver(end.Part, end.Data, end.Unit, end.GuardedLowest(processed)));
            }

            branches.Add((end.Wiring, end.Ohms!.Value, end.Cable ?? 0)); // unknown ones ended this above
        }

        var sides = devices.Select(device => device.Side).Distinct().ToList();
        var bare = 1 / branches.Sum(branch => 1 / branch.Ohms);
        return new SignalLoad(
            devices,
            branches.Count == 1 ? branches[0].Wiring : CoilWiring.Parallel([.. branches.Select(branch => branch.Wiring)]),
            (1 / branches.Sum(branch => 1 / (branch.Ohms + branch.Cable))) - bare,
            string.Join(", ", ends.Select(end => end.Name).Distinct()),
            Words(ends, divided),
            ends.TrueForAll(end => end.Data.HighPassHertz is not null) ? ends.Min(end => end.Data.HighPassHertz) : null,
            ends.TrueForAll(end => end.Data.LowPassHertz is not null) ? ends.Max(end => end.Data.LowPassHertz) : null,
            sides.Count == 1 ? sides[0] : ImageSide.Both);
    }

    // Each has its own range, so the amplifier sees the lowest of them at a time and the weakest bears the least.
    private static DriverDevice Divided(List<End> apart, List<Finding> findings)
    {
        var lowest = apart.MinBy(end => end.Data.LowestHertz ?? 0)!; // more than one
        findings.AddRange(apart.Where(end => end != lowest && end.Data is { HighPassHertz: null, LowestHertz: > 40 }).Select(end => new Finding(
            "crossover-corner-missing", Severity.Note, $"crossover:{end.Id}", end.Name, "At which frequency its passive crossover begins is not known.", "Enter the high-pass on the part.", Unsourced.CommonPractice)));
        var sides = apart.Select(end => SignalDevices.SideOf(SignalPorts.ZoneOf(end.Part, end.Unit))).Distinct().ToList();
        if (sides is [ImageSide.Left or ImageSide.Right, ImageSide.Left or ImageSide.Right])
        {
            findings.Add(new Finding(
                "crossover-sides-differ", Severity.Warn, $"crossover:{apart[0].Id}", string.Join(", ", apart.Select(end => end.Name)), "They share one output and sit on different sides.", "Feed the loudspeakers of one side together, or correct their places.", Unsourced.CommonPractice));
        }

        return new DriverDevice
        {
            Id = $"crossover:{apart[0].Id}",
            Name = string.Join(" and ", apart.Select(end => end.Name)),
            CoilOhms = apart.Min(end => end.Ohms) ?? 0, // unknown ones ended this before
            CoilMinimumOhms = apart.TrueForAll(end => end.Data.MinimumOhms is not null) ? apart.Min(end => end.Data.MinimumOhms * end.Ohms / end.Data.NominalOhms) : null,
            CoilMinimumOrigin = string.Join("; ", apart.Select(end => SignalDevices.MinimumOrigin(end.Data) is { } origin ? $"{end.Part.Name}: {origin}" : null).OfType<string>().Distinct()),
            RatedWatts = apart.Min(end => end.Data.RatedWatts),
            SensitivityDecibels = apart.Max(end => end.Data.SensitivityDecibels),
            LowestHertz = lowest.Data.LowestHertz,
            Side = sides.Count == 1 ? sides[0] : ImageSide.Both,
        };
    }

    private static string Words(List<End> ends, bool divided)
    {
        var coils = ends.Sum(end => end.CoilCount);
        var words = ends.Count == 1 ? ends[0].CoilCount == 1 ? "1 coil" : $"{ends[0].CoilCount.ToString(CultureInfo.InvariantCulture)} coils in {(ends[0].Link.Form.Coils == CoilUse.AllInSeries ? "series" : "parallel")}"
            : $"{coils.ToString(CultureInfo.InvariantCulture)} coils, {(ends.Exists(end => end.CoilCount > 1 && end.Link.Form.Coils == CoilUse.AllInSeries) ? "each pair in series, " : "")}{ends.Count.ToString(CultureInfo.InvariantCulture)} branches {(divided ? "behind a crossover" : "in parallel")}";
        return ends.Count == 1 && ends[0].Link.Form.BehindCrossover ? $"{words}, behind a crossover" : words;
    }

    // One link to one loudspeaker.
    private sealed class End(SignalLink link, JobPart part, IReadOnlyList<SpeakerRow> runs)
    {
        public SignalLink Link => link;

        public JobPart Part => part;

        public LoudspeakerData Data { get; } = (LoudspeakerData)part.Data; // links to loudspeakers

        public int Unit => link.ToInput / SignalPorts.Coils(Data);

        public string Id => SignalDevices.IdOf(part, Unit);

        public string Name => SignalPorts.NameOfLoudspeaker(part, link.ToInput, link.Form.Coils);

        public double? Ohms => SignalMapping.LoadOhms(Data, link.Form.Coils);

        public double? Cable => runs.FirstOrDefault(row => row.PartId == part.Id && row.Input == link.ToInput)?.Figures?.LoopOhms;

        public int CoilCount => link.Form.Coils == CoilUse.OneCoil ? 1 : SignalPorts.Coils(Data);

        public CoilWiring Wiring => CoilCount == 1 ? new Coil(Id, (link.ToInput % SignalPorts.Coils(Data)) + 1, link.Form.Inverted)
            : link.Form.Coils == CoilUse.AllInSeries ? CoilWiring.Series([.. All])
            : CoilWiring.Parallel([.. All]);

        private IEnumerable<CoilWiring> All => Enumerable.Range(1, CoilCount).Select(number => new Coil(Id, number, link.Form.Inverted));

        // A crossover of its own, or the filter of an amplifier without a processor, keeps low notes away where its corner says so.
        public double? GuardedLowest(bool processed) =>
            (link.Form.BehindCrossover || !processed) && Data.HighPassHertz >= 0.99 * Data.LowestHertz ? null : Data.LowestHertz;
    }
}
