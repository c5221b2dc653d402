using System.Diagnostics;
using System.Text.Json;

namespace ShopFloor.Engineering.Tests.Tuning;

/// <summary>Asks scipy (Debian's python3-scipy), an independent implementation. The script reads <c>given</c> and sets <c>answer</c>.</summary>
internal static class Scipy
{
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
