using SkiaSharp;

namespace ShopFloor.Shop.Demo.Drawings;

/// <summary>A sheet of 1600 by 1200 with the few strokes the scenes are made of. Shapes are given as SVG path data.</summary>
internal sealed class Sketch(SKCanvas canvas, SceneColours colours, Random random)
{
    public const float Width = 1600;
    public const float Height = 1200;

    public SceneColours Colours => colours;

    public Random Random => random;

    public SKCanvas Canvas => canvas;

    public static SKColor Mix(SKColor one, SKColor other, float share) => new(
        (byte)(one.Red + ((other.Red - one.Red) * share)),
        (byte)(one.Green + ((other.Green - one.Green) * share)),
        (byte)(one.Blue + ((other.Blue - one.Blue) * share)),
        (byte)(one.Alpha + ((other.Alpha - one.Alpha) * share)));

    public static SKColor Light(SKColor colour, float share) => Mix(colour, SKColors.White.WithAlpha(colour.Alpha), share);

    public static SKColor Dark(SKColor colour, float share) => Mix(colour, new SKColor(10, 14, 20, colour.Alpha), share);

    public static SKColor Rgb(uint rgb) => new(0xFF000000 | rgb);

    /// <summary>Fills with one colour, or with a change from top to bottom of the shape.</summary>
    public void Fill(string path, SKColor top, SKColor? bottom = null)
    {
        using var shape = SKPath.ParseSvgPathData(path);
        Fill(shape, top, bottom);
    }

    public void Fill(SKPath shape, SKColor top, SKColor? bottom = null)
    {
        using var paint = new SKPaint { IsAntialias = true, Color = top };
        using var shader = bottom is { } end
            ? SKShader.CreateLinearGradient(new SKPoint(0, shape.Bounds.Top), new SKPoint(0, shape.Bounds.Bottom), [top, end], SKShaderTileMode.Clamp)
            : null;
        paint.Shader = shader;
        canvas.DrawPath(shape, paint);
    }

    /// <summary>Fills with a change from left to right of the shape.</summary>
    public void FillAcross(string path, params SKColor[] leftToRight)
    {
        using var shape = SKPath.ParseSvgPathData(path);
        using var shader = SKShader.CreateLinearGradient(new SKPoint(shape.Bounds.Left, 0), new SKPoint(shape.Bounds.Right, 0), leftToRight, SKShaderTileMode.Clamp);
        using var paint = new SKPaint { IsAntialias = true, Shader = shader };
        canvas.DrawPath(shape, paint);
    }

    public void Line(string path, SKColor colour, float width)
    {
        using var shape = SKPath.ParseSvgPathData(path);
        using var paint = new SKPaint
        {
            IsAntialias = true, Color = colour, StrokeWidth = width, Style = SKPaintStyle.Stroke, StrokeCap = SKStrokeCap.Round, StrokeJoin = SKStrokeJoin.Round,
        };
        canvas.DrawPath(shape, paint);
    }

    /// <summary>A round cable along a line: dark edge, body, a highlight, and a soft shadow under it.</summary>
    public void Cable(string path, SKColor colour, float width)
    {
        using var shape = SKPath.ParseSvgPathData(path);
        using var shadow = SKMaskFilter.CreateBlur(SKBlurStyle.Normal, width * 0.3f);
        using var paint = new SKPaint { IsAntialias = true, Style = SKPaintStyle.Stroke, StrokeCap = SKStrokeCap.Round, StrokeJoin = SKStrokeJoin.Round };
        (paint.MaskFilter, paint.Color, paint.StrokeWidth) = (shadow, new SKColor(0, 0, 0, 90), width);
        canvas.Save();
        canvas.Translate(width * 0.18f, width * 0.35f);
        canvas.DrawPath(shape, paint);
        canvas.Restore();
        paint.MaskFilter = null;
        foreach (var (shade, part, shift) in new[] { (Dark(colour, 0.45f), 1f, 0f), (colour, 0.78f, 0.05f), (Light(colour, 0.18f), 0.42f, 0.14f), (Light(colour, 0.5f), 0.12f, 0.22f) })
        {
            canvas.Save();
            canvas.Translate(-width * shift * 0.4f, -width * shift);
            (paint.Color, paint.StrokeWidth) = (shade, width * part);
            canvas.DrawPath(shape, paint);
            canvas.Restore();
        }
    }

