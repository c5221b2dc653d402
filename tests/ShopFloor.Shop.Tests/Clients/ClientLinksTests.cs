using System.Reflection;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Phases.Estimate;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Staff.Secrets;

namespace ShopFloor.Shop.Tests.Clients;

public sealed class ClientLinksTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();

    private ClientLinks Links => _shop.Get<ClientLinks>();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task Link_opens_its_own_job_until_it_expires()
    {
        await _shop.SettingsAsync(settings => settings.ClientLinkDays = 3);
        var (jobId, _) = (await _shop.OpenJobAsync(), await _shop.OpenJobAsync());
        var secret = await NewSecretAsync(jobId);

        _shop.Time.Advance(TimeSpan.FromDays(3) - TimeSpan.FromSeconds(1));
        Assert.Equal(jobId, (await Links.ResolveAsync(secret, CancellationToken.None))?.JobId);

        _shop.Time.Advance(TimeSpan.FromSeconds(1));
        Assert.Null(await Links.ResolveAsync(secret, CancellationToken.None));
    }

    [Fact]
    public async Task Revoked_link_opens_nothing_and_the_others_go_on()
    {
        var jobId = await _shop.OpenJobAsync();
        var (first, second) = (await NewSecretAsync(jobId), await NewSecretAsync(jobId));
        var firstId = (await Links.ResolveAsync(first, CancellationToken.None))!.LinkId; // just made

        await Links.RevokeAsync(_shop.Desk, firstId, CancellationToken.None);

        Assert.Null(await Links.ResolveAsync(first, CancellationToken.None));
        Assert.NotNull(await Links.ResolveAsync(second, CancellationToken.None));
    }

    [Fact]
    public async Task Rotating_ends_every_earlier_link()
    {
        var jobId = await _shop.OpenJobAsync();
        var (first, second) = (await NewSecretAsync(jobId), await NewSecretAsync(jobId));

        var fresh = (await Links.RotateAsync(_shop.Desk, jobId, CancellationToken.None)).Value!.Path[3..]; // rotating an open job's links succeeds

        Assert.Null(await Links.ResolveAsync(first, CancellationToken.None));
        Assert.Null(await Links.ResolveAsync(second, CancellationToken.None));
        Assert.NotNull(await Links.ResolveAsync(fresh, CancellationToken.None));
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("1")]
    [InlineData("' OR 1=1 --")]
    [InlineData("AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA")]
    public async Task Guess_opens_nothing(string? guess)
    {
        await NewSecretAsync(await _shop.OpenJobAsync());
        Assert.Null(await Links.ResolveAsync(guess, CancellationToken.None));
    }

    [Fact]
    public async Task Nearly_the_right_secret_and_the_stored_hash_open_nothing()
    {
        var jobId = await _shop.OpenJobAsync();
        var secret = await NewSecretAsync(jobId);
        var stored = (await _shop.ReadAsync(db => db.ClientLinks.SingleAsync())).Hash;

        for (var place = 0; place < secret.Length; place++)
        {
            var near = secret[..place] + (secret[place] == 'A' ? 'B' : 'A') + secret[(place + 1)..];
            Assert.Null(await Links.ResolveAsync(near, CancellationToken.None));
        }

        Assert.Null(await Links.ResolveAsync(stored, CancellationToken.None));
        Assert.Null(await Links.ResolveAsync(stored[..SecretToken.TextLength], CancellationToken.None));
    }

    [Fact]
    public async Task Secret_is_kept_neither_in_the_database_nor_in_the_record()
    {
        var secret = await NewSecretAsync(await _shop.OpenJobAsync());

        var bytes = new List<byte>();
        foreach (var file in Directory.GetFiles(_shop.Folder.Root, "*", SearchOption.AllDirectories))
        {
            await using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
            var content = new byte[stream.Length];
            await stream.ReadExactlyAsync(content);
            bytes.AddRange(content);
        }

        Assert.True(bytes.Count > 10_000);
        var text = System.Text.Encoding.Latin1.GetString([.. bytes]);
        Assert.DoesNotContain(secret, text, StringComparison.Ordinal);
        Assert.Contains("Clea Client", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Opening_is_counted_and_changes_nothing_else()
    {
        var jobId = await _shop.OpenJobAsync();
        var access = await Links.ResolveAsync(await NewSecretAsync(jobId), CancellationToken.None);
        var trail = await _shop.ReadAsync(db => db.AuditEntries.CountAsync());

        await Links.CountOpeningAsync(access!, CancellationToken.None); // just made
        await Links.CountOpeningAsync(access!, CancellationToken.None); // just made

        Assert.Equal(2, Assert.Single(await Links.ListAsync(_shop.Desk, jobId, CancellationToken.None)).OpenedCount);
        Assert.Equal(trail, await _shop.ReadAsync(db => db.AuditEntries.CountAsync()));
    }

    [Fact]
    public void Nothing_a_client_is_shown_has_a_cost_or_a_margin()
    {
        var seen = new HashSet<Type>();
        foreach (var root in new[] { typeof(SharedJob), typeof(EstimatePaper), typeof(SharedPhoto), typeof(ReleasedHandover) })
        {
            Walk(root, seen);
        }

        Assert.Contains(typeof(EstimateLine), seen);
        Assert.Contains(typeof(HandoverFacts), seen);
        string[] forbidden = ["Cost", "Margin", "Wage", "Budget", "Supplier", "Rate"];
        var offenders = seen.SelectMany(type => type.GetProperties()).Where(property => forbidden.Any(word => property.Name.Contains(word, StringComparison.Ordinal)));
        Assert.Empty(offenders.Select(property => $"{property.DeclaringType?.Name}.{property.Name}"));
    }

    private static void Walk(Type type, HashSet<Type> seen)
    {
        if (type.IsArray || type.IsGenericType)
        {
            foreach (var inner in type.IsArray ? [type.GetElementType()!] : type.GetGenericArguments()) // an array has an element type
            {
                Walk(inner, seen);
            }
        }
        else if (type.Assembly == typeof(SharedJob).Assembly && seen.Add(type))
        {
            foreach (var property in type.GetProperties(BindingFlags.Public | BindingFlags.Instance))
            {
                Walk(property.PropertyType, seen);
            }
        }
    }

    private async Task<string> NewSecretAsync(Guid jobId)
    {
        var outcome = await Links.CreateAsync(_shop.Desk, jobId, CancellationToken.None);
        Assert.True(outcome.Succeeded, outcome.Message);
        Assert.Equal(SecretToken.TextLength + 3, outcome.Value.Path.Length);
        return outcome.Value.Path["/c/".Length..];
    }
}
