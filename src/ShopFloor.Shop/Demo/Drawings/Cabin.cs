using SkiaSharp;

namespace ShopFloor.Shop.Demo.Drawings;

/// <summary>The dashboard, and a mark on the paint found at check-in.</summary>
internal static class Cabin
{
    public static void DrawDashboard(Sketch s)
    {
        var (trim, accent) = (s.Colours.Trim, s.Colours.Accent);

        // Through the windscreen: the workshop yard
        s.Box(0, 0, 1600, 520, 0, Sketch.Rgb(0xBBDCE6), Sketch.Rgb(0xEAF3F1));
        s.Fill("M0 330 L180 250 L420 300 L700 230 L980 290 L1250 240 L1600 310 V520 H0 Z", Sketch.Rgb(0x9DB8B4), Sketch.Rgb(0x88A39D));
        s.Box(980, 210, 420, 190, 4, Sketch.Rgb(0xD9C9B0), Sketch.Rgb(0xBBA98D));
        s.Box(1040, 260, 140, 140, 3, Sketch.Rgb(0x6C7F86), Sketch.Rgb(0x53656B));
        s.Box(0, 392, 1600, 130, 0, Sketch.Rgb(0x9BA5A6), Sketch.Rgb(0x828C8D));
        s.Fill("M0 0 H210 L96 560 H0 Z M1600 0 H1390 L1504 560 H1600 Z", Sketch.Dark(trim, 0.2f), trim);
        s.Fill("M420 0 L700 0 L460 430 L220 430 Z", SKColors.White.WithAlpha(40));

        // Dash top and face
        s.Fill("M-20 560 C100 440 380 410 560 420 C760 430 1000 450 1240 440 C1420 436 1540 460 1620 520 V760 H-20 Z", Sketch.Light(trim, 0.26f), Sketch.Dark(trim, 0.1f));
        s.Fill("M-20 640 C300 560 560 590 800 590 C1100 590 1380 550 1620 620 V1220 H-20 Z", Sketch.Light(trim, 0.12f), Sketch.Dark(trim, 0.5f));
        s.Line("M-20 640 C300 560 560 590 800 590 C1100 590 1380 550 1620 620", Sketch.Rgb(0xD9C8A8), 5);

        Gauges(s);
        Screen(s, accent);
        Vents(s);
        Console(s);
        Wheel(s);
        foreach (var (x, y) in new[] { (70, 410), (1530, 410) })
        {
            s.Oval(x, y + 8, 52, 54, new SKColor(0, 0, 0, 110));
            s.Ball(x, y, 46, 48, Sketch.Rgb(0x6A747B), Sketch.Rgb(0x1D2327));
            s.Oval(x, y, 34, 36, Sketch.Rgb(0x101417), Sketch.Rgb(0x3C454B));
            s.Ball(x, y, 21, 22, Sketch.Rgb(0xA9B3B9), Sketch.Rgb(0x394147));
        }
    }

