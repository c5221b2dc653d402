using System.Net;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Estimate;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;
using ShopFloor.Web.Papers;

namespace ShopFloor.Web.Tests.Papers;

public sealed class PaperEndpointsTests : IAsyncLifetime
{
    private readonly ShopApplication _shop = new();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => ((IAsyncLifetime)_shop).DisposeAsync();

    [Fact]
    public async Task Papers_are_shown_to_those_who_may_see_them()
    {
        var jobId = await OpenJobAsync();
        var technician = await _shop.SignInAsync(ShopRole.Technician);
        foreach (var paper in new[] { "handover", "traveller", "check-in", "signal", "weight" })
        {
            var answer = await technician.GetAsync($"/documents/jobs/{jobId}/{paper}.pdf");
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
            Assert.Equal("application/pdf", answer.Content.Headers.ContentType?.MediaType);
            Assert.StartsWith("inline", answer.Content.Headers.ContentDisposition?.ToString(), StringComparison.Ordinal);
            Assert.Equal("%PDF"u8.ToArray(), (await answer.Content.ReadAsByteArrayAsync())[..4]);
        }
    }

    [Fact]
    public async Task Estimate_is_not_for_technicians_and_nothing_is_for_strangers()
    {
        var jobId = await OpenJobAsync();
        await IssueAsync(jobId);
        Assert.Equal(HttpStatusCode.OK, (await (await _shop.SignInAsync(ShopRole.FrontDesk)).GetAsync($"/documents/jobs/{jobId}/estimate.pdf")).StatusCode);

        var refused = await (await _shop.SignInAsync(ShopRole.Technician)).GetAsync($"/documents/jobs/{jobId}/estimate.pdf");
        Assert.NotEqual(HttpStatusCode.OK, refused.StatusCode);
        Assert.NotEqual("application/pdf", refused.Content.Headers.ContentType?.MediaType);
        foreach (var paper in new[] { "handover", "traveller", "check-in", "estimate", "signal", "weight" })
        {
            var stranger = await _shop.Anonymous().GetAsync($"/documents/jobs/{jobId}/{paper}.pdf");
            Assert.NotEqual(HttpStatusCode.OK, stranger.StatusCode);
        }
    }

    [Fact]
    public async Task Paper_of_a_job_that_is_not_there_is_not_found()
    {
        var owner = await _shop.SignInAsync(ShopRole.Owner);
        foreach (var paper in new[] { "handover", "traveller", "check-in", "estimate", "signal", "weight" })
        {
            Assert.Equal(HttpStatusCode.NotFound, (await owner.GetAsync($"/documents/jobs/{Guid.CreateVersion7()}/{paper}.pdf")).StatusCode);
        }
    }

    [Theory]
    [InlineData("J-0042-estimate-2.pdf", "J-0042", "estimate", "2")]
    [InlineData("J-0042-etcpasswd.pdf", "J-0042", "../etc/passwd")]
    [InlineData("J-0042.pdf", "J-0042", "ψηφ")]
    public void File_name_keeps_letters_digits_and_hyphens_only(string expected, params string[] parts)
    {
        Assert.Equal(expected, PaperEndpoints.FileName(parts));
    }

    private async Task<Guid> OpenJobAsync()
    {
        var outcome = await _shop.Get<JobDesk>().OpenAsync(
            _shop.Actor(ShopRole.FrontDesk),
            new OpenJob
            {
                NewClient = new ClientDetails { Name = "Clea Client" },
                NewVehicle = new VehicleDetails { Make = "Verano", Model = "Lince", ModelYear = 2024, Plate = "AB 123" },
                Card = new JobCardDetails { Title = "Better sound" },
            },
            CancellationToken.None);
        Assert.True(outcome.Succeeded, outcome.Message);
        return outcome.Value;
    }

    private async Task IssueAsync(Guid jobId)
    {
        var desk = _shop.Actor(ShopRole.FrontDesk);
        var part = await _shop.Get<PartsList>().AddAsync(desk, jobId, new JobPartDetails { Name = "Amplifier", UnitPrice = 100 }, CancellationToken.None);
        Assert.True(part.Succeeded, part.Message);
        var draft = (await _shop.Get<Estimates>().SheetAsync(desk, jobId, CancellationToken.None)).Draft;
        var issued = await _shop.Get<Estimates>().IssueAsync(desk, jobId, draft.ContentHash, "", CancellationToken.None);
        Assert.True(issued.Succeeded, issued.Message);
    }
}
