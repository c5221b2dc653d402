using System.ComponentModel.DataAnnotations;
using ShopFloor.Engineering.Tuning.Processors;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Money;

/// <summary>The shop's own facts: who it is, what an hour costs, what the papers say. There is one.</summary>
public sealed class ShopSettings : IAudited, IVersioned
{
    public static readonly Guid OnlyId = Guid.Parse("00000000-0000-7000-8000-000000000001");

    public ShopSettings(ShopSettingsForm form)
    {
        Id = OnlyId;
        Form = form;
    }

    private ShopSettings()
    {
    }

    public Guid Id { get; private set; }

    public Guid Version { get; private set; }

    public ShopSettingsForm Form { get; private set; } = new();

    public void Apply(ShopSettingsForm form) => Form = form;

    string IAudited.AuditName => "Shop settings";

    Guid? IAudited.AuditJobId => null;
}

public sealed record ShopSettingsForm
{
    [Display(Name = "Shop name")]
    public string Name { get; set; } = "";

    [Display(Name = "Address")]
    public string Address { get; set; } = "";

    [Display(Name = "Phone")]
    public string Phone { get; set; } = "";

    [Display(Name = "E-mail")]
    public string Email { get; set; } = "";

    [Display(Name = "Currency")]
    public string Currency { get; set; } = "EUR";

    [Display(Name = "Tax (%)")]
    public decimal TaxPercent { get; set; } = 20;

    [Display(Name = "Price of an hour, net")]
    public decimal PricePerHour { get; set; } = 85;

    [Display(Name = "Time zone")]
    public string TimeZoneId { get; set; } = "UTC";

    [Display(Name = "Units for new people")]
    public UnitSystem Units { get; set; }

    [Display(Name = "Days a client link lives")]
    public int ClientLinkDays { get; set; } = 60;

    [Display(Name = "Papers are printed on US Letter")]
    public bool LetterPaper { get; set; }

    [Display(Name = "Colour of feed conductors")]
    public string FeedColour { get; set; } = "red";

    [Display(Name = "Colour of return conductors")]
    public string ReturnColour { get; set; } = "black";

    [Display(Name = "Heavy parts are held against, to the front (g)")]
    public double HoldForwardG { get; set; } = 20;

    [Display(Name = "To the rear (g)")]
    public double HoldRearwardG { get; set; } = 20;

    [Display(Name = "To either side (g)")]
    public double HoldSidewaysG { get; set; } = 8;

    [Display(Name = "Upward (g)")]
    public double HoldUpG { get; set; } = 5;

    [Display(Name = "Check-in conditions")]
    public string CheckInConditions { get; set; } = "";

    [Display(Name = "Warranty")]
    public string Warranty { get; set; } = "";

    [Display(Name = "Care")]
    public string Care { get; set; } = "";

    [Display(Name = "Processors")]
    public IReadOnlyList<ProcessorProfile> Processors { get; set; } = [];

    [Display(Name = "Limits of a tuning")]
    public TuningLimits Tuning { get; set; } = new();

    public List<Problem> Problems() => new Check()
        .Required(Name, nameof(Name), "The shop's name")
        .Longest(Address, nameof(Address), "The address", Limits.Line)
        .Longest(Phone, nameof(Phone), "The phone number", 50)
        .Longest(Email, nameof(Email), "The e-mail address", Limits.Name)
        .Required(FeedColour, nameof(FeedColour), "The colour of feed conductors", 30)
        .Required(ReturnColour, nameof(ReturnColour), "The colour of return conductors", 30)
        .Longest(CheckInConditions, nameof(CheckInConditions), "The conditions", Limits.Note)
        .Longest(Warranty, nameof(Warranty), "The warranty", Limits.Note)
        .Longest(Care, nameof(Care), "The care advice", Limits.Note)
        .Range(TaxPercent, nameof(TaxPercent), "The tax", 0, 100, "%")
        .Range(PricePerHour, nameof(PricePerHour), "The price of an hour", 0, 10_000, "")
        .Range(ClientLinkDays, nameof(ClientLinkDays), "The life of a link", 1, 730, "days")
        .Range(HoldForwardG, nameof(HoldForwardG), "What is held to the front", 0.5, 60, "g")
        .Range(HoldRearwardG, nameof(HoldRearwardG), "What is held to the rear", 0.5, 60, "g")
        .Range(HoldSidewaysG, nameof(HoldSidewaysG), "What is held to either side", 0.5, 60, "g")
        .Range(HoldUpG, nameof(HoldUpG), "What is held upward", 0.5, 60, "g")
        .That(TimeZoneInfo.TryFindSystemTimeZoneById(TimeZoneId, out _), nameof(TimeZoneId), $"'{TimeZoneId}' is no time zone this computer knows; an example is Europe/Vienna.")
        .Problems;
}
