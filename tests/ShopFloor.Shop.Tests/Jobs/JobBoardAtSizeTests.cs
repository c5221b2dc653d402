using System.Diagnostics;
using System.Globalization;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Vehicles;
using Xunit.Abstractions;

namespace ShopFloor.Shop.Tests.Jobs;

/// <summary>The board with 5,000 open jobs. Times are written out, never asserted: they belong to the machine.</summary>
public sealed class JobBoardAtSizeTests(ITestOutputHelper output) : IAsyncLifetime
{
    private const int Jobs = 5_000;
    private readonly TestShop _shop = new();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task Five_thousand_open_jobs_are_paged_filtered_and_counted_whole()
    {
        await FillAsync();
        var board = _shop.Get<JobBoard>();

        var seen = new HashSet<Guid>();
        BoardKey? after = null;
        do
        {
            var page = await board.PageAsync(_shop.Technician, new BoardQuery { Size = 100, After = after }, CancellationToken.None);
            Assert.All(page.Rows, row => Assert.True(seen.Add(row.JobId)));
            after = page.Next;
        }
        while (after is not null);

        Assert.Equal(Jobs, seen.Count);
        var counts = await board.CountsAsync(_shop.Technician, new BoardQuery(), CancellationToken.None);
        Assert.Equal(Jobs, counts.Stages.Sum(stage => stage.Jobs) + counts.NotPlanned + counts.AllStagesDone);

        var middle = new BoardKey(new DateOnly(2031, 3, 10), 2_500);
        await MeasureAsync("first page of 50", () => board.PageAsync(_shop.Technician, new BoardQuery(), CancellationToken.None));
        await MeasureAsync("page of 50 from the middle", () => board.PageAsync(_shop.Technician, new BoardQuery { After = middle }, CancellationToken.None));
        await MeasureAsync("one stage", () => board.PageAsync(_shop.Technician, new BoardQuery { Place = BoardPlace.Stage, StageName = "Cabling" }, CancellationToken.None));
        await MeasureAsync("late and blocked", () => board.PageAsync(_shop.Technician, new BoardQuery { Late = true, Blocked = true }, CancellationToken.None));
        await MeasureAsync("mine", () => board.PageAsync(_shop.Technician, new BoardQuery { Mine = true }, CancellationToken.None));
        await MeasureAsync("words found at once", () => board.PageAsync(_shop.Technician, new BoardQuery { Search = "verano" }, CancellationToken.None));
        await MeasureAsync("words found nowhere", () => board.PageAsync(_shop.Technician, new BoardQuery { Search = "qqqq" }, CancellationToken.None));
        await MeasureAsync("counts", () => board.CountsAsync(_shop.Technician, new BoardQuery(), CancellationToken.None));
        await MeasureAsync("counts with words", () => board.CountsAsync(_shop.Technician, new BoardQuery { Search = "verano" }, CancellationToken.None));
    }

    private async Task MeasureAsync<T>(string what, Func<Task<T>> read)
    {
        const int Runs = 40;
        await read();
        var times = new List<double>();
        for (var run = 0; run < Runs; run++)
        {
            var from = Stopwatch.GetTimestamp();
            await read();
            times.Add(Stopwatch.GetElapsedTime(from).TotalMilliseconds);
        }

        times.Sort();
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what}: median {times[Runs / 2]:0.00} ms, 95 of 100 {times[Runs * 95 / 100]:0.00} ms"));
    }

    private async Task FillAsync()
    {
        var outcome = await _shop.Store.WriteAsync<Done>(
            _shop.Owner,
            async db =>
            {
                var now = _shop.Time.GetUtcNow();
                for (var number = 1; number <= Jobs; number++)
                {
                    var client = new Client(new ClientDetails { Name = $"Client {number % 700}", Phone = $"555 {number:D4}" }, now);
                    var vehicle = new Vehicle(client.Id, new VehicleDetails { Make = "Verano", Model = "Lince", ModelYear = 2028, Plate = $"AB {number:D5}" }, now);
                    var card = new JobCardDetails
                    {
                        Title = $"Build {number}",
                        Wish = "Clear voices at motorway speed, bass that is felt and not heard, and nothing that rattles.",
                        PromisedOn = number % 20 == 0 ? null : new DateOnly(2031, 2, 1).AddDays(number % 90),
                    };
                    var job = new Job(number, client.Id, vehicle.Id, card, now);
                    job.RefreshSearchText(client, vehicle);
                    var stage = number % 12;
                    job.SetProgress(stage == 11
                        ? JobProgress.NotPlanned
                        : new JobProgress(UsualStages.Stages[stage].Name, stage, stage, 11, number % 17 == 0 ? 1 : 0, 0) { Track = new string('d', stage).PadRight(11, 'o') });
                    db.AddRange(client, vehicle, job);
                    if (number % 50 == 0)
                    {
                        db.TimeEntries.Add(new TimeEntry(job.Id, Guid.CreateVersion7(), "Cabling", _shop.Technician.Id!.Value, "Tom Tech", 0, now)); // staff of a test have ids
                    }
                }

                await db.SaveChangesAsync();
                return Done.Value;
            },
            CancellationToken.None);
        Assert.True(outcome.Succeeded, outcome.Message);
    }
}
