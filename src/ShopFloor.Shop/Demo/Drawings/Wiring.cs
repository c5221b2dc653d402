using SkiaSharp;

namespace ShopFloor.Shop.Demo.Drawings;

/// <summary>Cables close up: a loom being laced, and the fuse beside the battery.</summary>
internal static class Wiring
{
    private static readonly uint[] Insulations = [0xC8443A, 0x23282C, 0x3F78A8, 0xE3B544, 0x6E9A5C, 0xD9DEE1, 0x8A5A3C, 0x7B5C94];

    public static void DrawLoom(Sketch s)
    {
        s.Wood("M0 0 H1600 V1200 H0 Z", Sketch.Rgb(0x8C9AA0), Sketch.Rgb(0x66757C));
        s.Glow(500, 160, 900, 600, Sketch.Rgb(0xFFF3D6).WithAlpha(120));

        // Pegs of the loom board
        foreach (var (x, y) in new[] { (420, 470), (430, 790), (860, 420), (900, 800), (1240, 330), (1270, 760) })
        {
            s.Oval(x + 8, y + 14, 24, 24, new SKColor(0, 0, 0, 110));
            s.Ball(x, y, 22, 22, Sketch.Rgb(0xF1F3F4), Sketch.Rgb(0x7E8A91));
        }

        // Branches leave the trunk one after the other.
        for (var i = 0; i < 8; i++)
        {
            var colour = Sketch.Rgb(Insulations[(i + s.Random.Next(2)) % Insulations.Length]);
            var y = 556 + (i * 20);
            var end = i < 3
                ? FormattableString.Invariant($"C900 {y} 980 {520 + (i * 10)} 1080 {380 - (i * 10)} S 1200 {150 + (i * 40)} 1330 {128 + (i * 46)}")
                : i < 6
                    ? FormattableString.Invariant($"H1060 C1160 {y} 1240 {y - 20} 1350 {560 + ((i - 3) * 46)}")
                    : FormattableString.Invariant($"C820 {y} 900 {y + 60} 960 {860 + ((i - 6) * 10)} S 1080 {1010 + ((i - 6) * 40)} 1220 {1000 + ((i - 6) * 46)}");
            s.Cable(FormattableString.Invariant($"M-40 {y + 26} C200 {y + 30} 420 {y} 640 {y} {end}"), colour, 22);
        }

        Plug(s, 1330, 96, 3);
        Plug(s, 1350, 528, 3);
        Plug(s, 1220, 968, 2);

        // Cloth tape round the trunk and lacing where branches leave
        s.Shadow("M60 560 L520 540 L520 730 L60 760 Z", 14, 120);
        s.Fill("M40 556 C200 556 360 536 540 532 L540 724 C360 728 200 748 40 756 Z", Sketch.Rgb(0x3C444A), Sketch.Rgb(0x171C20));
        for (var turn = 0; turn < 16; turn++)
        {
            var x = 56 + (turn * 31);
            s.Line(FormattableString.Invariant($"M{x} {748 - (turn * 1.4f)} L{x + 26} {552 - (turn * 1.2f)}"), Sketch.Rgb(0x565F66).WithAlpha(150), 3);
        }

        s.Fill("M40 580 C200 580 360 560 540 556 L540 590 C360 594 200 614 40 616 Z", SKColors.White.WithAlpha(26));
        foreach (var (x, y, height, turn) in new[] { (620, 626, 196, 2), (1030, 628, 90, 4), (760, 628, 186, 4) })
        {
            s.Placed(x, y, turn, 1, () =>
            {
                s.ShadowBox(-10, (-height / 2f) + 8, 26, height, 6, 120);
                s.Box(-12, -height / 2f, 24, height, 8, Sketch.Rgb(0x30363A), Sketch.Rgb(0x0F1315));
                s.Box(-17, -30, 34, 30, 6, Sketch.Rgb(0x454D52), Sketch.Rgb(0x1B2023));
                s.Box(-8, -height / 2f, 5, height, 2, SKColors.White.WithAlpha(50));
            });
        }
    }

