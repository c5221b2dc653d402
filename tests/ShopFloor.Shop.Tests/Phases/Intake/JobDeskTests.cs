using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Tests.Phases.Intake;

public sealed class JobDeskTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();

    private JobDesk JobDesk => _shop.Get<JobDesk>();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task Opening_a_job_brings_an_empty_check_in_and_the_usual_factory_functions()
    {
        var jobId = await _shop.OpenJobAsync();

        var checkIn = await _shop.Get<CheckInDesk>().LoadAsync(_shop.Desk, jobId, CancellationToken.None);
        var functions = await _shop.Get<FactoryFunctions>().ListAsync(_shop.Desk, jobId, CancellationToken.None);

        Assert.Null(checkIn.Signed);
        Assert.Equal(FactoryFunctionList.Usual.Count, functions.Count);
        Assert.All(functions, function => Assert.Equal(FunctionResult.NotTried, function.Before));
    }

    [Fact]
    public async Task Jobs_are_numbered_without_gaps_even_when_opened_at_the_same_time()
    {
        var opened = await Task.WhenAll(Enumerable.Range(0, 20).Select(_ => Task.Run(() => _shop.OpenJobAsync())));

        var numbers = await _shop.Store.ReadAsync(db => db.Jobs.Select(job => job.Number).OrderBy(number => number).ToListAsync(), CancellationToken.None);

        Assert.Equal(20, opened.Distinct().Count());
        Assert.Equal(Enumerable.Range(1, 20), numbers);
    }

    [Fact]
    public async Task Every_bad_field_is_named_and_nothing_is_saved()
    {
        var command = JobBuilder.SomeJob(job =>
        {
            job.NewClient.Name = new string('x', 201);
            job.NewClient.Email = "not-an-address";
            job.NewVehicle.Make = "";
            job.NewVehicle.PayloadKilograms = -5;
            job.Card.BudgetFrom = 500;
            job.Card.BudgetTo = 100;
        });

        var outcome = await JobDesk.OpenAsync(_shop.Desk, command, CancellationToken.None);

        Assert.Equal(
            ["NewClient.Name", "NewClient.Email", "NewVehicle.Make", "NewVehicle.PayloadKilograms", "Card.BudgetTo"],
            outcome.Problems.Select(problem => problem.Field));
        Assert.Contains("-5", outcome.Problems[3].Message, StringComparison.Ordinal);
        Assert.Equal(0, await _shop.Store.ReadAsync(db => db.Clients.CountAsync(), CancellationToken.None));
    }

    [Fact]
    public async Task A_technician_cannot_open_a_job()
    {
        await Assert.ThrowsAsync<NotAllowedException>(() => JobDesk.OpenAsync(_shop.Technician, JobBuilder.SomeJob(), CancellationToken.None));
    }

    [Theory]
    [InlineData("<script>alert(1)</script>")]
    [InlineData("Ζωή Παπαδοπούλου")]
    [InlineData("Зоя Иванова 🚗")]
    [InlineData("Robert'); DROP TABLE Jobs;--")]
    public async Task Any_script_is_kept_as_it_was_typed(string name)
    {
        var jobId = await _shop.OpenJobAsync(job => job.NewClient.Name = name);

        var card = await JobDesk.CardAsync(_shop.Desk, jobId, CancellationToken.None);

        Assert.Equal(name, card!.Client.Details.Name); // the job was opened above
    }

    [Fact]
    public async Task The_second_of_two_editors_sees_both_versions_and_nothing_is_overwritten()
    {
        var jobId = await _shop.OpenJobAsync();
        var loaded = (await JobDesk.CardAsync(_shop.Desk, jobId, CancellationToken.None))!.Job; // opened above
        var first = JobCardDetails.Of(await JobAsync(jobId));
        first.Title = "First wording";
        await JobDesk.EditCardAsync(_shop.Owner, jobId, loaded.Version, first, CancellationToken.None);
        var second = loaded.Details;
        second.Title = "Second wording";

        var outcome = await JobDesk.EditCardAsync(_shop.Desk, jobId, loaded.Version, second, CancellationToken.None);

        Assert.NotNull(outcome.Conflict);
        Assert.Equal("Odile Owner", outcome.Conflict.ChangedBy);
        var difference = Assert.Single(outcome.Conflict.Differences);
        Assert.Equal(("Second wording", "First wording"), (difference.Mine, difference.Theirs));
        Assert.Equal("First wording", (await JobAsync(jobId)).Title);

        var retried = await JobDesk.EditCardAsync(_shop.Desk, jobId, outcome.Conflict.CurrentVersion, second, CancellationToken.None);

        Assert.True(retried.Succeeded);
        Assert.Equal("Second wording", (await JobAsync(jobId)).Title);
    }

    [Fact]
    public async Task A_client_already_on_file_is_found_by_name_phone_or_mail_while_typing()
    {
        await _shop.OpenJobAsync();

        foreach (var typed in new[]
        {
            new ClientDetails { Name = "cléa cli" },
            new ClientDetails { Phone = "5550100" },
            new ClientDetails { Email = "clea@example.org" },
        })
        {
            var similar = await JobDesk.SimilarClientsAsync(_shop.Desk, typed, CancellationToken.None);
            Assert.Equal("Clea Client", Assert.Single(similar).Name);
        }

        Assert.Empty(await JobDesk.SimilarClientsAsync(_shop.Desk, new ClientDetails { Name = "Nobody" }, CancellationToken.None));
    }

    [Fact]
    public async Task A_vehicle_already_on_file_is_found_by_plate()
    {
        await _shop.OpenJobAsync();

        var similar = await JobDesk.SimilarVehiclesAsync(_shop.Desk, new VehicleDetails { Plate = "ab 123" }, CancellationToken.None);

        Assert.Equal("AB 123", Assert.Single(similar).Plate);
    }

    [Theory]
    [InlineData("clea")]
    [InlineData("lince bass")]
    [InlineData("AB123")]
    [InlineData("j-0001")]
    [InlineData("5550100")]
    public async Task A_job_is_found_by_anything(string query)
    {
        await _shop.OpenJobAsync();

        var found = await _shop.Get<JobSearch>().FindAsync(_shop.Technician, query, 10, CancellationToken.None);

        Assert.Single(found.Jobs);
    }

    [Fact]
    public async Task A_changed_client_name_is_found_at_once()
    {
        var jobId = await _shop.OpenJobAsync();
        var card = (await JobDesk.CardAsync(_shop.Desk, jobId, CancellationToken.None))!; // opened above
        card.Client.Details.Name = "Other Name";

        await JobDesk.EditClientAsync(_shop.Desk, card.Client.Id, card.Client.Version, card.Client.Details, CancellationToken.None);

        Assert.Single((await _shop.Get<JobSearch>().FindAsync(_shop.Desk, "other", 10, CancellationToken.None)).Jobs);
    }

    [Fact]
    public async Task A_bad_identification_number_is_taken_only_with_a_reason()
    {
        var refused = await JobDesk.OpenAsync(
            _shop.Desk, JobBuilder.SomeJob(job => job.NewVehicle.Vin = "1M8GDM9A1KP042788"), CancellationToken.None);
        var accepted = await JobDesk.OpenAsync(
            _shop.Desk,
            JobBuilder.SomeJob(job =>
            {
                job.NewVehicle.Vin = "1M8GDM9A1KP042788";
                job.NewVehicle.VinOverrideReason = "Built for another market";
            }),
            CancellationToken.None);

        Assert.Equal("NewVehicle.Vin", Assert.Single(refused.Problems).Field);
        Assert.True(accepted.Succeeded, accepted.Message);
    }

    private Task<Job> JobAsync(Guid jobId) => _shop.Store.ReadAsync(db => db.Jobs.SingleAsync(job => job.Id == jobId), CancellationToken.None);
}