    public void Box(float x, float y, float width, float height, float radius, SKColor top, SKColor? bottom = null)
    {
        using var builder = new SKPathBuilder();
        builder.AddRoundRect(new SKRect(x, y, x + width, y + height), radius, radius);
        using var shape = builder.Detach();
        Fill(shape, top, bottom);
    }

    public void Outline(float x, float y, float width, float height, float radius, SKColor colour, float thickness)
    {
        using var paint = new SKPaint { IsAntialias = true, Color = colour, StrokeWidth = thickness, Style = SKPaintStyle.Stroke };
        canvas.DrawRoundRect(x, y, width, height, radius, radius, paint);
    }

    public void Oval(float x, float y, float radiusX, float radiusY, SKColor top, SKColor? bottom = null)
    {
        using var builder = new SKPathBuilder();
        builder.AddOval(new SKRect(x - radiusX, y - radiusY, x + radiusX, y + radiusY));
        using var shape = builder.Detach();
        Fill(shape, top, bottom);
    }

    /// <summary>An oval with light falling on it from the upper left.</summary>
    public void Ball(float x, float y, float radiusX, float radiusY, SKColor lit, SKColor edge)
    {
        canvas.Save();
        canvas.Translate(x, y);
        canvas.Scale(1, radiusY / radiusX);
        using var shader = SKShader.CreateRadialGradient(new SKPoint(-radiusX * 0.35f, -radiusX * 0.4f), radiusX * 1.5f, [lit, edge], SKShaderTileMode.Clamp);
        using var paint = new SKPaint { IsAntialias = true, Shader = shader };
        canvas.DrawCircle(0, 0, radiusX, paint);
        canvas.Restore();
    }

    /// <summary>A ring seen at an angle.</summary>
    public void Ring(float x, float y, float radiusX, float radiusY, SKColor colour, float thickness)
    {
        using var paint = new SKPaint { IsAntialias = true, Color = colour, StrokeWidth = thickness, Style = SKPaintStyle.Stroke };
        canvas.DrawOval(x, y, radiusX, radiusY, paint);
    }

    /// <summary>Soft light that adds to what is there.</summary>
    public void Glow(float x, float y, float radiusX, float radiusY, SKColor colour)
    {
        canvas.Save();
        canvas.Translate(x, y);
        canvas.Scale(1, radiusY / radiusX);
        using var shader = SKShader.CreateRadialGradient(new SKPoint(0, 0), radiusX, [colour, colour.WithAlpha(0)], SKShaderTileMode.Clamp);
        using var paint = new SKPaint { IsAntialias = true, Shader = shader, BlendMode = SKBlendMode.Screen };
        canvas.DrawCircle(0, 0, radiusX, paint);
        canvas.Restore();
    }

    /// <summary>Soft shadow of a shape.</summary>
    public void Shadow(string path, float softness, byte strength = 110)
    {
        using var shape = SKPath.ParseSvgPathData(path);
        using var blur = SKMaskFilter.CreateBlur(SKBlurStyle.Normal, softness);
        using var paint = new SKPaint { IsAntialias = true, Color = new SKColor(8, 12, 18, strength), MaskFilter = blur };
        canvas.DrawPath(shape, paint);
    }

    public void ShadowBox(float x, float y, float width, float height, float softness, byte strength = 110)
    {
        using var blur = SKMaskFilter.CreateBlur(SKBlurStyle.Normal, softness);
        using var paint = new SKPaint { IsAntialias = true, Color = new SKColor(8, 12, 18, strength), MaskFilter = blur };
        canvas.DrawRect(x, y, width, height, paint);
    }

