using System.Diagnostics;

namespace ShopFloor.Engineering.Tests;

/// <summary>The numeric library SciPy (Debian's python3-scipy) as an independent judge.</summary>
internal static class Scipy
{
    private const string Before = """
        import sys, numpy as np, scipy.fft, scipy.integrate, scipy.ndimage, scipy.signal as ss, scipy.special
        inputs = [np.fromfile(path) for path in sys.argv[3:]]
        scope = dict(globals())
        exec(open(sys.argv[1]).read(), scope)
        np.asarray(scope['result'], float).ravel().tofile(sys.argv[2])
        """;

    /// <summary>Runs a script that reads the list <c>inputs</c> and sets <c>result</c>.</summary>
    public static double[] Run(string script, params double[][] inputs)
    {
        var folder = Directory.CreateTempSubdirectory("scipy-");
        try
        {
            string Place(string name) => Path.Combine(folder.FullName, name);
            File.WriteAllText(Place("frame.py"), Before);
            File.WriteAllText(Place("script.py"), script);
            string[] files = [.. inputs.Select((_, n) => Place($"{n}.bin"))];
            for (var n = 0; n < inputs.Length; n++)
                File.WriteAllBytes(files[n], [.. inputs[n].SelectMany(BitConverter.GetBytes)]);
            // Debian's own interpreter: another one first in the path has no SciPy.
            var start = new ProcessStartInfo("/usr/bin/python3", [Place("frame.py"), Place("script.py"), Place("result.bin"), .. files]) { RedirectStandardError = true };
            using var process = Process.Start(start)!; // started or thrown
            var errors = process.StandardError.ReadToEnd();
            process.WaitForExit();
            Assert.True(process.ExitCode == 0, errors);
            var bytes = File.ReadAllBytes(Place("result.bin"));
            return [.. Enumerable.Range(0, bytes.Length / 8).Select(n => BitConverter.ToDouble(bytes, 8 * n))];
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }
}
