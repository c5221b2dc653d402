using ShopFloor.Shop.Staff;
using ShopFloor.Web.Operations;

namespace ShopFloor.Web.Tests.Operations;

public sealed class OperatorActTests : IAsyncLifetime
{
    private readonly ShopApplication _shop = new();
    private readonly string _outside = Path.Combine(Path.GetTempPath(), "shopfloor-web-tests", Guid.CreateVersion7().ToString("N"));

    public Task InitializeAsync() => _shop.InitializeAsync();

    public async Task DisposeAsync()
    {
        await _shop.DisposeAsync();
        if (Directory.Exists(_outside))
        {
            Directory.Delete(_outside, recursive: true);
        }
    }

    [Fact]
    public async Task A_running_shop_is_backed_up_restored_and_verified_from_the_command_line()
    {
        var (made, madeWords, _) = await RunAsync("backup", "--data", _shop.Folder.Root, "--to", _outside);
        var archive = Directory.GetFiles(_outside, "*.zip").Single();
        var restored = Path.Combine(_outside, "restored");
        var (put, putWords, _) = await RunAsync("restore", "--from", archive, "--data", restored);
        var (sound, soundWords, _) = await RunAsync("verify", "--data", restored);
        var (again, _, refusal) = await RunAsync("restore", "--from", archive, "--data", restored);

        Assert.Equal((0, 0, 0, 1), (made, put, sound, again));
        Assert.Contains("found whole", madeWords, StringComparison.Ordinal);
        Assert.Contains("every hash as in the manifest", putWords, StringComparison.Ordinal);
        Assert.Contains("0 problems", soundWords, StringComparison.Ordinal);
        Assert.Contains("not empty", refusal, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("restore --from", "--from needs a value")]
    [InlineData("restore", "Name the archive")]
    [InlineData("restore --from x.zip", "Name the folder")]
    public async Task A_command_line_that_is_not_complete_says_what_is_missing(string line, string words)
    {
        var (code, _, complaint) = await RunAsync(line.Split(' '));

        Assert.Equal(2, code);
        Assert.Contains(words, complaint, StringComparison.Ordinal);
    }

    [Fact]
    public void Our_own_words_are_kept_from_the_host_and_the_rest_is_passed_on()
    {
        var start = StartOptions.Read(["--demo", "--data", "/somewhere", "--urls", "http://localhost:5080"]);

        Assert.True(start.Demo);
        Assert.Equal("/somewhere", start.Value("--data"));
        Assert.Equal(["--urls", "http://localhost:5080"], start.HostArguments);
        Assert.Equal(StartVerb.Serve, start.Verb);
    }

    [Fact]
    public async Task The_owner_makes_an_archive_in_the_settings_and_fetches_it()
    {
        var owner = _shop.Actor(ShopRole.Owner);
        var made = await _shop.Get<ShopFloor.Shop.Storage.Backup.BackupDesk>().MakeAsync(owner, CancellationToken.None);
        var browser = await _shop.SignInAsync(ShopRole.Owner);

        var archive = await browser.GetByteArrayAsync($"/settings/backup/files/{made.Value?.Name}");
        var missing = await browser.GetAsync("/settings/backup/files/..%2Fshop.db");

        Assert.Equal(made.Value?.Bytes, archive.Length);
        Assert.Equal(System.Net.HttpStatusCode.NotFound, missing.StatusCode);
    }

    private static async Task<(int Code, string Answer, string Complaint)> RunAsync(params string[] line)
    {
        await using var answer = new StringWriter();
        await using var complaint = new StringWriter();
        var start = StartOptions.Read(line);
        var code = await OperatorActs.RunAsync(start with { DataFolder = start.Value("--data") ?? "" }, answer, complaint, CancellationToken.None);
        return (code, answer.ToString(), complaint.ToString());
    }
}
