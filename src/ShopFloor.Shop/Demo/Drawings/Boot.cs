using SkiaSharp;

namespace ShopFloor.Shop.Demo.Drawings;

/// <summary>Looking into the open boot: empty, with a false floor, finished.</summary>
internal static class Boot
{
    private const string Floor = "M420 650 H1180 L1340 960 H260 Z";
    private const string RaisedFloor = "M410 610 H1190 L1350 862 H250 Z";

    public static void DrawEmpty(Sketch s)
    {
        Shell(s);
        s.Carpet(Floor, Sketch.Dark(s.Colours.Trim, 0.15f), Sketch.Light(s.Colours.Trim, 0.14f), 5200);
        s.Line("M470 690 H1130 L1240 920 H360 Z", Sketch.Dark(s.Colours.Trim, 0.5f).WithAlpha(160), 4);
        s.Box(740, 880, 120, 26, 13, Sketch.Rgb(0x14181B), Sketch.Rgb(0x3A4146));
        foreach (var (x, y) in new[] { (450, 700), (1150, 700), (350, 915), (1250, 915) })
        {
            s.Ring(x, y, 22, 13, Sketch.Rgb(0xC3CACD), 6);
        }

        Sill(s);
    }

    public static void DrawWithFalseFloor(Sketch s)
    {
        Shell(s);
        var (top, bottom) = (Sketch.Rgb(0xC69A63), Sketch.Rgb(0xE3BE87));
        s.Shadow("M300 870 H1300 V980 H300 Z", 20, 150);
        s.Fill(Floor, Sketch.Rgb(0x15191C), Sketch.Rgb(0x23292D));
        s.Wood(RaisedFloor, top, bottom);
        s.FillAcross("M250 862 H1350 V894 H250 Z", Sketch.Rgb(0xA67A45), Sketch.Rgb(0xD9B076), Sketch.Rgb(0xA67A45));
        s.Line("M250 872 H1350 M250 883 H1350", Sketch.Rgb(0x6E4C26).WithAlpha(140), 2);
        s.Line("M800 612 V862", Sketch.Rgb(0x7A5630), 4);

        // Left half: a cut-out with an amplifier below the floor; right half: a lift-out lid.
        s.Fill("M474 660 H742 L724 810 H404 Z", Sketch.Rgb(0x14181B), Sketch.Rgb(0x2B3237));
        s.Line("M474 660 H742 L724 810 H404 Z", Sketch.Rgb(0x8A6235), 6);
        s.Within("M474 660 H742 L724 810 H404 Z", () => FlatAmplifier(s, 470, 690, 232, 108));
        s.Line("M864 660 H1126 L1192 812 H880 Z", Sketch.Rgb(0x7A5630), 5);
        s.Oval(1020, 786, 34, 13, Sketch.Rgb(0x2A1D10), Sketch.Rgb(0x5B3F20));
        foreach (var (x, y) in new[] { (452, 640), (772, 640), (832, 640), (1160, 640), (330, 838), (760, 838), (840, 838), (1270, 838) })
        {
            s.Screw(x, y, 8);
        }

        s.Cable("M560 900 C600 936 700 930 760 948", Sketch.Rgb(0xB93B33), 15);
        s.Cable("M610 898 C660 920 740 916 820 940", Sketch.Rgb(0x23282C), 15);
        Pencil(s);
        Sill(s);
    }

    public static void DrawFinished(Sketch s)
    {
        Shell(s);
        var accent = s.Colours.Accent;
        s.Fill(Floor, Sketch.Rgb(0x15191C), Sketch.Rgb(0x23292D));
        s.Carpet(RaisedFloor, Sketch.Rgb(0x2A2E33), Sketch.Rgb(0x474D54), 4200);
        s.Fill("M250 862 H1350 V894 H250 Z", Sketch.Rgb(0x1C2024), Sketch.Rgb(0x0E1113));

        // Lit window over two amplifiers
        s.Glow(800, 740, 520, 240, accent.WithAlpha(120));
        s.Fill("M540 664 H1060 L1112 826 H488 Z", Sketch.Rgb(0x0F1316), Sketch.Rgb(0x1C2226));
        s.Within("M540 664 H1060 L1112 826 H488 Z", () =>
        {
            FlatAmplifier(s, 546, 696, 236, 112);
            FlatAmplifier(s, 820, 696, 236, 112);
            s.Glow(800, 660, 420, 110, accent.WithAlpha(220));
            s.Fill("M600 664 L720 664 L560 826 L460 826 Z", SKColors.White.WithAlpha(26));
        });
        s.Line("M540 664 H1060 L1112 826 H488 Z", Sketch.Light(accent, 0.25f), 5);
        s.Line("M528 656 H1072 L1128 836 H472 Z", Sketch.Rgb(0x5C646B), 7);

        // Side enclosures with a woofer each
        s.FillAcross("M330 470 C400 456 450 470 462 520 L470 640 L400 858 L262 862 C244 720 262 560 330 470 Z", Sketch.Rgb(0x23292D), Sketch.Rgb(0x4D565D));
        s.FillAcross("M1270 470 C1200 456 1150 470 1138 520 L1130 640 L1200 858 L1338 862 C1356 720 1338 560 1270 470 Z", Sketch.Rgb(0x4D565D), Sketch.Rgb(0x23292D));
        s.Line("M330 470 C400 456 450 470 462 520 L470 640 L400 858", accent.WithAlpha(120), 3);
        s.Line("M1270 470 C1200 456 1150 470 1138 520 L1130 640 L1200 858", accent.WithAlpha(120), 3);
        Subwoofer(s, 352, 664, 84, 122);
        Subwoofer(s, 1248, 664, 84, 122);
        Sill(s);
    }

