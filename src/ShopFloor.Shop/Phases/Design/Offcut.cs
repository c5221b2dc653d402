using System.ComponentModel.DataAnnotations;
using System.Globalization;
using ShopFloor.Engineering.Fabrication.Nesting;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>Why an offcut is no longer on the rack.</summary>
public enum OffcutEnd
{
    None,
    ThrownAway,

    /// <summary>Cut up for the list that took it.</summary>
    UsedUp,

    /// <summary>The list that left it was laid out anew before anybody took it.</summary>
    LaidOutAnew,
}

/// <summary>A piece of sheet left over by a job, on the shop's rack until a job takes it.</summary>
public sealed class Offcut : IAudited, IVersioned, IRemovable
{
    public Offcut(OffcutForm form, Guid? fromJobId, Guid? fromDesignId)
    {
        Id = Guid.CreateVersion7();
        Form = form;
        FromJobId = fromJobId;
        FromDesignId = fromDesignId;
    }

    private Offcut()
    {
    }

    public Guid Id { get; private set; }

    public Guid Version { get; private set; }

    public OffcutForm Form { get; private set; } = new();

    /// <summary>The job that left it; null when it was typed on the rack.</summary>
    public Guid? FromJobId { get; private set; }

    public Guid? FromDesignId { get; private set; }

    /// <summary>The job it is kept for; null while it is free.</summary>
    public Guid? ForJobId { get; private set; }

    /// <summary>The cut list it is kept for.</summary>
    public Guid? ForDesignId { get; private set; }

    public OffcutEnd End { get; private set; }

    public DateTimeOffset? RemovedAt { get; private set; }

    public void Apply(OffcutForm form) => Form = form;

    public void Reserve(Guid jobId, Guid designId) => (ForJobId, ForDesignId) = (jobId, designId);

    public void Free() => (ForJobId, ForDesignId) = (null, null);

    public void Remove(OffcutEnd end, DateTimeOffset at) => (End, RemovedAt) = (end, RemovedAt ?? at);

    /// <summary>Back on the rack, free.</summary>
    public void BringBack()
    {
        (End, RemovedAt) = (OffcutEnd.None, null);
        Free();
    }

    string IAudited.AuditName => $"Offcut {Form}";

    Guid? IAudited.AuditJobId => ForJobId ?? FromJobId;
}

/// <summary>An offcut as it is measured on the rack.</summary>
public sealed record OffcutForm
{
    /// <summary>Name of the sheet material, as the catalogue has it.</summary>
    [Display(Name = "Material")]
    public string Material { get; set; } = "";

    [Display(Name = "Thickness (m)")]
    public double? ThicknessMeters { get; set; }

    /// <summary>Along the grain or the longer side as it lay on its sheet.</summary>
    [Display(Name = "Length (m)")]
    public double? LengthMeters { get; set; }

    [Display(Name = "Width (m)")]
    public double? WidthMeters { get; set; }

    [Display(Name = "Grain")]
    public SheetGrain Grain { get; set; }

    [Display(Name = "Note")]
    public string Note { get; set; } = "";

    public List<Problem> Problems() => new Check()
        .Required(Material, nameof(Material), "The material")
        .Longest(Note, nameof(Note), "The note", Limits.Line)
        .That(ThicknessMeters is not null, nameof(ThicknessMeters), "The thickness is needed.")
        .That(LengthMeters is not null, nameof(LengthMeters), "The length is needed.")
        .That(WidthMeters is not null, nameof(WidthMeters), "The width is needed.")
        .Range(ThicknessMeters * 1000, nameof(ThicknessMeters), "The thickness", 0.1, 200, "mm")
        .Range(LengthMeters * 1000, nameof(LengthMeters), "The length", 10, 10_000, "mm")
        .Range(WidthMeters * 1000, nameof(WidthMeters), "The width", 10, 10_000, "mm").Problems;

    /// <summary>Whether a material of a job is the same: by name and, to a twentieth of a millimetre, by thickness.</summary>
    public bool IsOf(ShelfMaterial material)
    {
        ArgumentNullException.ThrowIfNull(material);
        return Material.Trim().Equals(material.Name.Trim(), StringComparison.OrdinalIgnoreCase) && ThicknessMeters is { } own && material.ThicknessMeters is { } other && Math.Abs(own - other) <= 5e-5;
    }

    public override string ToString() => string.Create(CultureInfo.CurrentCulture, $"{Material}, {LengthMeters * 1000:0.#} × {WidthMeters * 1000:0.#} × {ThicknessMeters * 1000:0.#} mm{(Note.Length > 0 ? $", {Note}" : "")}");
}

/// <summary>An offcut as the rack and the cut lists show it; nothing of money.</summary>
/// <param name="ForJob">Reference of the job it is kept for; empty while it is free.</param>
/// <param name="FromJob">Reference of the job that left it; empty when it was typed.</param>
public sealed record OffcutRow(Guid Id, Guid Version, OffcutForm Form, Guid? ForJobId, string ForJob, Guid? ForDesignId, string FromJob, OffcutEnd End)
{
    /// <summary>The cut list that left it; null when it was typed.</summary>
    public Guid? FromDesignId { get; init; }
}
