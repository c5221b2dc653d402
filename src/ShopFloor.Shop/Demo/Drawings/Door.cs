using SkiaSharp;

namespace ShopFloor.Shop.Demo.Drawings;

/// <summary>A front door from inside: treated metal, and the finished panel with its speaker.</summary>
internal static class Door
{
    private const string Skin = "M150 1140 C120 900 130 640 190 470 C230 380 320 350 480 340 L1440 300 C1470 300 1480 330 1478 380 L1446 1060 C1442 1110 1420 1140 1370 1144 Z";

    public static void DrawWithTreatment(Sketch s)
    {
        Background(s);
        Frame(s);
        s.Shadow(Skin, 24, 150);
        s.Fill(Skin, Sketch.Light(s.Colours.Paint, 0.14f), Sketch.Dark(s.Colours.Paint, 0.3f));
        s.Line(Skin, Sketch.Dark(s.Colours.Paint, 0.5f), 5);

        // Damping sheets: foil with a pressed pattern, overlapping like tiles.
        Sheet(s, "M250 470 C300 430 380 420 470 416 L700 408 L706 600 C560 600 380 640 232 700 C226 610 232 530 250 470 Z");
        Sheet(s, "M690 408 L1080 392 L1078 590 C960 580 820 586 696 602 Z");
        Sheet(s, "M1066 392 L1420 376 L1404 700 C1300 640 1200 606 1068 592 Z");
        Sheet(s, "M1130 1090 L1148 760 C1240 720 1330 700 1402 690 L1384 1070 C1376 1084 1366 1088 1352 1088 Z");
        Sheet(s, "M640 1096 C700 1060 730 1000 730 930 C740 870 790 830 860 820 L1150 760 L1132 1092 Z");
        Sheet(s, "M214 1090 C206 960 212 820 232 702 C300 670 380 648 440 636 C330 700 290 800 300 900 C306 990 340 1050 392 1092 Z");

        // Service opening behind its film, window rail, impact bar
        s.Fill("M752 640 C860 620 1000 622 1096 640 C1120 660 1118 720 1090 742 C980 770 860 780 780 800 C742 790 726 690 752 640 Z", Sketch.Rgb(0x14191C), Sketch.Rgb(0x2B3338));
        s.Within("M752 640 C860 620 1000 622 1096 640 C1120 660 1118 720 1090 742 C980 770 860 780 780 800 C742 790 726 690 752 640 Z", () =>
        {
            s.Cable("M700 760 L1140 660", Sketch.Rgb(0x98A3A9), 26);
            s.Cable("M890 600 L900 820", Sketch.Rgb(0x6B767D), 16);
        });
        s.Line("M752 640 C860 620 1000 622 1096 640 C1120 660 1118 720 1090 742 C980 770 860 780 780 800 C742 790 726 690 752 640 Z", Sketch.Rgb(0x0E1214), 6);

        // Speaker ring in place, lead hanging out
        s.Oval(520, 876, 210, 206, Sketch.Rgb(0x3A2B1B));
        s.Ball(512, 866, 206, 202, Sketch.Rgb(0xE7C693), Sketch.Rgb(0xA67C48));
        s.Oval(512, 866, 158, 154, Sketch.Rgb(0x101417), Sketch.Rgb(0x262D32));
        for (var hole = 0; hole < 6; hole++)
        {
            var angle = hole * MathF.PI / 3;
            s.Screw(512 + (182 * MathF.Cos(angle)), 866 + (178 * MathF.Sin(angle)), 12);
        }

        s.Cable("M560 820 C600 900 640 960 620 1040 S 560 1130 640 1180", Sketch.Rgb(0x3F78A8), 17);
        s.Cable("M540 826 C570 900 600 960 580 1040 S 520 1130 590 1190", Sketch.Rgb(0xD9DEE1), 17);
        Roller(s);
    }

