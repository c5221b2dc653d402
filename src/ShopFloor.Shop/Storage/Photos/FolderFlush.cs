using System.Runtime.InteropServices;
using System.Text;

namespace ShopFloor.Shop.Storage.Photos;

/// <summary>
/// Forces a folder's entries to disk. On Linux and macOS a renamed file can be lost in a power cut although its bytes were flushed,
/// until the folder is flushed too; .NET has no call for it. Windows needs none.
/// </summary>
internal static class FolderFlush
{
    private const int ReadOnly = 0;

    public static void ToDisk(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        var handle = Open(Encoding.UTF8.GetBytes(folder + "\0"), ReadOnly);
        if (handle < 0)
        {
            throw new IOException($"The folder '{folder}' cannot be opened to flush it (error {Marshal.GetLastPInvokeError()}).");
        }

        try
        {
            // Some network and overlay file systems cannot flush folders; the files themselves are flushed already.
            _ = Flush(handle);
        }
        finally
        {
            _ = Close(handle);
        }
    }

    [DllImport("libc", EntryPoint = "open", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Open(byte[] path, int flags);

    [DllImport("libc", EntryPoint = "fsync", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Flush(int handle);

    [DllImport("libc", EntryPoint = "close", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Close(int handle);
}