    public static void DrawFuseHolder(Sketch s)
    {
        s.Box(0, 0, 1600, 1200, 0, Sketch.Rgb(0x454F55), Sketch.Rgb(0x20272B));
        s.Glow(1100, 140, 900, 560, Sketch.Rgb(0xFFF3D6).WithAlpha(90));

        // Wing panel behind
        s.Fill("M0 0 H1600 V330 C1200 420 500 420 0 330 Z", Sketch.Dark(s.Colours.Paint, 0.15f), Sketch.Dark(s.Colours.Paint, 0.5f));
        s.Line("M0 330 C500 420 1200 420 1600 330", Sketch.Light(s.Colours.Paint, 0.35f), 6);
        s.Cable("M980 -40 C1040 120 1200 260 1640 300", Sketch.Rgb(0x2A3034), 46);

        StrutTop(s);
        Reservoir(s);
        Battery(s);

        // Terminal to fuse to the cable that leaves towards the cabin
        s.Cable("M420 560 C540 470 640 470 760 536", Sketch.Rgb(0xC8372E), 58);
        s.Cable("M1290 640 C1420 700 1470 820 1480 1240", Sketch.Rgb(0xC8372E), 58);
        Clamp(s);
        Holder(s);
    }

    private static void StrutTop(Sketch s)
    {
        s.Oval(900, 1010, 270, 176, Sketch.Rgb(0x39434A), Sketch.Rgb(0x23292E));
        s.Oval(900, 996, 226, 142, Sketch.Rgb(0x4C575E), Sketch.Rgb(0x2A3237));
        s.Oval(900, 1000, 116, 72, Sketch.Rgb(0x1A2024), Sketch.Rgb(0x3A444A));
        s.Ball(900, 990, 46, 32, Sketch.Rgb(0xB7C0C5), Sketch.Rgb(0x566067));
        foreach (var (x, y) in new[] { (740, 960), (1060, 960), (900, 1104) })
        {
            s.Ball(x, y, 24, 18, Sketch.Rgb(0xC3CBCF), Sketch.Rgb(0x5B666D));
        }
    }

    private static void Reservoir(Sketch s)
    {
        s.ShadowBox(1180, 900, 260, 320, 26, 150);
        s.Box(1160, 880, 250, 360, 40, Sketch.Rgb(0xE9EDE6).WithAlpha(225), Sketch.Rgb(0xB5BDB4).WithAlpha(225));
        s.Box(1160, 1030, 250, 210, 30, Sketch.Rgb(0x6FB3A8).WithAlpha(120), Sketch.Rgb(0x3F7C74).WithAlpha(150));
        s.Line("M1380 1010 h-30 M1380 1090 h-30", Sketch.Rgb(0x59646B), 6);
        s.Oval(1285, 886, 76, 30, Sketch.Rgb(0x14191C));
        s.Box(1212, 836, 146, 50, 14, Sketch.Rgb(0x3A4248), Sketch.Rgb(0x14191C));
        s.Oval(1285, 838, 73, 24, Sketch.Rgb(0x59646B), Sketch.Rgb(0x39424A));
    }

    private static void Battery(Sketch s)
    {
        s.ShadowBox(40, 650, 640, 600, 40, 180);
        s.Fill("M20 640 L640 640 L640 1200 L20 1200 Z", Sketch.Rgb(0x3E474D), Sketch.Rgb(0x1B2024));
        s.Fill("M20 640 L90 560 L700 560 L640 640 Z", Sketch.Rgb(0x667178), Sketch.Rgb(0x4D575E));
        s.Fill("M640 640 L700 560 L700 1140 L640 1200 Z", Sketch.Rgb(0x2B3237), Sketch.Rgb(0x12171A));
        for (var rib = 0; rib < 6; rib++)
        {
            s.Box(60 + (rib * 100), 700, 60, 460, 10, Sketch.Rgb(0x485259).WithAlpha(120), Sketch.Rgb(0x252C31).WithAlpha(120));
        }

        s.Box(130, 800, 400, 190, 14, Sketch.Rgb(0xE7EAE8), Sketch.Rgb(0xC4CAC8));
        s.Box(130, 800, 400, 48, 14, Sketch.Rgb(0xE3B544), Sketch.Rgb(0xC9962B));
        s.Line("M178 918 h70 M213 883 v70", Sketch.Rgb(0xB8392F), 16);
        s.Line("M412 918 h70", Sketch.Rgb(0x2B3237), 16);
        s.Line("M330 876 L376 952 H284 Z", Sketch.Rgb(0xD98F1E), 9);
        s.Line("M330 904 v20 M330 938 v2", Sketch.Rgb(0x2B3237), 8);
    }

