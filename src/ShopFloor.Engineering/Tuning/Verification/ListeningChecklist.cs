namespace ShopFloor.Engineering.Tuning.Verification;

/// <summary>Something to listen for.</summary>
/// <param name="Id">Stable name.</param>
/// <param name="Play">What to play.</param>
/// <param name="Question">What to ask oneself.</param>
/// <param name="WhenNot">What to look at when the answer is no.</param>
public sealed record ListeningPoint(string Id, string Play, string Question, string WhenNot);

/// <summary>An answer to a point.</summary>
/// <param name="PointId">Which point.</param>
/// <param name="Good">Whether it is as asked for.</param>
/// <param name="Note">What was heard, in the listener's words.</param>
public sealed record ListeningAnswer(string PointId, bool Good, string Note = "");

/// <summary>Points to listen to after the measurements are good, in plain words. Common practice, no source.</summary>
public static class ListeningChecklist
{
    /// <summary>The points, in the order they are best heard.</summary>
    public static IReadOnlyList<ListeningPoint> Points { get; } =
    [
        new("sides", "Pink noise or a voice, left only, then right only", "Does each side play from its own side, and nothing from the other?", "Channels swapped, or a link between sides."),
        new("polarity", "A voice in mono", "Is it one person in the middle, not spread over the windscreen?", "Polarity of one driver, or left and right delays."),
        new("middle", "Pink noise in mono, in bands from low to high", "Does every band stay in the same place?", "Left and right levels in the band that wanders."),
        new("height", "A voice and a cymbal", "Are both above the dashboard, as high as one another?", "Level of the tweeters, crossover between midrange and tweeter."),
        new("bass-place", "Kick drum and bass guitar", "Does the bass come from the front, with the drum?", "Polarity and delay of the subwoofer, crossover too high."),
        new("bass-even", "A bass line or slow sweep from 30 to 120 Hz", "Is every note as loud, none booming or gone?", "Filters below 120 Hz; a dip that cannot be filled."),
        new("sibilance", "A singer with many s and t sounds", "Are they clear and not sharp?", "Level between 4 and 9 kHz."),
        new("rear", "Music with the rear fill on, then off", "Does the stage stay in front, only wider?", "Rear fill too loud, too early or too wide a band."),
        new("loud", "Music as loud as the client plays it", "Is nothing rattling, clipping or smelling?", "Gains, high-passes, loose panels. Stop at once when something smells."),
        new("noise", "Nothing, engine running, volume up", "Is there no hiss or whine?", "Gain structure, grounds."),
        new("seat", "Music, heard from the passenger's seat", "Is it still good enough for a passenger?", "Tell the client the tuning is for the driver, or make a second preset."),
    ];
}
