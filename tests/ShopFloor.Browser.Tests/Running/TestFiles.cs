using Microsoft.Playwright;
using SkiaSharp;

namespace ShopFloor.Browser.Tests.Running;

/// <summary>Files people bring: a picture, and something that only calls itself one.</summary>
public static class TestFiles
{
    public static FilePayload Photo(string name = "bay.jpg")
    {
        using var bitmap = new SKBitmap(640, 480);
        using var canvas = new SKCanvas(bitmap);
        canvas.Clear(SKColors.SteelBlue);
        using var paint = new SKPaint { Color = SKColors.Orange };
        canvas.DrawCircle(320, 240, 120, paint);
        using var picture = bitmap.Encode(SKEncodedImageFormat.Jpeg, 85);
        return new FilePayload { Name = name, MimeType = "image/jpeg", Buffer = picture.ToArray() };
    }

    public static FilePayload NoPhoto() => new() { Name = "holiday.jpg", MimeType = "image/jpeg", Buffer = "This is a letter, not a picture."u8.ToArray() };
}
