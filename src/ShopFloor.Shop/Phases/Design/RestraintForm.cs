using System.ComponentModel.DataAnnotations;
using System.Globalization;
using ShopFloor.Engineering.Fabrication.Restraint;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What is held down.</summary>
public enum RestrainedItem
{
    Enclosure,
    Rack,
    FalseFloor,
    Other,
}

/// <summary>What it is held by.</summary>
public enum HoldKind
{
    Bolts,
    Brackets,
    Magnets,
}

/// <summary>What a fastener must neither go into nor block.</summary>
public enum RestraintHazard
{
    Airbags,
    Belts,
    ChildSeatAnchors,
    FuelLines,
    HighVoltage,
}

/// <summary>Somebody looked and found it clear.</summary>
public sealed record RestraintTick(RestraintHazard Hazard, string By, DateTimeOffset At);

/// <summary>Where a fastener sits, seen from above, from the middle of the base.</summary>
public sealed record HeldAt
{
    public string Mark { get; set; } = "";

    public double ForwardMeters { get; set; }

    public double LeftMeters { get; set; }

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Mark} ({ForwardMeters:0.###}; {LeftMeters:0.###} m)");
}

/// <summary>An enclosure, rack or floor: what it carries, what holds it and what was looked at. Its mass is that of the parts it carries.</summary>
public sealed record RestraintForm : IDesignForm
{
    public static DesignKind Kind => DesignKind.Restraint;

    public static Permission Needed => Permission.DesignJobs;

    [Display(Name = "Holds down")]
    public RestrainedItem Item { get; set; }

    /// <summary>Lines of the parts list, the box or floor itself among them.</summary>
    [Display(Name = "Parts it carries")]
    public List<Guid> PartIds { get; set; } = [];

    [Display(Name = "Length of the base (m)")]
    public double? BaseLengthMeters { get; set; }

    [Display(Name = "Width of the base (m)")]
    public double? BaseWidthMeters { get; set; }

    [Display(Name = "Centre of mass above the base (m)")]
    public double? CenterHeightMeters { get; set; }

    [Display(Name = "Centre of mass before the middle (m)")]
    public double CenterForwardMeters { get; set; }

    [Display(Name = "Centre of mass left of the middle (m)")]
    public double CenterLeftMeters { get; set; }

    [Display(Name = "Held by")]
    public HoldKind HeldBy { get; set; }

    [Display(Name = "Thread")]
    public CoarseThread Thread { get; set; } = CoarseThread.M8;

    [Display(Name = "Class on the head")]
    public BoltClass BoltClass { get; set; } = BoltClass.Class88;

    [Display(Name = "Goes into")]
    public HeldIn In { get; set; } = HeldIn.BackedSheet;

    [Display(Name = "Rated pull of one (N)")]
    public double? PullNewtons { get; set; }

    [Display(Name = "Rated force across one (N)")]
    public double? AcrossNewtons { get; set; }

    [Display(Name = "Grade of the magnets")]
    public MagnetGrade Grade { get; set; }

    [Display(Name = "Warmest the magnets get (°C)")]
    public double MagnetCelsius { get; set; } = 70;

    [Display(Name = "Pull left over paint and felt (%)")]
    public double? GapPercent { get; set; }

    [Display(Name = "Fasteners")]
    public List<HeldAt> Fasteners { get; set; } = [];

    /// <summary>Empty takes the shop's.</summary>
    [Display(Name = "Held to the front against (g)")]
    public double? ForwardG { get; set; }

    [Display(Name = "Held to the rear against (g)")]
    public double? RearwardG { get; set; }

    [Display(Name = "Held sideways against (g)")]
    public double? SidewaysG { get; set; }

    [Display(Name = "Held upward against (g)")]
    public double? UpG { get; set; }

    [Display(Name = "Looked at")]
    public List<RestraintTick> Ticks { get; set; } = [];

    /// <summary>What one fastener bears, by its kind. A bracket, insert or strap by what its maker or a pull test says.</summary>
    internal Hold Hold => HeldBy switch
    {
        HoldKind.Bolts => new BoltHold { Thread = Thread, Class = BoltClass, In = In },
        HoldKind.Magnets => new MagnetHold { PullNewtons = PullNewtons ?? 0, Grade = Grade, Celsius = MagnetCelsius, GapShare = GapPercent / 100 }, // refused without a pull
        _ => new RatedHold { RatedTensionNewtons = PullNewtons ?? 0, RatedShearNewtons = AcrossNewtons ?? 0 },
    };

    /// <summary>What holds it, in words for tables and papers.</summary>
    public string HeldByText => HeldBy switch
    {
        HoldKind.Bolts => $"{Fasteners.Count} bolts {Thread} class {ClassText(BoltClass)} into {InText(In)}",
        HoldKind.Magnets => string.Create(CultureInfo.CurrentCulture, $"{Fasteners.Count} magnets, {PullNewtons:0.#} N each"),
        _ => string.Create(CultureInfo.CurrentCulture, $"{Fasteners.Count} brackets, {PullNewtons:0} N pull and {AcrossNewtons:0} N across each"),
    };

    /// <summary>As it is stamped on the head.</summary>
    public static string ClassText(BoltClass of) => of switch { BoltClass.Class48 => "4.8", BoltClass.Class58 => "5.8", BoltClass.Class88 => "8.8", _ => "10.9" };

    public static string InText(HeldIn what) => what switch
    {
        HeldIn.SheetMetal => "body sheet",
        HeldIn.BackedSheet => "sheet with a plate or large washer behind",
        HeldIn.Wood => "wood or board",
        _ => "a threaded point of the vehicle",
    };

    public List<Problem> Problems()
    {
        var check = new Check()
            .That(PartIds.Count > 0, nameof(PartIds), "No part is carried; choose the lines of the parts list it holds, the box itself among them.")
            .That(BaseLengthMeters is not null, nameof(BaseLengthMeters), "The length of the base is needed.")
            .That(BaseWidthMeters is not null, nameof(BaseWidthMeters), "The width of the base is needed.")
            .That(CenterHeightMeters is not null, nameof(CenterHeightMeters), "The height of the centre of mass is needed; half the height of an evenly filled box will do.")
            .That(HeldBy == HoldKind.Bolts || PullNewtons is not null, nameof(PullNewtons), "The rated pull of one is needed: from its maker or from a pull test.")
            .That(HeldBy != HoldKind.Brackets || AcrossNewtons is not null, nameof(AcrossNewtons), "The rated force across one is needed: from its maker or from a test.")
            .That(Fasteners.Count > 0, nameof(Fasteners), "No fastener is placed; 1 to 60 are accepted.")
            .Range(GapPercent, nameof(GapPercent), "The pull left over paint and felt", 0.1, 100, "%")
            .Range(PullNewtons, nameof(PullNewtons), "The rated pull of one", HeldBy == HoldKind.Magnets ? 0.1 : 1, HeldBy == HoldKind.Magnets ? 5_000 : 200_000, "N")
            .Range(AcrossNewtons, nameof(AcrossNewtons), "The rated force across one", 1, 200_000, "N");
        if (!check.Failed)
        {
            // The calculation's own ranges, with the lightest item it takes: the mass comes from the parts.
            check.Problems.AddRange(Input("It", 1, new Decelerations(ForwardG ?? 20, RearwardG ?? 20, SidewaysG ?? 8, UpG ?? 5)).Validate().Select(problem => new Problem(FieldOf(problem.Field), problem.Message)));
        }

        return check.Problems;
    }

    internal RestraintInput Input(string name, double kilograms, Decelerations decelerations) => new()
    {
        Name = name,
        Kilograms = kilograms,
        BaseLengthMeters = BaseLengthMeters!.Value, // checked when it was saved
        BaseWidthMeters = BaseWidthMeters!.Value,
        CenterHeightMeters = CenterHeightMeters!.Value,
        CenterForwardMeters = CenterForwardMeters,
        CenterLeftMeters = CenterLeftMeters,
        Hold = Hold,
        Fasteners = [.. Fasteners.Select(each => new FastenerPlace(each.Mark, each.ForwardMeters, each.LeftMeters))],
        Decelerations = decelerations,
    };

    /// <summary>Whether ticks made for one say nothing about the other: it is held elsewhere or by something else.</summary>
    internal bool IsHeldOtherwiseThan(RestraintForm other) => Hold != other.Hold || !Fasteners.SequenceEqual(other.Fasteners);

    public RestraintForm Copy() => this with { PartIds = [.. PartIds], Fasteners = [.. Fasteners.Select(each => each with { })], Ticks = [.. Ticks] };

    private static string FieldOf(string field) =>
        field.StartsWith(nameof(Fasteners), StringComparison.Ordinal) ? nameof(Fasteners)
        : field.StartsWith("Hold.", StringComparison.Ordinal) ? field[5..]
        : field[(field.IndexOf('.', StringComparison.Ordinal) + 1)..];
}
