using ShopFloor.Engineering.Explained;
using ShopFloor.Shop.Phases.Intake;

namespace ShopFloor.Shop.Tests.Phases.Intake;

public sealed class CheckInDeskTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();

    private CheckInDesk CheckInDesk => _shop.Get<CheckInDesk>();

    private FactoryFunctions Functions => _shop.Get<FactoryFunctions>();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task A_record_cannot_be_signed_before_the_battery_and_the_warning_lights_are_noted()
    {
        var jobId = await _shop.OpenJobAsync();

        var outcome = await SignAsync(jobId);

        Assert.Equal(["BatteryVolts", "WarningLights"], outcome.Problems.Select(problem => problem.Field));
    }

    [Fact]
    public async Task A_signed_record_is_closed_until_it_is_opened_again_with_a_reason()
    {
        var jobId = await FilledInAsync();
        Assert.True((await SignAsync(jobId)).Succeeded);

        var mark = await CheckInDesk.AddMarkAsync(_shop.Desk, jobId, new NewConditionMark(ConditionKind.Dent, 0.2, 0.3, "", ""), CancellationToken.None);
        Assert.Contains("has signed", mark.Message, StringComparison.Ordinal);

        Assert.False((await CheckInDesk.OpenAgainAsync(_shop.Desk, jobId, " ", CancellationToken.None)).Succeeded);
        Assert.True((await CheckInDesk.OpenAgainAsync(_shop.Desk, jobId, "Found a second scratch", CancellationToken.None)).Succeeded);
        Assert.Null((await CheckInDesk.LoadAsync(_shop.Desk, jobId, CancellationToken.None)).Signed);
    }

    [Fact]
    public async Task A_record_that_changed_while_the_client_read_it_is_not_signed()
    {
        var jobId = await FilledInAsync();
        var shown = await CheckInDesk.LoadAsync(_shop.Desk, jobId, CancellationToken.None);
        await CheckInDesk.AddMarkAsync(_shop.Owner, jobId, new NewConditionMark(ConditionKind.Scratch, 0.5, 0.5, "Bonnet", ""), CancellationToken.None);

        var outcome = await CheckInDesk.SignAsync(_shop.Desk, jobId, new CheckInSignature("Clea Client", "M0 0L5 5", shown.ContentHash), CancellationToken.None);

        Assert.Contains("changed while", outcome.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("<svg onload=x>")]
    [InlineData("M0 0\"/><script>")]
    [InlineData("javascript:alert(1)")]
    public async Task A_signature_that_is_not_strokes_is_refused(string path)
    {
        var jobId = await FilledInAsync();
        var shown = await CheckInDesk.LoadAsync(_shop.Desk, jobId, CancellationToken.None);

        var outcome = await CheckInDesk.SignAsync(_shop.Desk, jobId, new CheckInSignature("Clea", path, shown.ContentHash), CancellationToken.None);

        Assert.Equal("Path", Assert.Single(outcome.Problems).Field);
    }

    [Fact]
    public async Task A_removed_mark_comes_back_with_its_number()
    {
        var jobId = await _shop.OpenJobAsync();
        var first = (await CheckInDesk.AddMarkAsync(_shop.Desk, jobId, new NewConditionMark(ConditionKind.Chip, 0.1, 0.1, "", ""), CancellationToken.None)).Value;
        await CheckInDesk.RemoveMarkAsync(_shop.Desk, jobId, first, CancellationToken.None);
        await CheckInDesk.AddMarkAsync(_shop.Desk, jobId, new NewConditionMark(ConditionKind.Dent, 0.2, 0.2, "", ""), CancellationToken.None);

        await CheckInDesk.BringBackMarkAsync(_shop.Desk, jobId, first, CancellationToken.None);

        var marks = (await CheckInDesk.LoadAsync(_shop.Desk, jobId, CancellationToken.None)).Marks;
        Assert.Equal([(1, ConditionKind.Chip), (2, ConditionKind.Dent)], marks.Select(mark => (mark.Number, mark.Kind)));
    }

    [Theory]
    [InlineData(-0.1, 0.5)]
    [InlineData(0.5, 1.5)]
    [InlineData(double.NaN, 0.5)]
    public async Task A_mark_outside_the_drawing_is_refused(double x, double y)
    {
        var jobId = await _shop.OpenJobAsync();

        var outcome = await CheckInDesk.AddMarkAsync(_shop.Desk, jobId, new NewConditionMark(ConditionKind.Dent, x, y, "", ""), CancellationToken.None);

        Assert.Single(outcome.Problems);
    }

    [Fact]
    public async Task An_unexplained_difference_stops_delivery_and_an_explained_one_does_not()
    {
        var jobId = await _shop.OpenJobAsync();
        var function = (await Functions.ListAsync(_shop.Desk, jobId, CancellationToken.None))[0];
        await Functions.TryBeforeAsync(_shop.Technician, jobId, function.Id, FunctionResult.Works, "", CancellationToken.None);
        await Functions.TryAfterAsync(_shop.Technician, jobId, function.Id, FunctionResult.Faulty, "", CancellationToken.None);
        Assert.Contains(await FindingsOfAsync(jobId, function.Id), finding => finding is { Code: "function-difference-unexplained", Severity: Severity.Stop });

        await Functions.TryAfterAsync(_shop.Technician, jobId, function.Id, FunctionResult.Faulty, "Aerial was broken by the car wash; client informed", CancellationToken.None);

        Assert.DoesNotContain(await FindingsOfAsync(jobId, function.Id), finding => finding.Severity == Severity.Stop);
    }

    [Fact]
    public async Task A_feature_not_tried_after_the_work_stops_delivery_unless_the_car_does_not_have_it()
    {
        var jobId = await _shop.OpenJobAsync();
        var functions = await Functions.ListAsync(_shop.Desk, jobId, CancellationToken.None);
        await Functions.TryBeforeAsync(_shop.Technician, jobId, functions[0].Id, FunctionResult.Works, "", CancellationToken.None);
        await Functions.TryBeforeAsync(_shop.Technician, jobId, functions[1].Id, FunctionResult.NotFitted, "", CancellationToken.None);

        Assert.Contains(await FindingsOfAsync(jobId, functions[0].Id), finding => finding.Code == "function-not-tried-after");
        Assert.Empty(await FindingsOfAsync(jobId, functions[1].Id));
    }

    private async Task<List<Finding>> FindingsOfAsync(Guid jobId, Guid functionId) =>
        [.. (await Functions.FindingsAsync(jobId, CancellationToken.None)).Where(finding => finding.SubjectId == functionId.ToString())];

    private async Task<Guid> FilledInAsync()
    {
        var jobId = await _shop.OpenJobAsync();
        var view = await CheckInDesk.LoadAsync(_shop.Desk, jobId, CancellationToken.None);
        view.Details.BatteryVolts = 12.6;
        view.Details.NoWarningLights = true;
        Assert.True((await CheckInDesk.SaveAsync(_shop.Desk, jobId, view.Version, view.Details, CancellationToken.None)).Succeeded);
        return jobId;
    }

    private async Task<Shop.Common.Outcome<Shop.Common.Done>> SignAsync(Guid jobId)
    {
        var shown = await CheckInDesk.LoadAsync(_shop.Desk, jobId, CancellationToken.None);
        return await CheckInDesk.SignAsync(_shop.Desk, jobId, new CheckInSignature("Clea Client", "M10 20L30 40", shown.ContentHash), CancellationToken.None);
    }
}
