using System.ComponentModel.DataAnnotations;
using System.Globalization;
using ShopFloor.Engineering.Fabrication.Treatment;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What was done against a rattle, and what was heard when the tone was played again.</summary>
public sealed record RattleRemedy
{
    public string Text { get; set; } = "";

    public string By { get; set; } = "";

    public DateTimeOffset At { get; set; }

    /// <summary>Null until the tone was played again.</summary>
    public bool? StillHeard { get; set; }

    public string PlayedBy { get; set; } = "";

    public DateTimeOffset? PlayedAt { get; set; }
}

/// <summary>A rattle with everything done against it; the last remedy counts.</summary>
public sealed record RattleRow
{
    public string Id { get; set; } = CutRow.NewId();

    public string Place { get; set; } = "";

    public double Hertz { get; set; }

    public double? LevelDecibels { get; set; }

    public string FoundBy { get; set; } = "";

    public DateTimeOffset FoundAt { get; set; }

    public List<RattleRemedy> Remedies { get; set; } = [];

    /// <summary>Struck off as a mistake; kept on file.</summary>
    public bool IsStruckOff { get; set; }

    public RattleRemedy? Last => Remedies.Count > 0 ? Remedies[^1] : null;

    public RattleState State => RattleList.StateOf(Rattle());

    public Rattle Rattle() => new(Id, Place, Hertz, LevelDecibels, Last?.Text, Last?.StillHeard);

    public override string ToString() => string.Create(CultureInfo.CurrentCulture, $"{Place} at {Hertz:0.#} Hz: {Last?.Text}");
}

/// <summary>The rattles of a job, kept by those who work on it.</summary>
public sealed record RattleForm : IDesignForm
{
    public static DesignKind Kind => DesignKind.Rattle;

    public static Permission Needed => Permission.WorkOnJobs;

    [Display(Name = "Rattles")]
    public List<RattleRow> Rows { get; set; } = [];

    /// <summary>Those that count, lowest frequency first, as the tones are played.</summary>
    public IEnumerable<RattleRow> InOrder() => Rows.Where(row => !row.IsStruckOff).OrderBy(row => row.Hertz);

    public List<Problem> Problems() => [.. RattleList.Validate([.. Rows.Select(row => row.Rattle())]).Select(problem => new Problem(problem.Field, problem.Message))];
}
