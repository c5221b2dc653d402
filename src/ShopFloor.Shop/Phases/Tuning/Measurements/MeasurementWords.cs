namespace ShopFloor.Shop.Phases.Tuning.Measurements;

/// <summary>Words for what is chosen about measurements.</summary>
public static class MeasurementWords
{
    public static string Of(ListeningSeat seat) => seat switch
    {
        ListeningSeat.Driver => "driver's seat",
        ListeningSeat.FrontPassenger => "front passenger's seat",
        ListeningSeat.RearLeft => "rear left seat",
        _ => "rear right seat",
    };

    public static string Of(MicrophonePlace place) => place switch
    {
        MicrophonePlace.HeadMiddle => "middle of the head",
        MicrophonePlace.LeftEar => "left ear",
        MicrophonePlace.RightEar => "right ear",
        MicrophonePlace.Forward => "a hand forward",
        MicrophonePlace.Back => "a hand back",
        MicrophonePlace.Above => "a hand up",
        _ => "a hand down",
    };

    public static string Of(MeasurementSource source) => source switch
    {
        MeasurementSource.Table => "table",
        MeasurementSource.Sweep => "sweep",
        MeasurementSource.PinkNoise => "pink noise",
        _ => "impulse response",
    };

    public static string Of(ArrivalClock clock) => clock switch
    {
        ArrivalClock.Loopback => "from the loopback",
        ArrivalClock.Tape => "by the distance",
        ArrivalClock.File => "as the file says",
        ArrivalClock.Recording => "from the start of the recording",
        _ => "not known",
    };
}
