using System.Text;
using ShopFloor.Documents.Composition;
using SkiaSharp;

namespace ShopFloor.Documents.Tests.Drawing;

public sealed class PhotoDrawingTests
{
    [Fact]
    public void Forty_large_photos_are_all_there_and_the_file_stays_small()
    {
        var originals = Enumerable.Range(0, 4).Select(seed => TestPhotos.Jpeg(2400, 1800, seed)).ToList();
        var photos = Enumerable.Range(0, 40).Select(i => new Photo(originals[i % 4], $"Photo [{i}]")).ToArray();

        using var pdf = DrawnPdf.OfBlocks(new Photos(photos));

        Assert.Equal(40, pdf.Pages.Sum(page => page.GetImages().Count()));
        for (var i = 0; i < 40; i++)
            Assert.Equal(1, PdfDrawingTests.Occurrences(pdf.Text, $"Photo [{i}]"));
        var given = photos.Sum(photo => (long)photo.Image.Length);
        Assert.True(pdf.Bytes.Length < given / 8, $"{pdf.Bytes.Length} bytes from {given}");
    }

    [Fact]
    public void Photo_is_brought_to_two_hundred_dots_an_inch()
    {
        using var pdf = DrawnPdf.OfBlocks(new Photos(new Photo(TestPhotos.Jpeg(2400, 1800, 1))) { PerRow = 2 });

        var image = Assert.Single(pdf.Pages[0].GetImages());
        Assert.Equal(200, image.WidthInSamples / (image.BoundingBox.Width / 72), 1.0);
    }

    [Fact]
    public void Small_photo_is_neither_enlarged_beyond_72_dots_an_inch_nor_encoded_again()
    {
        var small = TestPhotos.Jpeg(90, 60, 1);
        using var pdf = DrawnPdf.OfBlocks(new Photos(new Photo(small)) { PerRow = 1 });

        var image = Assert.Single(pdf.Pages[0].GetImages());
        Assert.Equal(90, image.WidthInSamples);
        Assert.Equal(90, image.BoundingBox.Width, 0.01);
        // The scan data, after the headers, is carried over byte for byte.
        Assert.True(pdf.Bytes.AsSpan().IndexOf(small.AsSpan(small.Length - 200)) > 0);
    }

    [Theory]
    // Where red (stored on the left) must be seen: Exif 2.3, tag 274.
    [InlineData(1, false, 0.1, 0.5)]
    [InlineData(2, false, 0.9, 0.5)]
    [InlineData(3, false, 0.9, 0.5)]
    [InlineData(4, false, 0.1, 0.5)]
    [InlineData(5, true, 0.5, 0.1)]
    [InlineData(6, true, 0.5, 0.1)]
    [InlineData(7, true, 0.5, 0.9)]
    [InlineData(8, true, 0.5, 0.9)]
    public void Photo_is_turned_upright(byte orientation, bool turned, double redX, double redY)
    {
        var photo = TestPhotos.WithExif(TestPhotos.RedThenBlue(320, 160), orientation, "");

        using var pdf = DrawnPdf.OfBlocks(new Photos(new Photo(photo)) { PerRow = 1 });

        var image = Assert.Single(pdf.Pages[0].GetImages());
        Assert.Equal(turned ? (160, 320) : (320, 160), (image.WidthInSamples, image.HeightInSamples));
        using var pixels = SKBitmap.Decode(image.RawBytes.ToArray());
        Assert.True(pixels.GetPixel((int)(redX * pixels.Width), (int)(redY * pixels.Height)).Red > 200);
        Assert.True(pixels.GetPixel((int)((1 - redX) * pixels.Width), (int)((1 - redY) * pixels.Height)).Blue > 200);
    }

    [Theory]
    [InlineData(120, 1)]
    [InlineData(3000, 1)]
    [InlineData(120, 6)]
    public void Camera_data_does_not_reach_the_document(int width, byte orientation)
    {
        const string Place = "GPS 37.9838 N 23.7275 E";
        var photo = TestPhotos.WithExif(TestPhotos.Jpeg(width, width / 2, 3), orientation, Place);

        using var pdf = DrawnPdf.OfBlocks(new Photos(new Photo(photo)));

        Assert.Single(pdf.Pages[0].GetImages());
        Assert.Equal(-1, pdf.Bytes.AsSpan().IndexOf(Encoding.ASCII.GetBytes(Place)));
    }

    [Fact]
    public void Bytes_that_are_no_photo_leave_a_frame_and_words()
    {
        var cut = TestPhotos.Jpeg(400, 300, 1)[..60];
        using var pdf = DrawnPdf.OfBlocks(new Photos(new Photo(new byte[] { 1, 2, 3 }, "Broken"), new Photo(cut, "Cut off"),
            new Photo(TestPhotos.Jpeg(100, 100, 1), "Whole")));

        Assert.Equal(2, PdfDrawingTests.Occurrences(pdf.Text, "This photo could not be read."));
        Assert.Single(pdf.Pages[0].GetImages());
        Assert.Contains("Whole", pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Impossible_number_of_photos_in_a_row_is_refused()
    {
        var error = Assert.Throws<ArgumentException>(() =>
            DrawnPdf.OfBlocks(new Photos(new Photo(TestPhotos.Jpeg(10, 10, 1))) { PerRow = 0 }));

        Assert.Contains("1 to 6", error.Message, StringComparison.Ordinal);
    }
}