    public static void DrawSpeaker(Sketch s)
    {
        Background(s);
        Frame(s);
        var trim = s.Colours.Trim;
        s.Shadow(Skin, 24, 150);
        s.Fill(Skin, Sketch.Light(trim, 0.3f), Sketch.Dark(trim, 0.2f));
        s.Fill("M176 560 C190 500 220 440 290 412 C360 380 440 372 520 368 L1448 330 L1440 470 C1100 470 760 520 176 700 Z", Sketch.Light(trim, 0.42f), Sketch.Light(trim, 0.2f));
        s.Line("M176 700 C760 520 1100 470 1440 470", Sketch.Rgb(0xD9C8A8), 5);
        s.Line("M178 716 C760 536 1100 486 1438 486", Sketch.Dark(trim, 0.4f), 4);

        // Arm rest, handle, pocket
        s.Shadow("M700 640 L1360 580 L1360 690 L720 730 Z", 16, 130);
        s.Fill("M690 620 C900 580 1150 556 1370 552 C1396 560 1396 640 1370 660 C1150 676 920 700 730 730 C690 720 676 650 690 620 Z", Sketch.Light(trim, 0.25f), Sketch.Dark(trim, 0.35f));
        s.Fill("M980 604 C1060 592 1150 586 1220 584 C1236 592 1236 616 1220 624 C1150 630 1060 640 990 650 C972 642 970 614 980 604 Z", Sketch.Rgb(0x14191C), Sketch.Rgb(0x333C42));
        s.Box(1240, 400, 130, 44, 20, Sketch.Rgb(0xDDE2E4), Sketch.Rgb(0x808B92));
        s.Fill("M800 1000 C1000 950 1200 930 1400 930 L1392 1066 C1384 1086 1370 1090 1352 1092 L820 1100 C780 1080 776 1030 800 1000 Z", Sketch.Dark(trim, 0.25f), Sketch.Dark(trim, 0.55f));

        SpeakerFace(s, 480, 880, 214);
        Tweeter(s, 300, 480, 62);
        s.Glow(480, 880, 420, 320, s.Colours.Accent.WithAlpha(34));
    }

    private static void SpeakerFace(Sketch s, float x, float y, float radius)
    {
        s.Oval(x + 10, y + 18, radius * 1.2f, radius * 1.2f, new SKColor(0, 0, 0, 130));
        s.Ball(x, y, radius * 1.16f, radius * 1.16f, Sketch.Light(s.Colours.Trim, 0.45f), Sketch.Dark(s.Colours.Trim, 0.4f));
        s.Ball(x, y, radius, radius, Sketch.Rgb(0x596168), Sketch.Rgb(0x1A1F23));
        for (var hole = 0; hole < 8; hole++)
        {
            var angle = (hole + 0.5f) * MathF.PI / 4;
            s.Screw(x + (radius * 0.93f * MathF.Cos(angle)), y + (radius * 0.93f * MathF.Sin(angle)), 10);
        }

        s.Oval(x, y, radius * 0.85f, radius * 0.85f, Sketch.Rgb(0x0D1012), Sketch.Rgb(0x32393F));
        s.Ring(x, y, radius * 0.79f, radius * 0.79f, Sketch.Rgb(0x3D454B), radius * 0.07f);
        s.Oval(x, y, radius * 0.72f, radius * 0.72f, Sketch.Rgb(0x4A5258), Sketch.Rgb(0x1D2327));
        for (var ring = 0.68f; ring > 0.26f; ring -= 0.06f)
        {
            s.Ring(x, y, radius * ring, radius * ring, SKColors.White.WithAlpha(14), 3);
        }

        s.Oval(x, y, radius * 0.5f, radius * 0.5f, Sketch.Rgb(0x1B2024).WithAlpha(120), Sketch.Rgb(0x5B656C).WithAlpha(120));
        s.Ball(x, y, radius * 0.24f, radius * 0.24f, Sketch.Rgb(0x8C979E), Sketch.Rgb(0x23292E));
        s.Ring(x, y, radius * 1.03f, radius * 1.03f, s.Colours.Accent.WithAlpha(170), 5);
    }

