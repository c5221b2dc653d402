using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Components;

namespace ShopFloor.Web.Layout;

/// <summary>Which build of the tablet's offline page a browser should keep.</summary>
internal static class OfflineShell
{
    // The files tablet-worker.js keeps, and itself.
    private static readonly string[] Files =
    [
        "tablet-worker.js", "tablet-offline.html", "css/app.css", "css/forms.css", "css/marks.css", "css/shell.css", "css/offline.css", "mark.svg",
        "js/kept-work.js", "js/shell.js", "js/outbox.js", "js/photos.js", "js/drafts.js", "js/bay.js", "js/measure.js", "js/pulse.js", "js/offline-page.js",
    ];

    private static string? _version;

    /// <summary>Changes with the content of any of the files, because their addresses do.</summary>
    public static string Version(ResourceAssetCollection assets) => _version ??=
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join(' ', Files.Select(file => assets[file])))))[..16];
}
