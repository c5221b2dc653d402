using System.Diagnostics;
using System.Text.Json;

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

    /// <summary>Runs a script that reads <c>given</c> and sets <c>answer</c>, for what is more than lists of numbers.</summary>
    public static JsonElement Ask(string script, object given)
    {
        var start = new ProcessStartInfo("/usr/bin/python3", ["-c", $"import json,sys\nimport numpy as np\nimport scipy.signal as ss\ngiven=json.load(sys.stdin)\n{script}\njson.dump(answer,sys.stdout)"])
        {
            RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true,
        };
        using var process = Process.Start(start)!; // started or thrown
        process.StandardInput.Write(JsonSerializer.Serialize(given));
        process.StandardInput.Close();
        // A traceback is short, so reading one stream after the other cannot block.
        var answer = process.StandardOutput.ReadToEnd();
        var failure = process.StandardError.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, failure);
        return JsonDocument.Parse(answer).RootElement;
    }

    public static double[] Numbers(this JsonElement list) => [.. list.EnumerateArray().Select(number => number.GetDouble())];
}
