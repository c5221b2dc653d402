namespace ShopFloor.Shop.Demo.Drawings;

/// <summary>A loudspeaker enclosure being glued on the bench.</summary>
internal static class Enclosure
{
    public static void DrawInClamps(Sketch s)
    {
        s.Box(0, 0, 1600, 806, 0, Sketch.Rgb(0xCBD5D6), Sketch.Rgb(0x9FADB0));
        Pegboard(s);
        s.Glow(760, 60, 900, 440, Sketch.Rgb(0xFFF3D6).WithAlpha(150));
        s.Wood("M0 800 H1600 V1200 H0 Z", Sketch.Rgb(0xB98B57), Sketch.Rgb(0x7F5930));
        s.Line("M0 802 H1600", Sketch.Rgb(0xE3BE87), 6);

        s.Shadow("M300 940 L1060 1000 L1420 900 L1380 850 L400 860 Z", 24, 190);

        // Top, front and side of the box
        s.Wood("M330 420 L620 330 L1330 350 L1080 452 Z", Sketch.Rgb(0xEBD0A4), Sketch.Rgb(0xDDBB86));
        s.Wood("M330 420 L1080 452 L1070 980 L340 930 Z", Sketch.Rgb(0xDFBD88), Sketch.Rgb(0xC59A62));
        s.Wood("M1080 452 L1330 350 L1316 862 L1070 980 Z", Sketch.Rgb(0xB88C56), Sketch.Rgb(0x95693A));
        s.Line("M330 440 L1080 473 L1330 370", Sketch.Rgb(0x8A6235), 3);
        s.Line("M362 424 L372 930", Sketch.Rgb(0x8A6235).WithAlpha(160), 3);
        for (var drop = 0; drop < 7; drop++)
        {
            var x = 420 + (drop * 96) + s.Random.Next(30);
            s.Ball(x, 446 + ((x - 330) * 0.043f), 7, 10, Sketch.Rgb(0xFFFBEF), Sketch.Rgb(0xD9C9A0));
        }

        Hole(s, 600, 690, 168, 178);
        Hole(s, 954, 720, 66, 74);

        BarClamp(s, 376, 262, 990);
        BarClamp(s, 806, 268, 1030);
        Bench(s);
    }

    private static void Hole(Sketch s, float x, float y, float radiusX, float radiusY)
    {
        s.Oval(x, y, radiusX, radiusY, Sketch.Rgb(0x8A6235), Sketch.Rgb(0xE7C999));
        s.Oval(x + (radiusX * 0.04f), y + (radiusY * 0.03f), radiusX * 0.93f, radiusY * 0.93f, Sketch.Rgb(0x2A1D10), Sketch.Rgb(0x6B4A27));
        s.Oval(x + (radiusX * 0.1f), y + (radiusY * 0.07f), radiusX * 0.78f, radiusY * 0.8f, Sketch.Rgb(0x1A120A), Sketch.Rgb(0x3F2B16));
    }

    private static void BarClamp(Sketch s, float x, float top, float bottom)
    {
        s.ShadowBox(x + 14, top + 10, 26, bottom - top, 12, 120);
        s.Box(x, top - 60, 24, bottom - top + 90, 4, Sketch.Rgb(0xE3E7E9), Sketch.Rgb(0x87929A));
        for (var notch = top; notch < bottom; notch += 16)
        {
            s.Box(x + 17, notch, 7, 6, 1, Sketch.Rgb(0x6F7A82));
        }

        // Jaws above and below, spindle and handle
        s.Fill(FormattableString.Invariant($"M{x - 12} {top - 8} h120 c22 0 32 18 32 40 v66 h-42 v-40 h-110 z"), Sketch.Rgb(0xD2614C), Sketch.Rgb(0x97392B));
        s.Box(x + 90, top + 92, 56, 40, 6, Sketch.Rgb(0x454E54), Sketch.Rgb(0x1E2428));
        s.Fill(FormattableString.Invariant($"M{x - 12} {bottom - 60} h110 v-20 h42 v46 c0 30 -16 44 -40 44 h-112 z"), Sketch.Rgb(0xD2614C), Sketch.Rgb(0x97392B));
        s.Box(x + 104, bottom + 8, 22, 74, 4, Sketch.Rgb(0xC8CED1), Sketch.Rgb(0x7D888F));
        s.Box(x + 92, bottom + 70, 46, 110, 18, Sketch.Rgb(0xE2B26B), Sketch.Rgb(0x9A6B2C));
    }

    private static void Pegboard(Sketch s)
    {
        s.Box(60, 60, 1480, 560, 10, Sketch.Rgb(0xB08A5E), Sketch.Rgb(0x96734B));
        for (var row = 0; row < 12; row++)
        {
            for (var column = 0; column < 32; column++)
            {
                s.Oval(92 + (column * 46), 92 + (row * 46), 4, 4, Sketch.Rgb(0x5F4527));
            }
        }

        // A square, a saw and a mallet
        s.ShadowBox(170, 150, 24, 220, 10, 90);
        s.Box(160, 140, 24, 220, 3, Sketch.Rgb(0xDFE4E6), Sketch.Rgb(0xA3ADB3));
        s.Box(160, 336, 170, 34, 4, Sketch.Rgb(0x7A4F2B), Sketch.Rgb(0x5E3B1E));
        s.Fill("M1180 150 L1440 190 L1440 236 L1170 250 Z", Sketch.Rgb(0xDFE4E6), Sketch.Rgb(0x9AA5AB));
        s.Fill("M1080 140 C1120 120 1180 130 1190 150 L1176 262 C1140 276 1090 262 1078 230 Z M1104 168 C1098 190 1100 214 1112 228 C1132 236 1150 232 1156 224 L1162 176 C1150 162 1120 158 1104 168 Z", Sketch.Rgb(0xC07A3C), Sketch.Rgb(0x8A5222));
        s.Box(820, 100, 20, 200, 8, Sketch.Rgb(0xD9B27A), Sketch.Rgb(0x9F7640));
        s.Box(766, 96, 128, 62, 12, Sketch.Rgb(0x8A5A34), Sketch.Rgb(0x633C1D));
    }

    private static void Bench(Sketch s)
    {
        // Glue bottle and shavings
        s.Shadow("M110 1010 h150 v40 h-150 z", 14, 130);
        s.Box(110, 820, 124, 220, 28, Sketch.Rgb(0xE7EDEE), Sketch.Rgb(0xB3BEC3));
        s.Box(110, 880, 124, 90, 2, s.Colours.Accent, Sketch.Dark(s.Colours.Accent, 0.2f));
        s.Fill("M150 822 L164 760 H182 L194 822 Z", Sketch.Rgb(0xE0703F), Sketch.Rgb(0xB04F25));
        for (var chip = 0; chip < 14; chip++)
        {
            s.Placed(700 + s.Random.Next(800), 1060 + s.Random.Next(110), s.Random.Next(360), 0.7f + s.Random.NextSingle(), () =>
                s.Line("M0 0 C10 -16 30 -14 30 0 C30 10 16 12 14 2", Sketch.Rgb(0xEED6AC).WithAlpha(220), 5));
        }
    }
}