    private static void Tweeter(Sketch s, float x, float y, float radius)
    {
        s.Oval(x + 5, y + 9, radius * 1.1f, radius * 1.1f, new SKColor(0, 0, 0, 120));
        s.Ball(x, y, radius, radius, Sketch.Rgb(0x6A747B), Sketch.Rgb(0x1D2327));
        s.Oval(x, y, radius * 0.7f, radius * 0.7f, Sketch.Rgb(0x101417), Sketch.Rgb(0x3C454B));
        s.Ball(x, y, radius * 0.46f, radius * 0.46f, Sketch.Rgb(0xA9B3B9), Sketch.Rgb(0x394147));
    }

    private static void Sheet(Sketch s, string path)
    {
        s.Shadow(path, 7, 120);
        s.FillAcross(path, Sketch.Rgb(0xE8ECEE), Sketch.Rgb(0xB3BCC1), Sketch.Rgb(0xDDE3E5), Sketch.Rgb(0x9BA6AC));
        s.Within(path, () =>
        {
            for (var row = 0; row < 26; row++)
            {
                for (var column = 0; column < 34; column++)
                {
                    var (x, y) = (180 + (column * 38) + (row % 2 * 19), 370 + (row * 29));
                    s.Line(FormattableString.Invariant($"M{x - 11} {y} L{x} {y - 8} L{x + 11} {y} L{x} {y + 8} Z"), Sketch.Rgb(0x77838A).WithAlpha(90), 2);
                }
            }
        });
        s.Line(path, Sketch.Rgb(0xF7F9F9).WithAlpha(190), 3);
    }

    private static void Roller(Sketch s) => s.Placed(1250, 980, -24, 1, () =>
    {
        s.ShadowBox(-110, 10, 330, 34, 14, 140);
        s.Box(40, -14, 200, 36, 16, Sketch.Rgb(0xD99B4C), Sketch.Rgb(0x96601F));
        s.Line("M44 4 H-10 V-40 H-60", Sketch.Rgb(0xC8CED1), 12);
        s.Box(-150, -72, 96, 62, 16, Sketch.Rgb(0x4B545A), Sketch.Rgb(0x1E2428));
        for (var rib = 0; rib < 5; rib++)
        {
            s.Box(-142 + (rib * 17), -70, 7, 58, 3, Sketch.Rgb(0x7A858C), Sketch.Rgb(0x3A4248));
        }
    });

    private static void Background(Sketch s)
    {
        s.Box(0, 0, 1600, 1200, 0, Sketch.Rgb(0xC4CFD1), Sketch.Rgb(0x7E8A8E));
        s.Box(0, 1000, 1600, 200, 0, Sketch.Rgb(0x808B8F), Sketch.Rgb(0x5F6A6E));
        s.Glow(900, 80, 900, 420, Sketch.Rgb(0xFFF6DC).WithAlpha(130));
    }

    private static void Frame(Sketch s)
    {
        s.Fill("M190 470 C250 260 420 60 640 44 L1400 30 C1440 32 1462 60 1466 110 L1478 380 L480 340 Z", Sketch.Dark(s.Colours.Paint, 0.2f), Sketch.Dark(s.Colours.Paint, 0.45f));
        s.Fill("M280 404 C330 260 460 110 650 92 L1370 76 C1396 78 1410 94 1412 124 L1424 330 L480 372 Z", Sketch.Rgb(0xA9C6CF), Sketch.Rgb(0xDDECEF));
        s.Fill("M560 360 L820 88 L980 84 L760 352 Z", SKColors.White.WithAlpha(80));
        s.Line("M250 420 C320 380 400 366 520 362 L1440 320", Sketch.Rgb(0x14191C), 16);
    }
}