    private static void Clamp(Sketch s)
    {
        s.Oval(404, 604, 104, 46, new SKColor(0, 0, 0, 120));
        s.Oval(400, 590, 96, 44, Sketch.Rgb(0xE0E4E6), Sketch.Rgb(0x7D888F));
        s.Ball(400, 566, 58, 40, Sketch.Rgb(0xF6F7F7), Sketch.Rgb(0x8A949A));
        s.Oval(400, 552, 42, 22, Sketch.Rgb(0xC7CDD1), Sketch.Rgb(0x9AA4AA));
        s.Box(470, 566, 66, 42, 8, Sketch.Rgb(0xD5DADD), Sketch.Rgb(0x707B82));
        s.Screw(502, 586, 17);
        s.Box(292, 520, 120, 30, 10, Sketch.Rgb(0xC8372E), Sketch.Rgb(0x8E211A));
    }

    private static void Holder(Sketch s)
    {
        s.ShadowBox(740, 470, 570, 260, 34, 190);
        s.Box(700, 440, 640, 300, 12, Sketch.Rgb(0x9DA7AC), Sketch.Rgb(0x626D74));
        foreach (var (x, y) in new[] { (730, 470), (1310, 470), (730, 710), (1310, 710) })
        {
            s.Screw(x, y, 16);
        }

        s.Box(752, 470, 536, 240, 26, Sketch.Rgb(0x2B3237), Sketch.Rgb(0x12171A));
        s.Box(776, 496, 488, 188, 16, Sketch.Rgb(0x171C20), Sketch.Rgb(0x2C343A));

        // Studs, fuse link and its window
        foreach (var x in new[] { 850, 1190 })
        {
            s.Box(x - 52, 546, 104, 88, 8, Sketch.Rgb(0xE9C877), Sketch.Rgb(0x9B7428));
            s.Ball(x, 590, 34, 34, Sketch.Rgb(0xF3F5F6), Sketch.Rgb(0x7C868D));
            s.Oval(x, 590, 16, 16, Sketch.Rgb(0x9AA4AA), Sketch.Rgb(0xD5DADD));
        }

        s.Box(896, 548, 248, 84, 12, Sketch.Rgb(0xF0A24A), Sketch.Rgb(0xB96C1F));
        s.Box(936, 562, 168, 56, 10, Sketch.Rgb(0xFFE3B8), Sketch.Rgb(0xE3B878));
        s.Line("M944 590 C970 566 990 614 1020 590 S 1070 566 1096 590", Sketch.Rgb(0x8E959A), 9);

        // Clear lid
        s.Fill("M776 496 H1264 V684 H776 Z", Sketch.Rgb(0xCFE8EE).WithAlpha(34));
        s.Fill("M800 496 H1000 L880 684 H776 V530 Z", SKColors.White.WithAlpha(44));
        s.Outline(776, 496, 488, 188, 16, Sketch.Rgb(0xD7ECF0).WithAlpha(150), 4);
        s.Box(1278, 606, 64, 66, 12, Sketch.Rgb(0x2B3237), Sketch.Rgb(0x12171A));
        s.Box(706, 500, 64, 66, 12, Sketch.Rgb(0x2B3237), Sketch.Rgb(0x12171A));
    }

    private static void Plug(Sketch s, float x, float y, int ways)
    {
        var height = 46f * ways;
        s.ShadowBox(x + 6, y + 14, 190, height, 14, 130);
        s.Box(x, y, 186, height, 14, Sketch.Rgb(0xF0F2F1), Sketch.Rgb(0xB4BCC0));
        s.Box(x + 122, y + 12, 64, height - 24, 8, Sketch.Rgb(0x5A656C), Sketch.Rgb(0x343C42));
        for (var way = 0; way < ways; way++)
        {
            s.Box(x + 20, y + 14 + (way * 46), 84, 18, 6, Sketch.Rgb(0x8D989E), Sketch.Rgb(0xC8CED1));
            s.Box(x + 136, y + 17 + (way * 46), 40, 12, 3, Sketch.Rgb(0xE9C877));
        }

        s.Box(x + 50, y - 14, 70, 18, 7, Sketch.Rgb(0xD5DADC), Sketch.Rgb(0x98A2A8));
    }
}
