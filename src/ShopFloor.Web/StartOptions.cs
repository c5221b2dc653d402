namespace ShopFloor.Web;

/// <summary>What the program was asked to do on its command line.</summary>
/// <param name="Demo">Fill an empty shop with the demo.</param>
/// <param name="DataFolder">Where the shop keeps its data.</param>
public sealed record StartOptions(bool Demo, string DataFolder)
{
    public static StartOptions Read(string[] args, IConfiguration configuration)
    {
        var folder = ValueAfter(args, "--data")
            ?? configuration["Shop:DataFolder"]
            ?? Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData), "ShopFloor");
        return new StartOptions(args.Contains("--demo") || configuration.GetValue("Shop:Demo", false), Path.GetFullPath(folder));
    }

    private static string? ValueAfter(string[] args, string name)
    {
        var at = Array.IndexOf(args, name);
        return at >= 0 && at + 1 < args.Length ? args[at + 1] : null;
    }
}
