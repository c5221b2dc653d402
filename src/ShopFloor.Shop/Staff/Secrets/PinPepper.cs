using System.Security.Cryptography;

namespace ShopFloor.Shop.Staff.Secrets;

/// <summary>The secret PINs are mixed with. It lies in a file of its own, outside the database and outside backups.</summary>
public static class PinPepper
{
    /// <summary>Reads the pepper, making it at the first start.</summary>
    /// <exception cref="InvalidDataException">The file is there but does not hold a pepper.</exception>
    public static byte[] ReadOrCreate(string path)
    {
        if (!File.Exists(path))
        {
            Create(path);
        }

        var pepper = new byte[PinHasher.PepperLength];
        return Convert.TryFromBase64String(File.ReadAllText(path).Trim(), pepper, out var length) && length == pepper.Length
            ? pepper
            : throw new InvalidDataException($"'{Path.GetFileName(path)}' does not hold {PinHasher.PepperLength} bytes in base64. Put the kept copy back, or remove it and set every PIN anew.");
    }

    private static void Create(string path)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(path)!); // the path is inside the shop's folder
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        using var writer = new StreamWriter(path, options);
        writer.Write(Convert.ToBase64String(RandomNumberGenerator.GetBytes(PinHasher.PepperLength)));
    }
}