    private static void Subwoofer(Sketch s, float x, float y, float radiusX, float radiusY)
    {
        s.Oval(x + 6, y + 14, radiusX * 1.1f, radiusY * 1.08f, new SKColor(0, 0, 0, 120));
        s.Ball(x, y, radiusX * 1.06f, radiusY * 1.06f, Sketch.Rgb(0x8D979F), Sketch.Rgb(0x2D3439));
        s.Oval(x, y, radiusX * 0.95f, radiusY * 0.95f, Sketch.Rgb(0x101416), Sketch.Rgb(0x22292D));
        s.Ball(x, y, radiusX * 0.88f, radiusY * 0.88f, Sketch.Rgb(0x4A5259), Sketch.Rgb(0x14181B));
        s.Oval(x, y, radiusX * 0.7f, radiusY * 0.7f, Sketch.Rgb(0x15191C), Sketch.Rgb(0x3B434A));
        s.Ball(x, y, radiusX * 0.3f, radiusY * 0.3f, Sketch.Rgb(0x6C767E), Sketch.Rgb(0x1D2226));
        s.Ring(x, y, radiusX * 1.02f, radiusY * 1.02f, s.Colours.Accent.WithAlpha(150), 4);
    }

    /// <summary>An amplifier lying under a window: fins seen from above.</summary>
    private static void FlatAmplifier(Sketch s, float x, float y, float width, float height)
    {
        s.ShadowBox(x, y + 8, width, height, 10, 160);
        s.Box(x, y, width, height, 8, Sketch.Rgb(0x79838A), Sketch.Rgb(0xAAB3B8));
        for (var fin = 12f; fin < width - 14; fin += 18)
        {
            s.Box(x + fin, y + 8, 9, height - 16, 3, Sketch.Rgb(0x555F66), Sketch.Rgb(0x707A81));
        }

        s.Box(x + (width * 0.36f), y + (height * 0.38f), width * 0.28f, height * 0.24f, 6, Sketch.Rgb(0x343B40), Sketch.Rgb(0x4A5359));
        s.Oval(x + (width * 0.5f), y + (height * 0.5f), 5, 5, s.Colours.Accent);
    }

    private static void Pencil(Sketch s) => s.Placed(930, 700, 24, 1, () =>
    {
        s.ShadowBox(4, 6, 130, 10, 5, 90);
        s.Box(0, 0, 120, 11, 2, Sketch.Rgb(0xE7B33F), Sketch.Rgb(0xC08A22));
        s.Fill("M120 0 L142 5.5 L120 11 Z", Sketch.Rgb(0xEAD3AC));
        s.Fill("M134 3.5 L142 5.5 L134 7.5 Z", Sketch.Rgb(0x2A2A2A));
    });

