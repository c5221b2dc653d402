using System.Globalization;
using System.Runtime.CompilerServices;
using ShopFloor.Engineering.Waves;

namespace ShopFloor.Engineering.Tests.Tuning;

/// <summary>
/// Recordings whose truth is known, made with NumPy and SciPy 1.10.1 (Debian 12). <c>two_drivers</c>: Linkwitz-Riley band-passes of 24 dB/octave,
/// 300 to 3000 Hz after 1.25 ms with a reflection of −8 dB 0.90 ms later, and 60 to 300 Hz after 3.40 ms with one of −6 dB 2.10 ms later, noise
/// 60 dB below the peak. <c>pair</c>: 100 Hz to 12 kHz after 1.25 and 3.40 ms, the second 3.098 dB lower with a reflection of −6 dB after
/// 1.7 ms. <c>sweep_recorded</c>: 20 Hz to 20 kHz in 1 s at 0.5 through y = s + 0.04·s² + 0.04·s³, 3.40 ms, an 80 Hz high-pass of the same kind
/// and a gain of 0.9, noise at −75 dB full scale.
/// </summary>
internal static class TuningFixtures
{
    public static SampledSound Wave(string name) => WaveReader.Read(File.ReadAllBytes(PathOf(name)));

    public static byte[] Bytes(string name) => File.ReadAllBytes(PathOf(name));

    public static IReadOnlyList<double[]> Rows(string name) =>
        [.. File.ReadAllLines(PathOf(name)).Skip(1).Select(line => line.Split(',').Select(cell => double.Parse(cell, CultureInfo.InvariantCulture)).ToArray())];

    private static string PathOf(string name, [CallerFilePath] string here = "") => Path.Combine(Path.GetDirectoryName(here)!, "Fixtures", name); // a file has a folder
}