    public static void DrawScratch(Sketch s)
    {
        var paint = s.Colours.Paint;
        s.Box(0, 0, 1600, 1200, 0, Sketch.Light(paint, 0.3f), Sketch.Dark(paint, 0.4f));

        // The lamps mirrored in the panel, a crease and the gap to the next panel
        s.Fill("M-40 150 C400 60 1000 60 1640 190 L1640 270 C1000 150 400 150 -40 250 Z", SKColors.White.WithAlpha(110));
        s.Fill("M-40 330 C400 250 1000 250 1640 360 L1640 384 C1000 280 400 280 -40 364 Z", SKColors.White.WithAlpha(50));
        s.Fill("M-40 820 C400 760 1100 770 1640 860 L1640 1220 H-40 Z", Sketch.Dark(paint, 0.12f), Sketch.Dark(paint, 0.55f));
        s.Line("M-40 820 C400 760 1100 770 1640 860", Sketch.Light(paint, 0.55f).WithAlpha(200), 7);
        s.Fill("M1330 -20 C1350 400 1366 800 1350 1220 H1366 C1384 800 1370 400 1348 -20 Z", Sketch.Rgb(0x0D1114));
        s.Line("M1372 -20 C1394 400 1408 800 1390 1220", Sketch.Light(paint, 0.5f).WithAlpha(170), 5);

        // The scratch: a bundle of fine lines with a bright middle, and a chip
        for (var line = 0; line < 26; line++)
        {
            var (shift, reach) = ((line - 13) * 2.6f, 30 + s.Random.Next(150));
            s.Line(
                FormattableString.Invariant($"M{470 + reach} {520 + shift} C{640 + s.Random.Next(20)} {480 + shift} {800 + s.Random.Next(20)} {470 + shift} {1110 - s.Random.Next(180)} {430 + (shift * 1.4f)}"),
                (line % 3 == 0 ? SKColors.White : Sketch.Light(paint, 0.7f)).WithAlpha((byte)(90 + s.Random.Next(140))),
                1 + (2 * s.Random.NextSingle()));
        }

        s.Line("M500 520 C650 484 820 472 1080 436", SKColors.White.WithAlpha(230), 5);
        s.Fill("M700 470 C712 458 742 456 756 466 C766 478 752 492 730 494 C708 494 692 484 700 470 Z", Sketch.Rgb(0xE4E6E5), Sketch.Rgb(0xB9BFC1));
        s.Line("M700 470 C692 484 708 494 730 494 C752 492 766 478 756 466", Sketch.Dark(paint, 0.6f), 3);

        s.Outline(410, 340, 780, 262, 120, Sketch.Rgb(0xF3C341), 9);
        Ruler(s);
    }

    private static void Ruler(Sketch s) => s.Placed(330, 700, -4, 1, () =>
    {
        s.ShadowBox(10, 20, 900, 110, 18, 150);
        s.Box(0, 0, 900, 110, 8, Sketch.Rgb(0xF4F5F2), Sketch.Rgb(0xCFD5D4));
        for (var tick = 0; tick <= 100; tick++)
        {
            var length = tick % 10 == 0 ? 58 : tick % 5 == 0 ? 42 : 26;
            s.Box(28 + (tick * 8.4f), 4, tick % 10 == 0 ? 3.4f : 2, length, 0, Sketch.Rgb(0x2A3136));
        }

        for (var square = 0; square < 10; square += 2)
        {
            s.Box(28 + (square * 84), 84, 84, 16, 0, Sketch.Rgb(0x2A3136));
        }
    });

    private static void Gauges(Sketch s)
    {
        s.Fill("M170 620 C180 500 280 470 420 470 C560 470 660 500 670 620 C560 650 280 650 170 620 Z", Sketch.Rgb(0x1B2125), Sketch.Rgb(0x0D1113));
        foreach (var (x, sweep) in new[] { (300f, 40f), (540f, -60f) })
        {
            s.Ball(x, 570, 88, 88, Sketch.Rgb(0x2C353B), Sketch.Rgb(0x0C1012));
            s.Ring(x, 570, 84, 84, Sketch.Rgb(0xC8CED1), 4);
            for (var mark = -5; mark <= 5; mark++)
            {
                s.Placed(x, 570, mark * 24, 1, () => s.Box(-2, -76, 4, mark % 5 == 0 ? 18 : 10, 1, Sketch.Rgb(0xE9EDEE)));
            }

            s.Placed(x, 570, sweep, 1, () => s.Fill("M-4 12 L-2 -66 H2 L4 12 Z", Sketch.Rgb(0xE8684F)));
            s.Ball(x, 570, 11, 11, Sketch.Rgb(0x8C979E), Sketch.Rgb(0x23292E));
        }
    }

