namespace ShopFloor.Engineering.Signal.TestSignals;

/// <summary>How long an ear may bear a level at work. Limits for workers, no promise of safety for listeners.</summary>
public static class SoundExposure
{
    /// <summary>Caution shown wherever a test signal is played.</summary>
    public const string Caution =
        "Start with the volume down. Wear hearing protection when measuring loud, leave the car for sweeps at high level, and let nobody sit near a driver under test.";

    /// <summary>Lowest level asked about, dB(A).</summary>
    public const double LowestDecibelsA = 60;

    /// <summary>Highest level asked about, dB(A): NIOSH 98-126 allows no exposure above it.</summary>
    public const double HighestDecibelsA = 140;

    /// <summary>Level from which hearing protection is worn, dB(A): the recommended limit of NIOSH 98-126.</summary>
    public const double ProtectDecibelsA = 85;

    /// <summary>NIOSH 98-126 (1998): T = 480 min / 2^((L − 85) / 3).</summary>
    /// <param name="levelDecibelsA">Level, dB(A).</param>
    /// <returns>Minutes a day.</returns>
    public static double NioshMinutes(double levelDecibelsA) => 480 / Math.Pow(2, (levelDecibelsA - 85) / 3);

    /// <summary>29 CFR 1910.95 appendix A: T = 8 h / 2^((L − 90) / 5). Table G-16 is the legal limit and rounds it.</summary>
    /// <param name="levelDecibelsA">Level, dB(A), slow.</param>
    /// <returns>Minutes a day.</returns>
    public static double OshaMinutes(double levelDecibelsA) => 480 / Math.Pow(2, (levelDecibelsA - 90) / 5);
}
