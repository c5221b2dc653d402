namespace ShopFloor.Web;

/// <summary>What the program was asked to do on its command line.</summary>
/// <param name="Verb">Serve the shop, or one of the acts of whoever runs the computer.</param>
/// <param name="Values">What followed each of our own names.</param>
/// <param name="HostArguments">Everything else, for the web host.</param>
public sealed record StartOptions(StartVerb Verb, IReadOnlyDictionary<string, string> Values, string[] HostArguments)
{
    private static readonly string[] Valued = ["--data", "--to", "--from", "--keep"];

    /// <summary>Fill an empty shop with the demo.</summary>
    public bool Demo { get; init; }

    /// <summary>What is wrong with the command line, or null.</summary>
    public string? Misuse { get; init; }

    /// <summary>Where the shop keeps its data.</summary>
    public string DataFolder { get; init; } = "";

    public string? Value(string name) => Values.GetValueOrDefault(name);

    public static StartOptions Read(string[] args)
    {
        var verb = StartVerb.Serve;
        var rest = new List<string>();
        var values = new Dictionary<string, string>();
        for (var i = 0; i < args.Length; i++)
        {
            if (i == 0 && Enum.TryParse<StartVerb>(args[i], ignoreCase: true, out var asked) && args[i].All(char.IsAsciiLetter))
            {
                verb = asked;
            }
            else if (Valued.Contains(args[i]))
            {
                if (i + 1 == args.Length)
                {
                    return new StartOptions(verb, values, []) { Misuse = $"{args[i]} needs a value after it." };
                }

                values[args[i]] = args[++i];
            }
            else
            {
                rest.Add(args[i]);
            }
        }

        // The host would take the word after --demo for its value.
        return new StartOptions(verb, values, [.. rest.Where(word => word != "--demo")]) { Demo = rest.Contains("--demo") };
    }

    public StartOptions With(IConfiguration configuration) => this with
    {
        Demo = Demo || configuration.GetValue("Shop:Demo", false),
        DataFolder = Path.GetFullPath(
            Value("--data")
            ?? configuration["Shop:DataFolder"]
            ?? Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData), "ShopFloor")),
    };
}

/// <summary>What the program can do when it is started.</summary>
public enum StartVerb
{
    Serve,
    Backup,
    Restore,
    Verify,
}
