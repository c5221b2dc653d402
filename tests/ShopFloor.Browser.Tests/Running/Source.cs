namespace ShopFloor.Browser.Tests.Running;

/// <summary>Where the source lies above the built tests.</summary>
public static class Source
{
    public static string Root { get; } = Find();

    private static string Find()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "ShopFloor.sln")))
            folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("The solution's folder was not found above the tests.");
    }
}
