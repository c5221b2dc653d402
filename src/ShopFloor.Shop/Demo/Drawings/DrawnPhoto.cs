using SkiaSharp;

namespace ShopFloor.Shop.Demo.Drawings;

/// <summary>
/// Draws stand-ins for photos for the demo shop: invented vehicles and parts, no lettering, nothing taken from a real one.
/// The same scene, seed and size give the same picture; one seed means one car, so its colours agree from scene to scene.
/// </summary>
public static class DrawnPhoto
{
    private const int JpegQuality = 88;
    private const int LargestEdge = 6000;

    /// <summary>Draws a scene and returns it as JPEG.</summary>
    /// <exception cref="ArgumentOutOfRangeException">An edge is below 16 or above 6000 pixels, or the scene is unknown.</exception>
    public static byte[] Render(DrawnScene scene, int seed, int width = 1600, int height = 1200)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 16);
        ArgumentOutOfRangeException.ThrowIfLessThan(height, 16);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(width, LargestEdge);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(height, LargestEdge);

        using var bitmap = new SKBitmap(new SKImageInfo(width, height, SKColorType.Rgba8888, SKAlphaType.Opaque));
        using var canvas = new SKCanvas(bitmap);

        // Scenes are drawn 1600 by 1200 and fill the picture from its middle.
        var scale = Math.Max(width / Sketch.Width, height / Sketch.Height);
        canvas.Translate((width - (Sketch.Width * scale)) / 2, (height - (Sketch.Height * scale)) / 2);
        canvas.Scale(scale);
        var sketch = new Sketch(canvas, SceneColours.Of(seed), new Random(seed));
        Draw(scene, sketch);
        sketch.Vignette();
        canvas.Flush();
        using var pixels = bitmap.PeekPixels();
        using var data = pixels.Encode(new SKJpegEncoderOptions(JpegQuality, SKJpegEncoderDownsample.Downsample420, SKJpegEncoderAlphaOption.Ignore));
        return data?.ToArray() ?? throw new InvalidOperationException("The drawing could not be encoded.");
    }

    private static void Draw(DrawnScene scene, Sketch sketch)
    {
        Action<Sketch> draw = scene switch
        {
            DrawnScene.CarInBay => CarInBay.Draw,
            DrawnScene.BootEmpty => Boot.DrawEmpty,
            DrawnScene.BootWithFalseFloor => Boot.DrawWithFalseFloor,
            DrawnScene.BootFinished => Boot.DrawFinished,
            DrawnScene.AmplifierRack => AmplifierRack.Draw,
            DrawnScene.WiringLoom => Wiring.DrawLoom,
            DrawnScene.FuseHolderNearBattery => Wiring.DrawFuseHolder,
            DrawnScene.DoorWithTreatment => Door.DrawWithTreatment,
            DrawnScene.SpeakerInDoor => Door.DrawSpeaker,
            DrawnScene.EnclosureInClamps => Enclosure.DrawInClamps,
            DrawnScene.Dashboard => Cabin.DrawDashboard,
            DrawnScene.ScratchCloseUp => Cabin.DrawScratch,
            _ => throw new ArgumentOutOfRangeException(nameof(scene), scene, "Unknown scene."),
        };
        draw(sketch);
    }
}