    private static void Screen(Sketch s, SKColor accent)
    {
        s.ShadowBox(730, 500, 380, 250, 20, 160);
        s.Box(716, 482, 400, 262, 22, Sketch.Rgb(0x23292E), Sketch.Rgb(0x0C1012));
        s.Box(736, 502, 360, 222, 10, Sketch.Rgb(0x10222B), Sketch.Rgb(0x183641));

        // Bars of a spectrum and a volume line
        for (var bar = 0; bar < 14; bar++)
        {
            var height = 26 + (70 * MathF.Abs(MathF.Sin((bar * 0.7f) + s.Random.NextSingle())));
            s.Box(762 + (bar * 22.4f), 644 - height, 15, height, 3, Sketch.Light(accent, 0.3f), Sketch.Dark(accent, 0.35f));
        }

        s.Line("M764 684 H1068", Sketch.Rgb(0x45606B), 8);
        s.Line("M764 684 H960", accent, 8);
        s.Oval(960, 684, 13, 13, SKColors.White, Sketch.Rgb(0xC8D2D6));
        s.Glow(916, 610, 320, 220, accent.WithAlpha(70));
        s.Fill("M736 502 H900 L800 724 H736 Z", SKColors.White.WithAlpha(16));
    }

    private static void Vents(Sketch s)
    {
        foreach (var x in new[] { 1170f, 1400f })
        {
            s.Box(x, 590, 180, 92, 20, Sketch.Rgb(0x2B3338), Sketch.Rgb(0x0E1214));
            for (var slat = 0; slat < 4; slat++)
            {
                s.Box(x + 14, 602 + (slat * 19), 152, 9, 4, Sketch.Rgb(0x657077), Sketch.Rgb(0x2E363B));
            }

            s.Outline(x, 590, 180, 92, 20, Sketch.Rgb(0xAAB3B8).WithAlpha(160), 3);
        }
    }

    private static void Console(Sketch s)
    {
        s.Fill("M740 770 H1090 L1150 1220 H690 Z", Sketch.Light(s.Colours.Trim, 0.2f), Sketch.Dark(s.Colours.Trim, 0.5f));
        foreach (var x in new[] { 806f, 916f, 1026f })
        {
            s.Oval(x + 3, 828 + 6, 40, 40, new SKColor(0, 0, 0, 120));
            s.Ball(x, 828, 38, 38, Sketch.Rgb(0xE0E4E6), Sketch.Rgb(0x5B656C));
            s.Box(x - 3, 794, 6, 18, 2, Sketch.Rgb(0x2B3237));
        }

        s.Box(790, 900, 252, 44, 10, Sketch.Rgb(0x14191C), Sketch.Rgb(0x2E363B));
        s.Shadow("M860 1040 h130 v140 h-130 z", 20, 140);
        s.Fill("M850 1200 C866 1120 880 1080 890 1060 H950 C962 1080 976 1120 992 1200 Z", Sketch.Rgb(0x2B3338), Sketch.Rgb(0x111518));
        s.Box(908, 990, 24, 90, 8, Sketch.Rgb(0xC8CED1), Sketch.Rgb(0x6F7A82));
        s.Ball(920, 984, 44, 40, Sketch.Rgb(0x5B656C), Sketch.Rgb(0x14191C));
    }

    private static void Wheel(Sketch s)
    {
        s.Ring(436, 884, 300, 284, new SKColor(0, 0, 0, 110), 58);
        s.Ring(420, 860, 300, 284, Sketch.Rgb(0x1A1F23), 58);
        s.Ring(417, 855, 302, 286, Sketch.Rgb(0x3A434A), 34);
        s.Ring(413, 849, 306, 290, Sketch.Rgb(0x6A757C).WithAlpha(150), 8);
        s.Fill("M140 850 C230 820 290 810 330 812 L510 812 C560 810 620 820 700 850 L690 912 C620 900 570 910 520 950 L480 1130 H360 L320 950 C270 910 220 900 150 912 Z", Sketch.Rgb(0x394249), Sketch.Rgb(0x171C20));
        s.Ball(420, 876, 108, 92, Sketch.Rgb(0x56616A), Sketch.Rgb(0x1B2024));
        s.Ring(420, 876, 108, 92, Sketch.Rgb(0x0E1214), 3);
        s.Box(214, 856, 70, 30, 10, Sketch.Rgb(0x65707A), Sketch.Rgb(0x2C3439));
        s.Box(556, 856, 70, 30, 10, Sketch.Rgb(0x65707A), Sketch.Rgb(0x2C3439));
    }
}
