using ShopFloor.Shop.Demo.Drawings;
using SkiaSharp;

namespace ShopFloor.Shop.Tests.Demo.Drawings;

public class DrawnPhotoTests
{
    public static TheoryData<DrawnScene> Scenes => [.. Enum.GetValues<DrawnScene>()];

    [Theory]
    [MemberData(nameof(Scenes))]
    public void Each_scene_is_a_JPEG_of_the_wanted_size_with_light_shade_and_many_colours(DrawnScene scene)
    {
        using var picture = SKBitmap.Decode(DrawnPhoto.Render(scene, seed: 5, width: 480, height: 360));

        Assert.Equal((480, 360), (picture.Width, picture.Height));
        var brightness = picture.Pixels.Select(pixel => pixel.Red + pixel.Green + pixel.Blue).ToArray();
        Assert.True(brightness.Max() > 480, "Nothing bright.");
        Assert.True(brightness.Min() < 150, "Nothing dark.");
        Assert.True(picture.Pixels.Select(pixel => (pixel.Red >> 4, pixel.Green >> 4, pixel.Blue >> 4)).Distinct().Count() > 60, "Hardly any colours.");
    }

    [Theory]
    [MemberData(nameof(Scenes))]
    public void Same_seed_gives_the_same_picture_and_another_seed_another(DrawnScene scene)
    {
        var first = DrawnPhoto.Render(scene, 1, 320, 240);
        Assert.Equal(first, DrawnPhoto.Render(scene, 1, 320, 240));
        Assert.NotEqual(first, DrawnPhoto.Render(scene, 2, 320, 240));
    }

    [Fact]
    public void No_two_scenes_are_the_same()
    {
        var pictures = Enum.GetValues<DrawnScene>().Select(scene => Convert.ToHexString(DrawnPhoto.Render(scene, 3, 160, 120))).ToArray();
        Assert.Equal(pictures.Length, pictures.Distinct().Count());
    }

    // Left and right of the scene lie outside a tall picture, so a strip of the middle fills it.
    [Theory]
    [InlineData(240, 480)]
    [InlineData(480, 120)]
    public void Picture_of_another_shape_is_filled_to_its_corners(int width, int height)
    {
        using var picture = SKBitmap.Decode(DrawnPhoto.Render(DrawnScene.ScratchCloseUp, 3, width, height));
        Assert.Equal((width, height), (picture.Width, picture.Height));
        Assert.All(
            [picture.GetPixel(0, 0), picture.GetPixel(width - 1, 0), picture.GetPixel(0, height - 1), picture.GetPixel(width - 1, height - 1)],
            corner => Assert.True(corner.Red + corner.Green + corner.Blue > 60, $"{corner} looks empty."));
    }

    // One seed is one car: its paint on the bonnet and on the tail agree in hue.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(4)]
    public void Car_has_one_colour_from_scene_to_scene(int seed)
    {
        using var front = SKBitmap.Decode(DrawnPhoto.Render(DrawnScene.CarInBay, seed, 800, 600));
        using var rear = SKBitmap.Decode(DrawnPhoto.Render(DrawnScene.BootEmpty, seed, 800, 600));
        front.GetPixel(480, 370).ToHsv(out var frontHue, out _, out _);
        rear.GetPixel(400, 560).ToHsv(out var rearHue, out _, out _);
        Assert.InRange(Math.Abs(frontHue - rearHue), 0, 25);
    }

    [Fact]
    public void Sizes_out_of_range_and_unknown_scenes_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => DrawnPhoto.Render(DrawnScene.CarInBay, 1, 15, 100));
        Assert.Throws<ArgumentOutOfRangeException>(() => DrawnPhoto.Render(DrawnScene.CarInBay, 1, 100, 6001));
        Assert.Throws<ArgumentOutOfRangeException>(() => DrawnPhoto.Render((DrawnScene)99, 1, 100, 100));
    }
}