    /// <summary>Draws only inside a shape.</summary>
    public void Within(string path, Action draw)
    {
        using var shape = SKPath.ParseSvgPathData(path);
        canvas.Save();
        canvas.ClipPath(shape, SKClipOperation.Intersect, antialias: true);
        draw();
        canvas.Restore();
    }

    /// <summary>Draws moved, turned (degrees) and scaled.</summary>
    public void Placed(float x, float y, float turn, float scale, Action draw)
    {
        canvas.Save();
        canvas.Translate(x, y);
        canvas.RotateDegrees(turn);
        canvas.Scale(scale);
        draw();
        canvas.Restore();
    }

    /// <summary>A screw head with a cross slot.</summary>
    public void Screw(float x, float y, float radius)
    {
        Oval(x + (radius * 0.15f), y + (radius * 0.25f), radius * 1.1f, radius * 1.1f, new SKColor(0, 0, 0, 90));
        Ball(x, y, radius, radius, Rgb(0xE3E6E8), Rgb(0x7E868C));
        Placed(x, y, random.Next(90), 1, () =>
        {
            Box(-radius * 0.6f, -radius * 0.12f, radius * 1.2f, radius * 0.24f, 1, Rgb(0x4A5056));
            Box(-radius * 0.12f, -radius * 0.6f, radius * 0.24f, radius * 1.2f, 1, Rgb(0x4A5056));
        });
    }

    /// <summary>Fine wood grain inside a shape.</summary>
    public void Wood(string path, SKColor top, SKColor bottom)
    {
        Fill(path, top, bottom);
        using var shape = SKPath.ParseSvgPathData(path);
        var bounds = shape.Bounds;
        canvas.Save();
        canvas.ClipPath(shape, SKClipOperation.Intersect, antialias: true);
        for (var y = bounds.Top; y < bounds.Bottom; y += 5 + random.Next(14))
        {
            using var builder = new SKPathBuilder();
            builder.MoveTo(bounds.Left, y);
            builder.CubicTo(bounds.Left + (bounds.Width * 0.3f), y + random.Next(-12, 12), bounds.Left + (bounds.Width * 0.6f), y + random.Next(-12, 12), bounds.Right, y + random.Next(-6, 6));
            using var grain = builder.Detach();
            using var paint = new SKPaint
            {
                IsAntialias = true, Style = SKPaintStyle.Stroke, StrokeWidth = 1 + (float)random.NextDouble(), Color = Dark(bottom, 0.35f).WithAlpha((byte)(25 + random.Next(45))),
            };
            canvas.DrawPath(grain, paint);
        }

        canvas.Restore();
    }

    /// <summary>Short strokes like felt or carpet inside a shape.</summary>
    public void Carpet(string path, SKColor top, SKColor bottom, int strokes = 2600)
    {
        Fill(path, top, bottom);
        using var shape = SKPath.ParseSvgPathData(path);
        var bounds = shape.Bounds;
        canvas.Save();
        canvas.ClipPath(shape, SKClipOperation.Intersect, antialias: true);
        using var paint = new SKPaint { IsAntialias = true, StrokeWidth = 2 };
        for (var i = 0; i < strokes; i++)
        {
            var (x, y) = (bounds.Left + (bounds.Width * random.NextSingle()), bounds.Top + (bounds.Height * random.NextSingle()));
            paint.Color = (i % 2 == 0 ? SKColors.White : SKColors.Black).WithAlpha(16);
            canvas.DrawLine(x, y, x + random.Next(-5, 6), y + random.Next(2, 7), paint);
        }

        canvas.Restore();
    }

    public void Vignette()
    {
        using var shader = SKShader.CreateRadialGradient(
            new SKPoint(Width / 2, Height * 0.48f), Width * 0.68f, [SKColors.Transparent, SKColors.Transparent, new SKColor(8, 12, 20, 80)], [0, 0.55f, 1], SKShaderTileMode.Clamp);
        using var paint = new SKPaint { Shader = shader };
        canvas.DrawRect(-Width, -Height, 3 * Width, 3 * Height, paint);
    }
}
