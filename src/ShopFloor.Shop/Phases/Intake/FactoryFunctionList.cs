namespace ShopFloor.Shop.Phases.Intake;

/// <summary>The features most cars have, to start a job's list from. Common practice, no source; the shop adds what this car has.</summary>
public static class FactoryFunctionList
{
    /// <summary>Group of what the car says without being asked.</summary>
    public const string Warnings = "Warnings";

    /// <summary>Group of what the client listens to.</summary>
    public const string Sound = "Sound";

    public static IReadOnlyList<(string Group, string Name)> Usual { get; } =
    [
        (Sound, "Radio reception"),
        (Sound, "Sound from every loudspeaker"),
        (Sound, "Telephone call, both ways"),
        (Sound, "Microphone and voice control"),
        (Sound, "Navigation voice"),
        (Sound, "Steering wheel buttons"),
        (Warnings, "Parking sensor tones"),
        (Warnings, "Seat belt chime"),
        (Warnings, "Door and key chime"),
        (Warnings, "Indicator sound"),
        ("Screens", "Instrument cluster"),
        ("Screens", "Rear view camera"),
        ("Screens", "Central screen and touch"),
        ("Doors and windows", "Central locking, all doors"),
        ("Doors and windows", "Windows up and down, all"),
        ("Doors and windows", "Mirrors adjust and fold"),
        ("Doors and windows", "Boot lid opens and closes"),
        ("Doors and windows", "Child locks"),
        ("Lights", "Headlamps and indicators"),
        ("Lights", "Interior lamps"),
        ("Lights", "Boot lamp"),
        ("Seats", "Seat adjustment"),
        ("Seats", "Seat heating"),
        ("Driving", "Start and stop"),
        ("Driving", "Driver assistance shows no fault"),
        ("Driving", "Heating and air conditioning"),
        ("Driving", "USB and power sockets"),
    ];
}
