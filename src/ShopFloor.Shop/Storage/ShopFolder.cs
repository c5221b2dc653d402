namespace ShopFloor.Shop.Storage;

/// <summary>Where the shop keeps its data: one folder with the database, the photos and the logs.</summary>
/// <param name="Root">Full path of the folder.</param>
public sealed record ShopFolder(string Root)
{
    public string Database => Path.Combine(Root, "shop.db");

    public string Photos => Path.Combine(Root, "photos");

    public string Backups => Path.Combine(Root, "backups");

    public string Logs => Path.Combine(Root, "logs");

    /// <summary>Secrets of this installation: sign-in keys and the pepper of the PINs. Left out of backups on purpose.</summary>
    public string Keys => Path.Combine(Root, "keys");

    public string PinPepper => Path.Combine(Keys, "pin-pepper");

    public string ConnectionString => $"Data Source={Database};Foreign Keys=True;Default Timeout=15";

    public void Create()
    {
        Directory.CreateDirectory(Root);
        Directory.CreateDirectory(Photos);
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(Keys);
        }
        else
        {
            Directory.CreateDirectory(Keys, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }
    }
}
