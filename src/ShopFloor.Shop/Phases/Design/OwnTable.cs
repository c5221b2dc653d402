using System.ComponentModel.DataAnnotations;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>An ampacity table the shop entered. Taken away, it stays with the jobs that use it and can be brought back.</summary>
public sealed class OwnTable : IAudited, IVersioned, IRemovable
{
    public OwnTable(OwnTableForm form)
    {
        Id = Guid.CreateVersion7();
        Form = form;
    }

    private OwnTable()
    {
    }

    public Guid Id { get; private set; }

    public Guid Version { get; private set; }

    public OwnTableForm Form { get; private set; } = new();

    public DateTimeOffset? RemovedAt { get; private set; }

    public void Apply(OwnTableForm form) => Form = form;

    public void Remove(DateTimeOffset at) => RemovedAt ??= at;

    public void BringBack() => RemovedAt = null;

    string IAudited.AuditName => $"Ampacity table {Form.Name}";

    Guid? IAudited.AuditJobId => null;
}

/// <summary>A table as it is typed or pasted; <see cref="OwnTableText"/> reads it.</summary>
public sealed record OwnTableForm
{
    [Display(Name = "Name")]
    public string Name { get; set; } = "";

    [Display(Name = "Source")]
    public string Source { get; set; } = "";

    [Display(Name = "What it was written for")]
    public string Statement { get; set; } = "";

    [Display(Name = "Ambient of the table (°C)")]
    public double AmbientCelsius { get; set; } = 30;

    /// <summary>First line: "size" and the insulation classes in °C; then a line a size with its currents in A.</summary>
    [Display(Name = "Sizes and currents")]
    public string Cells { get; set; } = "";

    /// <summary>One factor per insulation class; empty for the law of temperatures.</summary>
    [Display(Name = "Engine-space factors")]
    public string EngineSpaceFactors { get; set; } = "";

    [Display(Name = "Ambient the engine-space factors stand for (°C)")]
    public double EngineSpaceAmbientCelsius { get; set; } = 50;

    /// <summary>A line for each "from so many conductors" and its factor; empty for none.</summary>
    [Display(Name = "Bundling factors")]
    public string BundlingFactors { get; set; } = "";

    public List<Problem> Problems() => OwnTableText.Read(this).Problems;
}
