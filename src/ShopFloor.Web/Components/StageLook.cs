namespace ShopFloor.Web.Components;

/// <summary>Class, shape and word of a stage state; one place, so that a state looks the same everywhere.</summary>
internal static class StageLook
{
    public static (string Class, string Shape, string Word) Of(StageState state) => state switch
    {
        StageState.NotStarted => ("stage-not-started", """<circle cx="8" cy="8" r="6" fill="none" stroke="currentColor" stroke-width="2" />""", "Not started"),
        StageState.Working => ("stage-working", """<circle cx="8" cy="8" r="6" fill="none" stroke="currentColor" stroke-width="2" /><path d="M8 2a6 6 0 0 1 0 12z" fill="currentColor" />""", "Working"),
        StageState.Waiting => ("stage-waiting", """<path d="M3 2h10v2L9.5 8 13 12v2H3v-2l3.5-4L3 4z" fill="currentColor" />""", "Waiting"),
        StageState.Blocked => ("stage-blocked", """<path d="M5 1h6l4 4v6l-4 4H5l-4-4V5z" fill="currentColor" /><path d="M4.5 8h7" stroke="#fff" stroke-width="2.2" />""", "Blocked"),
        StageState.Done => ("stage-done", """<path d="M2 8.5 6.3 13 14 3.5" fill="none" stroke="currentColor" stroke-width="2.6" stroke-linecap="round" stroke-linejoin="round" />""", "Done"),
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "Unknown stage state."),
    };
}
