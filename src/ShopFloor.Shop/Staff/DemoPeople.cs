using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff.Secrets;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Staff;

/// <summary>The invented people of the demo. They share one password that the sign-in page of the demo shows to everybody.</summary>
public sealed class DemoPeople(ShopStore store, IPasswordHasher<StaffMember> passwords, PinHasher pins)
{
    public const string Password = "try-the-shop-out";

    public const string Pin = "704182";

    private static readonly PersonForm[] All =
    [
        new() { UserName = "olive", DisplayName = "Olive Renn", Role = ShopRole.Owner, CostPerHour = 42 },
        new() { UserName = "dana", DisplayName = "Dana Moss", Role = ShopRole.FrontDesk, CostPerHour = 26 },
        new() { UserName = "tarik", DisplayName = "Tarik Voss", Role = ShopRole.Technician, CostPerHour = 31 },
        new() { UserName = "mila", DisplayName = "Mila Sorn", Role = ShopRole.Technician, CostPerHour = 29 },
    ];

    /// <summary>Adds them to a shop without people; leaves any other shop alone.</summary>
    public Task<Outcome<Done>> AddToEmptyShopAsync(CancellationToken cancellationToken) =>
        store.WriteAsync<Done>(
            Actor.Shop,
            async db =>
            {
                if (await db.Users.AnyAsync(cancellationToken))
                {
                    return Done.Value;
                }

                foreach (var form in All)
                {
                    var member = People.NewMember(form);
                    member.PasswordHash = passwords.HashPassword(member, Password);
                    member.PinHash = pins.Hash(Pin);
                    db.Users.Add(member);
                }

                return Done.Value;
            },
            cancellationToken);

    /// <summary>Those of them who are still here, for the sign-in page of the demo.</summary>
    public Task<List<DemoPerson>> ListAsync(CancellationToken cancellationToken)
    {
        var names = All.Select(form => form.UserName).ToList();
        return store.ReadAsync(
            db => db.Users
                .Where(member => member.IsActive && names.Contains(member.UserName!)) // a member without a name is not in the list
                .OrderByDescending(member => member.Role == ShopRole.Owner)
                .ThenBy(member => member.DisplayName)
                .Select(member => new DemoPerson(member.UserName!, member.DisplayName, member.Role)) // has a name: it is in the list
                .ToListAsync(cancellationToken),
            cancellationToken);
    }
}

public sealed record DemoPerson(string UserName, string DisplayName, ShopRole Role);
