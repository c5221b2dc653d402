using System.Globalization;
using ShopFloor.Documents.Composition;
using ShopFloor.Engineering.Safety;
using ShopFloor.Shop.Phases.Build;

namespace ShopFloor.Documents.Traveller;

/// <summary>The sheet that follows the car: what it is, what must not happen to it, and every step with a box to tick.</summary>
public static class TravellerDocument
{
    /// <param name="facts">What the job says.</param>
    /// <param name="tabletAddress">Address that opens the job on the shop's tablet; empty leaves the code out.</param>
    public static PrintedDocument Compose(TravellerFacts facts, string tabletAddress)
    {
        ArgumentNullException.ThrowIfNull(facts);
        var head = Paper.Head(facts.Letterhead, string.Join("   ", new[] { facts.JobReference, facts.Plate }.Where(text => text.Length > 0)), $"{facts.Vehicle}: {facts.JobTitle}", "Traveller") with
        {
            ShopContact = [],
            DateText = facts.PromisedOn is { } day ? $"Promised for {Paper.Day(day)}" : "No date promised",
            FooterText = $"Traveller · {facts.JobReference} · {facts.Vehicle} · {facts.Plate}",
        };
        var front = new List<Block>
        {
            Paper.Facts(
                2,
                ("Client", facts.ClientName),
                ("Vehicle", facts.Vehicle),
                ("Plate", facts.Plate),
                ("Colour", facts.Colour),
                ("Identification number", facts.Vin),
                ("Drive", facts.Drive),
                ("Keys", facts.KeyCount?.ToString(CultureInfo.CurrentCulture) ?? ""),
                ("Odometer", facts.OdometerKilometers is { } distance ? Paper.Distance(distance, facts.Letterhead.Units) : "")),
        };
        if (tabletAddress.Length > 0)
        {
            front.Add(new QrCode(tabletAddress, FormattedText.Strong("Open this job on the tablet") + "\nClock, ticks and photos go there. This sheet is for the hand on the car.") { SizeMillimetres = 30 });
        }

        front.AddRange(WorkSafety.Supply(facts.HighVoltage).Select(caution => new Caution(caution.IsDanger ? CautionKind.Danger : CautionKind.Caution, caution.Text)));
        if (facts.Restrictions.Count > 0)
        {
            front.Add(new Subheading("Must not happen"));
            front.Add(Bullets.From(facts.Restrictions));
        }

        if (facts.Wish.Length > 0)
        {
            front.Add(new Subheading("What the client wants"));
            front.AddRange(Paper.Lines(facts.Wish).Select(line => new Paragraph(FormattedText.Italic(line))));
        }

        if (facts.Belongings.Length > 0)
        {
            front.Add(new Subheading("Left in the car"));
            front.AddRange(Paper.Lines(facts.Belongings).Select(line => new Paragraph(line)));
        }

        var stages = facts.Stages.Count == 0
            ? [new Section("Stages", new Paragraph("No stages are planned yet.") { Secondary = true })]
            : facts.Stages.Select(StageOf);
        return new PrintedDocument(head, [new Section("", front), .. stages]);
    }

    private static Section StageOf(TravellerStage stage) => new(
        stage.PlannedHours > 0 ? string.Create(CultureInfo.CurrentCulture, $"{stage.Name} ({stage.PlannedHours:0.##} h planned)") : stage.Name,
        stage.Steps.Count == 0
            ? new Paragraph("No steps.") { Secondary = true }
            : new Checklist([.. stage.Steps.Select(step => new ChecklistItem(TextOf(step), step.Done))]));

    private static FormattedText TextOf(TravellerStep step)
    {
        var proofs = new List<string>();
        if (step.Measure.Length > 0)
        {
            proofs.Add($"measure {step.Measure}: {step.Limits}, is ________");
        }

        if (step.NeedsPhoto)
        {
            proofs.Add("photo");
        }

        if (step.NeedsSecondPerson)
        {
            proofs.Add("second person ________");
        }

        FormattedText text = step.Required ? step.Text : step.Text + " (if it applies)";
        return proofs.Count == 0 ? text : text + "  " + FormattedText.Italic(string.Join("; ", proofs));
    }
}
