using System.ComponentModel.DataAnnotations;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;

namespace ShopFloor.Shop.Staff;

/// <summary>What the owner types about a person who works in the shop.</summary>
public sealed class PersonForm
{
    [Display(Name = "Name")]
    public string DisplayName { get; set; } = "";

    [Display(Name = "Sign-in name")]
    public string UserName { get; set; } = "";

    [Display(Name = "Role")]
    public ShopRole Role { get; set; }

    [Display(Name = "Cost of an hour")]
    public decimal CostPerHour { get; set; }

    [Display(Name = "Units")]
    public UnitSystem Units { get; set; }

    [Display(Name = "May sign in")]
    public bool IsActive { get; set; } = true;

    public static PersonForm Of(StaffMember member) => new()
    {
        DisplayName = member.DisplayName,
        UserName = member.UserName ?? "",
        Role = member.Role,
        CostPerHour = member.CostPerHour,
        Units = member.Units,
        IsActive = member.IsActive,
    };

    public List<Problem> Problems() => new Check()
        .Required(DisplayName, nameof(DisplayName), "The name", 100)
        .Required(UserName, nameof(UserName), "The sign-in name", 50)
        .That(
            UserName.Trim().All(letter => char.IsAsciiLetterOrDigit(letter) || letter is '.' or '-' or '_'),
            nameof(UserName),
            $"The sign-in name is '{UserName.Trim()}'; accepted are letters a to z, digits, dot, hyphen and underscore.")
        .That(Enum.IsDefined(Role), nameof(Role), $"'{Role}' is no role; accepted are {string.Join(", ", Enum.GetNames<ShopRole>())}.")
        .Range(CostPerHour, nameof(CostPerHour), "The cost of an hour", 0, 10_000, "")
        .Problems;
}
