using ShopFloor.Engineering.Explained;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What was taken over from the tuning is kept as it was; that the car plays otherwise by now is for a person to decide about.</summary>
internal static class TunedFindings
{
    public static IEnumerable<Finding> Of(EnclosureForm form, EnclosureFacts facts, StudiedAlternative built, string subject, string name)
    {
        if (built.Alternative.Tuned is not { } taken)
        {
            yield break;
        }

        var now = facts.TunedFor(form.LoudspeakerPartId);
        if (now.Count == 0)
        {
            yield return new Finding("enclosure-tuning-gone", Severity.Note, subject, name, $"It is worked out with the filters of {taken.Label}; no preset in the car plays this loudspeaker.", "Say under Tuning which preset is in the car, or type the filters.", "the presets of the job");
        }
        else if (!now.Any(taken.ActsLike))
        {
            yield return new Finding("enclosure-tuning-changed", Severity.Warn, subject, name, $"It is worked out with the filters of {taken.Label}; the car holds {now[0].Label}: {now[0].Words}.", "Take the filters of the car over, and look at excursion and air again.", "the presets of the job");
        }
    }
}
