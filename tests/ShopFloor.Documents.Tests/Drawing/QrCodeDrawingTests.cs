using QRCoder;
using ShopFloor.Documents.Composition;
using ShopFloor.Documents.Drawing;
using SkiaSharp;

namespace ShopFloor.Documents.Tests.Drawing;

public sealed class QrCodeDrawingTests
{
    [Theory]
    [InlineData("https://example.test/j/8f3k2")]
    [InlineData("Ελένη και Юлия")]
    public void Every_module_is_drawn_where_the_code_has_it(string payload)
    {
        using var generator = new QRCodeGenerator();
        var expected = generator.CreateQrCode(payload, QRCodeGenerator.ECCLevel.M).ModuleMatrix;
        var strip = Assert.Single(PictureStrips.QrCode(new QrCode(payload, "") { SizeMillimetres = 50 }, new DocumentWords(), 480, 700));
        using var bitmap = new SKBitmap(600, 600);
        using var canvas = new SKCanvas(bitmap);
        canvas.Clear(SKColors.White);
        canvas.Scale(4);

        using var faces = new DocumentFaces();
        strip.Draw(new Sheet(canvas, faces, IsRehearsal: false), 0, 0);

        var module = 50 * 72 / 25.4 * 4 / expected.Count;
        for (var row = 0; row < expected.Count; row++)
        {
            for (var column = 0; column < expected.Count; column++)
                Assert.Equal(expected[row][column], bitmap.GetPixel((int)((column + 0.5) * module), (int)((row + 0.5) * module)).Red < 128);
        }
    }

    [Fact]
    public void Payload_too_long_for_a_code_is_printed_as_text()
    {
        var payload = new string('x', 4000);
        using var pdf = DrawnPdf.OfBlocks(new QrCode(payload, "Caption"));

        Assert.Contains("too long for a QR code", pdf.Text, StringComparison.Ordinal);
        Assert.Contains(payload, pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Size_out_of_range_is_refused()
    {
        Assert.Throws<ArgumentException>(() => DrawnPdf.OfBlocks(new QrCode("x", "") { SizeMillimetres = double.NaN }));
    }
}
