namespace ShopFloor.Shop.Jobs;

/// <summary>How a stage of a job stands, in one letter, so that a row of the board carries its track in one short column.</summary>
public static class StageTrack
{
    public const char Open = 'o';
    public const char Begun = 'p';
    public const char Worked = 'w';
    public const char Blocked = 'b';
    public const char Done = 'd';

    public static string Word(char letter) => letter switch
    {
        Open => "not begun",
        Begun => "begun",
        Worked => "being worked on",
        Blocked => "blocked",
        Done => "done",
        _ => throw new ArgumentOutOfRangeException(nameof(letter), letter, "Not a letter of the track."),
    };
}