    private static void Shell(Sketch s)
    {
        var (paint, trim) = (s.Colours.Paint, s.Colours.Trim);
        s.Box(0, 0, 1600, 1200, 0, Sketch.Rgb(0xC7D2D4), Sketch.Rgb(0x8D999C));
        s.Glow(800, 40, 900, 300, Sketch.Rgb(0xFFF6DC).WithAlpha(140));

        // Rear of the car round the opening
        s.Fill("M110 1200 C70 900 90 420 190 130 C230 70 330 60 800 60 C1270 60 1370 70 1410 130 C1510 420 1530 900 1490 1200 Z", Sketch.Light(paint, 0.22f), Sketch.Dark(paint, 0.35f));
        s.Fill("M176 960 C150 700 176 380 262 170 C290 130 360 120 800 120 C1240 120 1310 130 1338 170 C1424 380 1450 700 1424 960 Z", Sketch.Dark(paint, 0.55f), Sketch.Dark(paint, 0.4f));
        s.Fill("M206 960 C186 700 206 390 286 190 C310 154 370 146 800 146 C1230 146 1290 154 1314 190 C1394 390 1414 700 1394 960 Z", Sketch.Rgb(0x0F1315), Sketch.Rgb(0x191E21));
        foreach (var (x, mirror) in new[] { (96f, 1f), (1504f, -1f) })
        {
            s.Canvas.Save();
            s.Canvas.Translate(x, 0);
            s.Canvas.Scale(mirror, 1);
            s.Fill("M6 690 C8 600 20 520 40 440 C64 436 82 448 88 462 C70 560 64 640 66 740 C44 744 16 730 6 690 Z", Sketch.Rgb(0xE45A45), Sketch.Rgb(0x8E2219));
            s.Fill("M22 560 C28 530 34 506 40 490 L70 500 C66 524 60 550 58 570 Z", SKColors.White.WithAlpha(70));
            s.Canvas.Restore();
        }

        // Roof lining, sides and the backs of the rear seats
        s.Fill("M300 200 C330 166 400 160 800 160 C1200 160 1270 166 1300 200 L1150 320 H450 Z", Sketch.Rgb(0xC9C6BE), Sketch.Rgb(0x8F8D87));
        s.FillAcross("M290 210 L452 320 L430 650 L262 955 C212 720 222 420 290 210 Z", Sketch.Light(trim, 0.2f), Sketch.Dark(trim, 0.25f));
        s.FillAcross("M1310 210 L1148 320 L1170 650 L1338 955 C1388 720 1378 420 1310 210 Z", Sketch.Dark(trim, 0.25f), Sketch.Light(trim, 0.2f));
        s.Fill("M450 320 H1150 L1180 650 H420 Z", Sketch.Rgb(0x566671), Sketch.Rgb(0x333D44));
        s.Fill("M470 320 H780 V250 C780 226 740 216 640 216 C540 216 490 226 486 250 Z M820 320 H1130 L1114 250 C1110 226 1060 216 960 216 C860 216 820 226 820 250 Z", Sketch.Rgb(0x7B8992), Sketch.Rgb(0x4A565E));
        for (var seat = 0; seat < 2; seat++)
        {
            var left = seat == 0 ? 466 : 812;
            s.Box(left, 322, 322, 316, 26, Sketch.Rgb(0x63737D), Sketch.Rgb(0x3C474F));
            s.Line(FormattableString.Invariant($"M{left + 30} 360 H{left + 292} M{left + 30} 470 H{left + 292}"), Sketch.Rgb(0x2C353B).WithAlpha(150), 3);
        }

        // Wheel arches and a lamp
        s.Fill("M262 955 C250 800 300 640 400 600 C440 610 440 640 430 660 Z", Sketch.Light(trim, 0.12f), Sketch.Dark(trim, 0.3f));
        s.Fill("M1338 955 C1350 800 1300 640 1200 600 C1160 610 1160 640 1170 660 Z", Sketch.Light(trim, 0.12f), Sketch.Dark(trim, 0.3f));
        s.Box(318, 440, 54, 22, 8, Sketch.Rgb(0xFFF9E4));
        s.Glow(345, 451, 240, 190, Sketch.Rgb(0xFFF1C9).WithAlpha(130));
    }

    private static void Sill(Sketch s)
    {
        var paint = s.Colours.Paint;
        s.Shadow("M180 930 H1420 V990 H180 Z", 16, 120);
        s.Fill("M170 950 H1430 L1446 1010 H154 Z", Sketch.Rgb(0x5C656B), Sketch.Rgb(0x23292D));
        s.Box(716, 958, 168, 34, 8, Sketch.Rgb(0x9BA4A9), Sketch.Rgb(0x4F595F));
        s.Box(770, 964, 60, 16, 5, Sketch.Rgb(0x20262A));
        s.Fill("M120 1010 H1480 C1496 1080 1496 1150 1490 1200 H110 C104 1150 104 1080 120 1010 Z", Sketch.Light(paint, 0.42f), Sketch.Dark(paint, 0.28f));
        s.Fill("M140 1022 H1460 C1462 1030 1463 1036 1464 1046 H136 C137 1036 138 1030 140 1022 Z", SKColors.White.WithAlpha(60));
    }
}
