using System.Security.Cryptography;
using ShopFloor.Shop.Storage.Photos;
using SkiaSharp;

namespace ShopFloor.Shop.Tests.Storage.Photos;

[Collection("Photo decoding")]
public class PhotoIntakeTests
{
    [Theory]
    [InlineData(SKEncodedImageFormat.Jpeg)]
    [InlineData(SKEncodedImageFormat.Png)]
    [InlineData(SKEncodedImageFormat.Webp)]
    public async Task Photo_of_each_accepted_format_becomes_a_JPEG_with_thumbnail_and_hash(SKEncodedImageFormat format)
    {
        var photo = await Accepted(SamplePhotos.Quarters(format, 800, 600));

        Assert.Equal((800, 600), (photo.WidthPixels, photo.HeightPixels));
        Assert.Equal(SKEncodedImageFormat.Jpeg, FormatOf(photo.Jpeg));
        Assert.Equal(SKEncodedImageFormat.Jpeg, FormatOf(photo.Thumbnail));
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(photo.Jpeg.Span)), photo.Sha256);
        AssertCorners(photo.Jpeg, 0, 1, 2, 3);
        AssertCorners(photo.Thumbnail, 0, 1, 2, 3);
        using var small = SKBitmap.Decode(photo.Thumbnail.Span);
        Assert.Equal((480, 360), (small.Width, small.Height));
    }

    [Theory]
    [InlineData(4000, 3000, 2560, 1920)]
    [InlineData(3000, 4000, 1920, 2560)]
    [InlineData(2560, 100, 2560, 100)]
    [InlineData(2561, 100, 2560, 100)]
    [InlineData(5000, 1, 2560, 1)]
    [InlineData(1, 1, 1, 1)]
    public async Task Large_photo_is_brought_down_to_2560_pixels_and_a_small_one_left(int width, int height, int storedWidth, int storedHeight)
    {
        foreach (var format in new[] { SKEncodedImageFormat.Jpeg, SKEncodedImageFormat.Png })
        {
            var photo = await Accepted(SamplePhotos.Quarters(format, width, height));
            using var stored = SKBitmap.Decode(photo.Jpeg.Span);
            Assert.Equal((storedWidth, storedHeight), (photo.WidthPixels, photo.HeightPixels));
            Assert.Equal((storedWidth, storedHeight), (stored.Width, stored.Height));
        }
    }

    [Fact]
    public async Task Thumbnail_gives_up_quality_to_stay_within_30_kilobytes()
    {
        var limits = PhotoLimits.Standard;
        var upload = SamplePhotos.Grainy(SKEncodedImageFormat.Jpeg, 480, 360, quality: 95, grain: 90);
        var (small, free) = (await Accepted(upload, limits), await Accepted(upload, limits with { ThumbnailBytes = int.MaxValue }));

        Assert.True(free.Thumbnail.Length > limits.ThumbnailBytes, $"{free.Thumbnail.Length} bytes would have been small enough anyway.");
        Assert.InRange(small.Thumbnail.Length, 10_000, limits.ThumbnailBytes);
    }

    // What the eight values mean: Exif 2.3, tag 0x0112 (which visual side the 0th row and the 0th column are).
    [Theory]
    [InlineData(1, 0, 1, 2, 3)]
    [InlineData(2, 1, 0, 3, 2)]
    [InlineData(3, 3, 2, 1, 0)]
    [InlineData(4, 2, 3, 0, 1)]
    [InlineData(5, 0, 2, 1, 3)]
    [InlineData(6, 2, 0, 3, 1)]
    [InlineData(7, 3, 1, 2, 0)]
    [InlineData(8, 1, 3, 0, 2)]
    public async Task Photo_is_turned_the_way_the_camera_was_held(ushort orientation, int topLeft, int topRight, int bottomLeft, int bottomRight)
    {
        var photo = await Accepted(SamplePhotos.WithExif(SamplePhotos.Quarters(SKEncodedImageFormat.Jpeg), orientation));

        Assert.Equal(orientation >= 5 ? (32, 64) : (64, 32), (photo.WidthPixels, photo.HeightPixels));
        AssertCorners(photo.Jpeg, topLeft, topRight, bottomLeft, bottomRight);
        using var codec = SKCodec.Create(SKData.CreateCopy(photo.Jpeg.Span));
        Assert.Equal(SKEncodedOrigin.TopLeft, codec.EncodedOrigin);
    }

    [Fact]
    public async Task Place_where_the_photo_was_taken_is_gone_from_picture_and_thumbnail()
    {
        var upload = SamplePhotos.WithExif(SamplePhotos.Grainy(SKEncodedImageFormat.Jpeg, 400, 300), 6);
        Assert.True(Holds(upload, SamplePhotos.GpsRationals));

        var photo = await Accepted(upload);

        foreach (var stored in new[] { photo.Jpeg, photo.Thumbnail })
        {
            Assert.False(Holds(stored.Span, SamplePhotos.GpsRationals));
            Assert.False(Holds(stored.Span, "Exif"u8));
            Assert.False(Holds(stored.Span, "ICC_PROFILE"u8));
        }
    }

    [Fact]
    public async Task Script_behind_or_inside_a_photo_is_not_kept()
    {
        const string Script = "<html><script>alert(1)</script></html>";
        var jpeg = SamplePhotos.Grainy(SKEncodedImageFormat.Jpeg, 400, 300);
        byte[] comment = [0xFF, 0xFE, 0, (byte)(Script.Length + 2), .. SamplePhotos.Text(Script)];
        byte[] upload = [.. jpeg[..2], .. comment, .. jpeg[2..], .. SamplePhotos.Text(Script)];
        Assert.True(Holds(upload, "<script>"u8));

        var photo = await Accepted(upload);

        Assert.False(Holds(photo.Jpeg.Span, "<script>"u8));
        Assert.False(Holds(photo.Thumbnail.Span, "<script>"u8));
        Assert.Equal((await Accepted(jpeg)).Sha256, photo.Sha256);
    }

    [Fact]
    public async Task Transparent_parts_become_white()
    {
        var photo = await Accepted(SamplePhotos.HalfTransparentPng());
        using var stored = SKBitmap.Decode(photo.Jpeg.Span);
        AssertNear(SKColors.White, stored.GetPixel(3, 10));
        AssertNear(SamplePhotos.Corners[2], stored.GetPixel(36, 10));
    }

    [Theory]
    [InlineData("GIF89a\u0001\0\u0001\0", "a GIF picture")]
    [InlineData("%PDF-1.7\n", "a PDF document")]
    [InlineData("<svg xmlns='http://www.w3.org/2000/svg'/>", "an SVG drawing")]
    [InlineData("<?xml version='1.0'?>\n<svg/>", "an SVG drawing")]
    [InlineData("\uFEFF  <!doctype html><script>1</script>", "a web page")]
    [InlineData("PK\u0003\u0004", "a ZIP file")]
    [InlineData("BM......", "a BMP picture")]
    [InlineData("\0\0\0\u0018ftypheic\0\0\0\0", "a HEIC photo (set the phone's camera to save JPEG)")]
    [InlineData("\0\0\0\u0018ftypisom\0\0\0\0", "a film clip")]
    [InlineData("MZ this is a program", "not a picture")]
    [InlineData("x", "not a picture")]
    public async Task Other_files_are_refused_by_their_bytes_and_named(string content, string named)
    {
        var refused = await Refused(SamplePhotos.Text(content), PhotoRefusal.NotAPhoto);
        Assert.Contains(named, refused.Message, StringComparison.Ordinal);
        Assert.EndsWith("Accepted are JPEG, PNG or WebP up to 25 MB and 50 megapixels.", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Empty_file_is_refused() => await Refused([], PhotoRefusal.Empty);

    // The pixel data of these files is a stub: whoever decoded before looking at the size would call them damaged.
    [Theory]
    [InlineData(100_000u, 100_000u)]
    [InlineData(10_000u, 5_001u)]
    [InlineData(20_001u, 1u)]
    public async Task Pixel_flood_is_refused_from_its_header(uint width, uint height)
    {
        var refused = await Refused(SamplePhotos.PngHeaderOf(width, height), PhotoRefusal.TooManyPixels);
        Assert.Contains(FormattableString.Invariant($"{width} x {height} pixels"), refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Jpeg_claiming_more_pixels_than_accepted_is_refused() =>
        await Refused(SamplePhotos.JpegClaiming(65_000, 65_000), PhotoRefusal.TooManyPixels);

    [Fact]
    public async Task Jpeg_with_hundreds_of_scans_is_refused_before_decoding()
    {
        await Accepted(SamplePhotos.Quarters(SKEncodedImageFormat.Jpeg));
        var refused = await Refused(SamplePhotos.JpegWithScans(500), PhotoRefusal.Damaged);
        Assert.Contains("501 layers", refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(SKEncodedImageFormat.Jpeg)]
    [InlineData(SKEncodedImageFormat.Png)]
    [InlineData(SKEncodedImageFormat.Webp)]
    public async Task Truncated_file_is_refused_wherever_it_was_cut(SKEncodedImageFormat format)
    {
        var whole = SamplePhotos.Grainy(format, 300, 200);
        await Accepted(whole);
        foreach (var length in new[] { whole.Length - 1, whole.Length - 20, whole.Length * 9 / 10, whole.Length / 2, whole.Length / 10, 200, 40, 20, 17 })
        {
            await Refused(whole[..length], PhotoRefusal.Damaged);
        }
    }

    [Fact]
    public async Task File_with_a_hole_in_its_middle_is_refused()
    {
        var whole = SamplePhotos.Grainy(SKEncodedImageFormat.Png, 300, 200);
        whole.AsSpan(whole.Length / 2, 64).Clear();
        await Refused(whole, PhotoRefusal.Damaged);
    }

    [Fact]
    public async Task Random_damage_never_throws()
    {
        var random = new Random(11);
        foreach (var format in new[] { SKEncodedImageFormat.Jpeg, SKEncodedImageFormat.Png, SKEncodedImageFormat.Webp })
        {
            var whole = SamplePhotos.Grainy(format, 120, 90);
            for (var round = 0; round < 150; round++)
            {
                var damaged = whole.ToArray();
                for (var hit = 0; hit < 1 + (round % 8); hit++)
                {
                    damaged[random.Next(round % 2 == 0 ? 200 : damaged.Length)] = (byte)random.Next(256);
                }

                var result = await Read(damaged);
                Assert.True(result is PhotoIntakeResult.Accepted or PhotoIntakeResult.Refused { Message.Length: > 20 });
            }
        }
    }

    [Fact]
    public async Task No_more_than_one_byte_beyond_the_limit_is_read()
    {
        using var endless = new EndlessStream();
        var limits = PhotoLimits.Standard with { MaximumBytes = 1_000_000 };

        var result = Assert.IsType<PhotoIntakeResult.Refused>(await PhotoIntake.ReadAsync(endless, limits, default));

        Assert.Equal(PhotoRefusal.TooManyBytes, result.Reason);
        Assert.StartsWith("The file is larger than 1 MB. Accepted are", result.Message, StringComparison.Ordinal);
        Assert.Equal(1_000_001, endless.BytesRead);
    }

    [Fact]
    public async Task Photo_of_exactly_the_limit_is_accepted()
    {
        var photo = SamplePhotos.Quarters(SKEncodedImageFormat.Jpeg);
        using var stream = new MemoryStream(photo);
        var result = await PhotoIntake.ReadAsync(stream, PhotoLimits.Standard with { MaximumBytes = photo.Length }, default);
        Assert.IsType<PhotoIntakeResult.Accepted>(result);
    }

    [Fact]
    public async Task Same_upload_gives_the_same_bytes()
    {
        var upload = SamplePhotos.Grainy(SKEncodedImageFormat.Jpeg, 500, 400);
        Assert.Equal((await Accepted(upload)).Sha256, (await Accepted(upload)).Sha256);
    }

    [Fact]
    public async Task Third_decode_waits_for_a_place_in_the_process_wide_gate()
    {
        using var release = new ManualResetEventSlim();
        var busy = Enumerable.Range(0, 2).Select(_ => PhotoDecodeGate.Process.RunAsync(() => { release.Wait(); return 0; }, alone: false, default)).ToArray();

        var third = Accepted(SamplePhotos.Quarters(SKEncodedImageFormat.Jpeg));
        var waiting = PhotoDecodeGate.Process.Waiting;
        release.Set();
        await Task.WhenAll(busy);

        Assert.Equal(1, waiting);
        Assert.Equal(64, (await third).WidthPixels);
        Assert.Equal(0, PhotoDecodeGate.Process.Waiting);
    }

    [Fact]
    public async Task Waiting_for_a_place_can_be_cancelled_and_gives_up_no_place()
    {
        using var release = new ManualResetEventSlim();
        using var cancel = new CancellationTokenSource();
        var busy = Enumerable.Range(0, 2).Select(_ => PhotoDecodeGate.Process.RunAsync(() => { release.Wait(); return 0; }, alone: false, default)).ToArray();
        using var upload = new MemoryStream(SamplePhotos.Quarters(SKEncodedImageFormat.Jpeg));
        var third = PhotoIntake.ReadAsync(upload, PhotoLimits.Standard, cancel.Token);

        await cancel.CancelAsync();

        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => third);
        release.Set();
        await Task.WhenAll(busy);
        await Accepted(SamplePhotos.Quarters(SKEncodedImageFormat.Jpeg));
    }

    [Fact]
    public async Task Large_decodes_run_alone_and_never_wait_for_each_other_for_ever()
    {
        using var gate = new PhotoDecodeGate(2);
        var (running, most) = (0, 0);
        int Work(int weight)
        {
            var now = Interlocked.Add(ref running, weight);
            InterlockedMax(ref most, now);
            Interlocked.Add(ref running, -weight);
            return weight;
        }

        var all = Enumerable.Range(0, 200).Select(i => gate.RunAsync(() => Work(i % 3 == 0 ? 2 : 1), alone: i % 3 == 0, default)).ToArray();
        var weights = await Task.WhenAll(all).WaitAsync(TimeSpan.FromSeconds(30));

        Assert.Equal(267, weights.Sum());
        Assert.InRange(most, 2, 2);
        Assert.Equal(0, gate.Waiting);
    }

    [Theory]
    [InlineData(8003, 6001)]
    [InlineData(6001, 8003)]
    public async Task Large_png_decoded_by_rows_keeps_its_four_quarters_where_they_were(int width, int height)
    {
        var photo = await Accepted(SamplePhotos.Quarters(SKEncodedImageFormat.Png, width, height));

        Assert.Equal(2560, Math.Max(photo.WidthPixels, photo.HeightPixels));
        Assert.Equal((double)width / height, (double)photo.WidthPixels / photo.HeightPixels, 0.002);
        using var stored = SKBitmap.Decode(photo.Jpeg.Span);
        for (var quarter = 0; quarter < 4; quarter++)
        {
            var pixel = stored.GetPixel(((quarter % 2 * 2) + 1) * stored.Width / 4, ((quarter / 2 * 2) + 1) * stored.Height / 4);
            var drawn = SamplePhotos.Corners[quarter];
            Assert.InRange(Math.Abs(pixel.Red - drawn.Red) + Math.Abs(pixel.Green - drawn.Green) + Math.Abs(pixel.Blue - drawn.Blue), 0, 12);
        }
    }

    [Fact]
    public async Task Large_png_cut_off_in_its_last_rows_is_refused()
    {
        var whole = SamplePhotos.Grainy(SKEncodedImageFormat.Png, 5200, 300);
        Array.Clear(whole, whole.Length - 3000, 2000);
        await Refused(whole, PhotoRefusal.Damaged);
    }

    [Fact]
    public async Task Large_interlaced_png_is_refused_with_a_way_out()
    {
        var png = SamplePhotos.Quarters(SKEncodedImageFormat.Png, 5000, 4000);
        png[28] = 1;
        // The header's checksum (PNG specification, CRC over type and data) has to fit again.
        System.Buffers.Binary.BinaryPrimitives.WriteUInt32BigEndian(png.AsSpan(29), SamplePhotos.Crc32(png[12..29]));
        var refused = await Refused(png, PhotoRefusal.TooManyPixels);
        Assert.Contains("JPEG", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Large_png_is_accepted()
    {
        var photo = await Accepted(SamplePhotos.Quarters(SKEncodedImageFormat.Png, 5000, 4000));
        Assert.Equal((2560, 2048), (photo.WidthPixels, photo.HeightPixels));
    }

    private static void InterlockedMax(ref int target, int value)
    {
        for (var seen = target; value > seen; seen = target)
        {
            Interlocked.CompareExchange(ref target, value, seen);
        }
    }

    private static async Task<PhotoIntakeResult> Read(byte[] upload, PhotoLimits? limits = null)
    {
        using var stream = new MemoryStream(upload);
        return await PhotoIntake.ReadAsync(stream, limits ?? PhotoLimits.Standard, default);
    }

    private static async Task<AcceptedPhoto> Accepted(byte[] upload, PhotoLimits? limits = null)
    {
        var result = await Read(upload, limits);
        return Assert.IsType<PhotoIntakeResult.Accepted>(result).Photo;
    }

    private static async Task<PhotoIntakeResult.Refused> Refused(byte[] upload, PhotoRefusal reason)
    {
        var refused = Assert.IsType<PhotoIntakeResult.Refused>(await Read(upload));
        Assert.Equal(reason, refused.Reason);
        return refused;
    }

    private static SKEncodedImageFormat FormatOf(ReadOnlyMemory<byte> file)
    {
        using var codec = SKCodec.Create(SKData.CreateCopy(file.Span));
        return codec.EncodedFormat;
    }

    private static bool Holds(ReadOnlySpan<byte> file, ReadOnlySpan<byte> part) => file.IndexOf(part) >= 0;

    private static void AssertCorners(ReadOnlyMemory<byte> jpeg, int topLeft, int topRight, int bottomLeft, int bottomRight)
    {
        using var bitmap = SKBitmap.Decode(jpeg.Span);
        var (right, bottom) = (bitmap.Width - 4, bitmap.Height - 4);
        AssertNear(SamplePhotos.Corners[topLeft], bitmap.GetPixel(3, 3));
        AssertNear(SamplePhotos.Corners[topRight], bitmap.GetPixel(right, 3));
        AssertNear(SamplePhotos.Corners[bottomLeft], bitmap.GetPixel(3, bottom));
        AssertNear(SamplePhotos.Corners[bottomRight], bitmap.GetPixel(right, bottom));
    }

    // JPEG colours wander a little; the sample colours lie more than 100 apart in some channel.
    private static void AssertNear(SKColor expected, SKColor actual)
    {
        var apart = Math.Max(Math.Abs(expected.Red - actual.Red), Math.Max(Math.Abs(expected.Green - actual.Green), Math.Abs(expected.Blue - actual.Blue)));
        Assert.True(apart <= 16, $"Expected {expected}, found {actual}.");
    }

    /// <summary>A JPEG start without end, that counts what was taken.</summary>
    private sealed class EndlessStream : Stream
    {
        public long BytesRead { get; private set; }

        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position
        {
            get => throw new NotSupportedException();
            set => throw new NotSupportedException();
        }

        public override int Read(byte[] buffer, int offset, int count)
        {
            buffer.AsSpan(offset, count).Fill(0xFF);
            BytesRead += count;
            return count;
        }

        public override void Flush() => throw new NotSupportedException();

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}
