using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Tests.Phases.Build;
using ShopFloor.Shop.Tests.Storage.Photos;
using SkiaSharp;
using static ShopFloor.Shop.Tests.Phases.Build.StageBuilder;

namespace ShopFloor.Shop.Tests.Jobs;

public sealed class JobPhotosTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    private JobPhotos Photos => _shop.Get<JobPhotos>();

    [Fact]
    public async Task An_upload_is_stored_listed_and_read_back()
    {
        var jobId = await _shop.OpenJobAsync();

        var photoId = await AddAsync(new NewPhoto(jobId, PhotoSubject.Job, null, " Left door "));

        var row = Assert.Single(await Photos.ListAsync(_shop.Technician, jobId, null, null, CancellationToken.None));
        Assert.Equal((photoId, "Left door", "Tom Tech", 64, 32), (row.Id, row.Caption, row.TakenBy, row.Width, row.Height));
        await using var file = (await Photos.OpenAsync(_shop.Technician, photoId, thumbnail: false, CancellationToken.None))!.Content; // just stored
        using var picture = SKBitmap.Decode(file);
        Assert.Equal((64, 32), (picture.Width, picture.Height));
    }

    [Fact]
    public async Task The_same_upload_sent_again_is_kept_once()
    {
        var jobId = await _shop.OpenJobAsync();

        var first = await AddAsync(new NewPhoto(jobId, PhotoSubject.Job));
        var again = await AddAsync(new NewPhoto(jobId, PhotoSubject.Job));

        Assert.Equal(first, again);
        Assert.Single(await Photos.ListAsync(_shop.Technician, jobId, null, null, CancellationToken.None));
    }

    [Fact]
    public async Task What_is_no_picture_is_refused_in_words_and_leaves_nothing()
    {
        var jobId = await _shop.OpenJobAsync();

        var outcome = await Photos.AddAsync(
            _shop.Technician, new NewPhoto(jobId, PhotoSubject.Job), new MemoryStream(SamplePhotos.Text("%PDF-1.7")), CancellationToken.None);

        Assert.Contains("PDF", outcome.Message, StringComparison.Ordinal);
        Assert.Empty(await Photos.ListAsync(_shop.Technician, jobId, null, null, CancellationToken.None));
    }

    [Fact]
    public async Task A_photo_of_a_step_of_another_job_is_refused()
    {
        var (mine, other) = (await _shop.PlannedJobAsync(Stage("A", Step())), await _shop.PlannedJobAsync(Stage("A", Step())));

        var outcome = await Photos.AddAsync(
            _shop.Technician, new NewPhoto(mine.JobId, PhotoSubject.Step, other.Stages[0].Steps[0].Id), Upload(), CancellationToken.None);

        Assert.Equal("SubjectId", Assert.Single(outcome.Problems).Field);
    }

    [Fact]
    public async Task The_last_proof_of_a_ticked_step_stays()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("A", Step() with { NeedsPhoto = true }));
        var stepId = sheet.Stages[0].Steps[0].Id;
        var photoId = await AddAsync(new NewPhoto(sheet.JobId, PhotoSubject.Step, stepId));
        var tick = await _shop.Get<StageWork>().TickAsync(_shop.Technician, NewId(), new TickStep(stepId), null, CancellationToken.None);
        Assert.True(tick.Succeeded, tick.Message);

        var kept = await Photos.RemoveAsync(_shop.Technician, photoId, CancellationToken.None);
        await _shop.Get<StageWork>().UntickAsync(_shop.Technician, NewId(), stepId, CancellationToken.None);
        var gone = await Photos.RemoveAsync(_shop.Technician, photoId, CancellationToken.None);

        Assert.Contains("proof", kept.Message, StringComparison.Ordinal);
        Assert.True(gone.Succeeded, gone.Message);
    }

    [Fact]
    public async Task A_removed_photo_is_not_served_and_can_be_brought_back()
    {
        var jobId = await _shop.OpenJobAsync();
        var photoId = await AddAsync(new NewPhoto(jobId, PhotoSubject.Job));

        await Photos.RemoveAsync(_shop.Technician, photoId, CancellationToken.None);
        Assert.Null(await Photos.OpenAsync(_shop.Technician, photoId, thumbnail: true, CancellationToken.None));
        await Photos.BringBackAsync(_shop.Technician, photoId, CancellationToken.None);

        await using var content = (await Photos.OpenAsync(_shop.Technician, photoId, thumbnail: true, CancellationToken.None))!.Content; // back again
        Assert.True(content.Length > 0);
    }

    [Theory]
    [InlineData(ShopRole.Technician, false)]
    [InlineData(ShopRole.FrontDesk, true)]
    [InlineData(ShopRole.Owner, true)]
    public async Task The_desk_decides_what_the_client_sees(ShopRole role, bool allowed)
    {
        var jobId = await _shop.OpenJobAsync();
        var photoId = await AddAsync(new NewPhoto(jobId, PhotoSubject.Job));
        Task<Outcome<Done>> Show() => Photos.ShowToClientAsync(_shop.Owner with { Role = role }, photoId, true, CancellationToken.None);

        if (allowed)
        {
            await Show();
        }
        else
        {
            await Assert.ThrowsAsync<NotAllowedException>(Show);
        }

        Assert.Equal(allowed, (await Photos.ListAsync(_shop.Technician, jobId, null, null, CancellationToken.None))[0].ShownToClient);
    }

    private static MemoryStream Upload() => new(SamplePhotos.Quarters(SKEncodedImageFormat.Png));

    private async Task<Guid> AddAsync(NewPhoto command)
    {
        var outcome = await Photos.AddAsync(_shop.Technician, command, Upload(), CancellationToken.None);
        Assert.True(outcome.Succeeded, outcome.Message);
        return outcome.Value;
    }
}
