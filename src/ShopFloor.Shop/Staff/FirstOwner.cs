using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Staff;

/// <summary>
/// Sets an empty shop up with its first owner. A code shown only where the program was started proves that whoever does it runs the
/// computer, so that a stranger on the network cannot take the shop. Once there is a person, it refuses for good.
/// </summary>
public sealed class FirstOwner(ShopStore store, IPasswordHasher<StaffMember> passwords)
{
    private const int Tries = 10;

    // No 0/O, 1/I/L: it is read off a screen and typed.
    private const string Letters = "23456789ABCDEFGHJKMNPQRSTUVWXYZ";

    private readonly Lock _lock = new();
    private int _misses;

    /// <summary>The code; a new one at every start. For the console only, never for a log file or a page.</summary>
    public string SetUpCode { get; } = $"{RandomNumberGenerator.GetString(Letters, 5)}-{RandomNumberGenerator.GetString(Letters, 5)}";

    public Task<bool> IsNeededAsync(CancellationToken cancellationToken) =>
        store.ReadAsync(async db => !await db.Users.AnyAsync(cancellationToken), cancellationToken);

    public async Task<Outcome<Guid>> SetUpAsync(FirstOwnerForm form, CancellationToken cancellationToken)
    {
        var problems = form.Problems();
        if (problems.Count > 0)
        {
            return problems;
        }

        if (!await IsNeededAsync(cancellationToken))
        {
            return Refusal;
        }

        if (!CodeFits(form.SetUpCode, out var problem))
        {
            return new Problem(nameof(FirstOwnerForm.SetUpCode), problem);
        }

        return await store.WriteAsync<Guid>(
            Actor.Shop,
            async db =>
            {
                if (await db.Users.AnyAsync(cancellationToken))
                {
                    return Refusal;
                }

                var owner = People.NewMember(new PersonForm { DisplayName = form.DisplayName, UserName = form.UserName, Role = ShopRole.Owner });
                owner.PasswordHash = passwords.HashPassword(owner, form.Password);
                db.Users.Add(owner);
                if (!await db.ShopSettings.AnyAsync(cancellationToken))
                {
                    db.ShopSettings.Add(new ShopSettings(new ShopSettingsForm { Name = form.ShopName.Trim() }));
                }

                db.RecordAct("SetUp", owner, owner.Id, "");
                return owner.Id;
            },
            cancellationToken);
    }

    private static Problem Refusal { get; } = new("", "This shop is already set up. Sign in, or ask its owner.");

    private bool CodeFits(string typed, out string problem)
    {
        lock (_lock)
        {
            if (_misses >= Tries)
            {
                problem = "Too many wrong codes. Start the program again to get a new one.";
                return false;
            }

            var fits = CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(Plain(typed)), Encoding.UTF8.GetBytes(Plain(SetUpCode)));
            _misses = fits ? 0 : _misses + 1;
            problem = fits ? "" : "This is not the code the program shows where it was started.";
            return fits;
        }
    }

    private static string Plain(string code) => new([.. code.ToUpperInvariant().Where(char.IsAsciiLetterOrDigit)]);
}

/// <summary>What is typed at the first start.</summary>
public sealed class FirstOwnerForm
{
    public string SetUpCode { get; set; } = "";

    public string ShopName { get; set; } = "";

    public string DisplayName { get; set; } = "";

    public string UserName { get; set; } = "";

    public string Password { get; set; } = "";

    public List<Problem> Problems()
    {
        var check = new Check()
            .Required(SetUpCode, nameof(SetUpCode), "The set-up code", 40)
            .Required(ShopName, nameof(ShopName), "The shop's name");
        check.Problems.AddRange(new PersonForm { DisplayName = DisplayName, UserName = UserName, Role = ShopRole.Owner }.Problems());
        if (!PasswordRules.Accepts(Password, UserName.Trim(), out var problem))
        {
            check.Problems.Add(new Problem(nameof(Password), problem));
        }

        return check.Problems;
    }
}
