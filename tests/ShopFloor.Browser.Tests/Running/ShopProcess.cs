using System.Collections.Concurrent;
using System.Diagnostics;
using System.Text.RegularExpressions;

namespace ShopFloor.Browser.Tests.Running;

/// <summary>
/// The built program, started as an operator would start it: as a process of its own, with a demo in a folder of its own, on a free
/// loopback port that the program names itself.
/// </summary>
public sealed partial class ShopProcess : IAsyncDisposable
{
    // A busy machine takes its time to tell the demo; a start that hangs is still found.
    private static readonly TimeSpan LongestStart = TimeSpan.FromMinutes(4);

    private readonly Process _process;
    private readonly string _folder;
    private readonly ConcurrentQueue<string> _said = new();
    private readonly TaskCompletionSource<Uri> _listening = new(TaskCreationOptions.RunContinuationsAsynchronously);

    private ShopProcess(string folder, bool demo, IReadOnlyDictionary<string, string> settings)
    {
        _folder = folder;
        var start = new ProcessStartInfo("dotnet")
        {
            WorkingDirectory = Path.GetDirectoryName(Program())!, // a file has a folder
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            UseShellExecute = false,
        };
        foreach (var argument in (string[])[Program(), .. demo ? ["--demo"] : Array.Empty<string>(), "--data", Path.Combine(folder, "shop"), "--urls", "http://127.0.0.1:0"])
            start.ArgumentList.Add(argument);
        start.Environment["ASPNETCORE_ENVIRONMENT"] = "Development"; // cookies over plain http
        foreach (var (name, value) in settings)
            start.Environment[name] = value;
        _process = new Process { StartInfo = start, EnableRaisingEvents = true };
        _process.OutputDataReceived += (_, line) => Hear(line.Data);
        _process.ErrorDataReceived += (_, line) => Hear(line.Data);
        _process.Exited += (_, _) => _listening.TrySetException(new InvalidOperationException($"The program ended before it listened:\n{Said}"));
    }

    /// <summary>Where it listens.</summary>
    public Uri Address { get; private set; } = null!; // Set before a started program is handed out.

    /// <summary>The last lines it wrote, for a failure's message.</summary>
    public string Said => string.Join('\n', _said.TakeLast(60));

    /// <summary>The code it showed for setting up an empty shop.</summary>
    public string SetUpCode => _said.Select(line => Code().Match(line)).FirstOrDefault(match => match.Success)?.Groups[1].Value
        ?? throw new InvalidOperationException($"The program showed no set-up code. It said:\n{Said}");

    /// <summary>Lines in which the program reported a fault of its own.</summary>
    public IReadOnlyList<string> Faults => [.. _said.Where(line => line.Contains(" ERR ", StringComparison.Ordinal) || line.Contains(" FTL ", StringComparison.Ordinal))];

    /// <param name="demo">Whether to fill the folder with the demo; else the shop is empty, as at its first start.</param>
    /// <exception cref="InvalidOperationException">The program ended, or did not listen in time.</exception>
    public static async Task<ShopProcess> StartAsync(bool demo = true, IReadOnlyDictionary<string, string>? settings = null)
    {
        var shop = new ShopProcess(Directory.CreateTempSubdirectory("shopfloor-journeys-").FullName, demo, settings ?? new Dictionary<string, string>());
        try
        {
            shop._process.Start();
            shop._process.BeginOutputReadLine();
            shop._process.BeginErrorReadLine();
            shop.Address = await shop._listening.Task.WaitAsync(LongestStart);
            return shop;
        }
        catch (Exception fault)
        {
            var said = shop.Said;
            await shop.DisposeAsync();
            throw new InvalidOperationException($"The program did not start. It said:\n{said}", fault);
        }
    }

    public async ValueTask DisposeAsync()
    {
        if (!_process.HasExited)
        {
            _process.Kill(entireProcessTree: true);
            await _process.WaitForExitAsync();
        }

        _process.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    private void Hear(string? line)
    {
        if (line is null)
            return;
        _said.Enqueue(line);
        if (Listening().Match(line) is { Success: true } found)
            _listening.TrySetResult(new Uri(found.Groups[1].Value));
    }

    // The program as built with these tests: the same configuration and framework as theirs.
    private static string Program()
    {
        var framework = new DirectoryInfo(Path.TrimEndingDirectorySeparator(AppContext.BaseDirectory));
        var configuration = framework.Parent ?? throw new InvalidOperationException("The tests run from a folder without a configuration's name.");
        var program = Path.Combine(Source.Root, "src", "ShopFloor.Web", "bin", configuration.Name, framework.Name, "ShopFloor.Web.dll");
        return File.Exists(program) ? program : throw new InvalidOperationException($"The program was not built: {program} is missing.");
    }

    [GeneratedRegex(@"enter the set-up code (\S+)")]
    private static partial Regex Code();

    [GeneratedRegex(@"Now listening on: ""?(http://127\.0\.0\.1:\d+)")]
    private static partial Regex Listening();
}
