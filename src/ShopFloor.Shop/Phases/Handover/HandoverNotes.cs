using System.ComponentModel.DataAnnotations;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Phases.Handover;

/// <summary>What somebody writes for the handover; everything else in it comes from the job itself.</summary>
public sealed class HandoverNotes : IAudited, IVersioned
{
    public HandoverNotes(Guid jobId, HandoverNotesForm form)
    {
        Id = Guid.CreateVersion7();
        JobId = jobId;
        Apply(form);
    }

    private HandoverNotes()
    {
    }

    public Guid Id { get; private set; }

    public Guid Version { get; private set; }

    public Guid JobId { get; private set; }

    public HandoverNotesForm Form { get; private set; } = new();

    public void Apply(HandoverNotesForm form) => Form = form;

    string IAudited.AuditName => "Handover notes";

    Guid? IAudited.AuditJobId => JobId;
}

public sealed record HandoverNotesForm
{
    [Display(Name = "Overview for the client")]
    public string Overview { get; set; } = "";

    [Display(Name = "Using your system")]
    public List<SourceGuide> Sources { get; set; } = [];

    [Display(Name = "Service access")]
    public string ServiceAccess { get; set; } = "";

    [Display(Name = "Warranty")]
    public string Warranty { get; set; } = "";

    [Display(Name = "Care")]
    public string Care { get; set; } = "";

    public HandoverNotesForm Copy() => this with { Sources = [.. Sources] };

    public List<Problem> Problems() => new Check()
        .Longest(Overview, nameof(Overview), "The overview", Limits.Note)
        .Longest(ServiceAccess, nameof(ServiceAccess), "The service access", Limits.Note)
        .Longest(Warranty, nameof(Warranty), "The warranty", Limits.Note)
        .Longest(Care, nameof(Care), "The care advice", Limits.Note)
        .That(Sources.Count <= 20, nameof(Sources), $"{Sources.Count} sources; at most 20 are kept.")
        .That(Sources.All(source => source.Name.Length <= Limits.Name && source.HowTo.Length <= Limits.Note), nameof(Sources), $"A source's name is at most {Limits.Name} characters, its text at most {Limits.Note}.")
        .Problems;
}

/// <param name="Name">The source as the client calls it.</param>
/// <param name="HowTo">How to listen to it, step by step.</param>
public sealed record SourceGuide(string Name, string HowTo)
{
    public override string ToString() => $"{Name}: {HowTo}";
}
