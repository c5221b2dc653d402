using SkiaSharp;

namespace ShopFloor.Shop.Demo.Drawings;

/// <summary>A board with amplifiers and their cables, ready to go into the car.</summary>
internal static class AmplifierRack
{
    public static void Draw(Sketch s)
    {
        s.Box(0, 0, 1600, 1200, 0, Sketch.Rgb(0x59666D), Sketch.Rgb(0x3C474D));
        s.Glow(520, 60, 900, 500, Sketch.Rgb(0xFFF3D6).WithAlpha(110));
        s.ShadowBox(110, 130, 1400, 980, 34, 170);
        s.Wood("M96 96 H1504 V1090 H96 Z", Sketch.Rgb(0xE2C08F), Sketch.Rgb(0xC3965C));
        s.Line("M96 96 H1504", Sketch.Rgb(0xF4DDB8), 6);
        s.Line("M96 1090 H1504", Sketch.Rgb(0x6E4C26), 8);

        // Cables first, so that they run under the amplifiers' edges: speaker leads to the right in two flat bundles, supply below.
        for (var i = 0; i < 4; i++)
        {
            var (x, y) = (250 + (i * 52), 640 - (i * 24));
            s.Cable(FormattableString.Invariant($"M{x} 460 V{y - 50} Q{x} {y} {x + 50} {y} H1540"), i % 2 == 0 ? Sketch.Rgb(0x3F6F9E) : Sketch.Rgb(0xD8DDE0), 18);
        }

        for (var i = 0; i < 4; i++)
        {
            var (x, y) = (936 + (i * 52), 742 - (i * 24));
            s.Cable(FormattableString.Invariant($"M{x} 460 V{y - 50} Q{x} {y} {x + 50} {y} H1540"), i % 2 == 0 ? Sketch.Rgb(0x6E8F5B) : Sketch.Rgb(0xD8DDE0), 18);
        }

        s.Cable("M582 466 V716 Q582 760 540 760 H500", Sketch.Rgb(0xB93B33), 28);
        s.Cable("M634 466 V824 Q634 866 590 866 H500", Sketch.Rgb(0x22272B), 28);
        s.Cable("M1270 466 V772 Q1270 816 1226 816 H700 Q660 816 640 800 T560 784 H500", Sketch.Rgb(0xB93B33), 28);
        s.Cable("M1322 466 V812 Q1322 856 1278 856 H740 Q700 856 680 876 T600 896 H500", Sketch.Rgb(0x22272B), 28);
        s.Cable("M390 1240 V900", Sketch.Rgb(0xB93B33), 40);
        s.Cable("M470 1240 V900", Sketch.Rgb(0x22272B), 40);

        Amplifier(s, 170, 170, 600, 300, 18);
        Amplifier(s, 846, 170, 580, 300, 14);
        Block(s, 300, 730, 280, 190);
        Processor(s, 860, 912, 420, 140);
        foreach (var (x, y) in new[] { (132, 132), (1468, 132), (132, 1054), (1468, 1054), (800, 132), (800, 1054) })
        {
            s.Screw(x, y, 15);
        }

        // Ties and saddles
        foreach (var (x, y, height) in new[] { (760, 604, 118), (1404, 655, 222), (1000, 604, 118), (430, 1010, 0) })
        {
            if (height == 0)
            {
                s.Box(x - 90, y - 16, 180, 34, 10, Sketch.Rgb(0x3A4248), Sketch.Rgb(0x171C20));
                s.Screw(x - 74, y, 9);
                s.Screw(x + 74, y, 9);
                continue;
            }

            s.ShadowBox(x - 6, y - (height / 2f) + 6, 20, height, 5, 120);
            s.Box(x - 9, y - (height / 2f), 18, height, 7, Sketch.Rgb(0x3A4248), Sketch.Rgb(0x12171A));
        }
    }

    private static void Amplifier(Sketch s, float x, float y, float width, float height, int fins)
    {
        s.ShadowBox(x + 8, y + 20, width, height, 22, 170);
        s.Box(x, y, width, height, 16, Sketch.Rgb(0x4B545B), Sketch.Rgb(0x23292E));
        var pitch = (width - 60) / fins;
        for (var fin = 0; fin < fins; fin++)
        {
            s.Box(x + 30 + (fin * pitch), y + 16, pitch * 0.56f, height - 74, 5, Sketch.Rgb(0x8B959C), Sketch.Rgb(0x4D575E));
            s.Box(x + 30 + (fin * pitch), y + 16, pitch * 0.14f, height - 74, 3, SKColors.White.WithAlpha(70));
        }

        s.Box(x + (width * 0.33f), y + (height * 0.3f), width * 0.34f, 66, 12, Sketch.Rgb(0x2B3237), Sketch.Rgb(0x40494F));
        s.Line(FormattableString.Invariant($"M{x + (width * 0.38f)} {y + (height * 0.3f) + 33} h{width * 0.24f}"), s.Colours.Accent.WithAlpha(220), 6);
        s.Glow(x + (width * 0.5f), y + (height * 0.3f) + 33, width * 0.22f, 60, s.Colours.Accent.WithAlpha(110));
        s.Box(x + 20, y + height - 50, width - 40, 40, 6, Sketch.Rgb(0x14191C), Sketch.Rgb(0x2B3338));
        for (var terminal = 0; terminal < 9; terminal++)
        {
            var at = x + 56 + (terminal * (width - 112) / 8);
            s.Box(at - 17, y + height - 44, 34, 28, 4, Sketch.Rgb(0xE2BE68), Sketch.Rgb(0x9B7428));
            s.Oval(at, y + height - 30, 8, 8, Sketch.Rgb(0x6A4D16), Sketch.Rgb(0xB58B37));
        }
    }

    private static void Block(Sketch s, float x, float y, float width, float height)
    {
        s.ShadowBox(x + 6, y + 16, width, height, 16, 160);
        s.Box(x, y, width, height, 16, Sketch.Rgb(0x2A3136), Sketch.Rgb(0x14191C));
        for (var slot = 0; slot < 3; slot++)
        {
            var top = y + 22 + (slot * 52);
            s.Box(x + 28, top, width - 56, 40, 8, Sketch.Rgb(0x4D575D), Sketch.Rgb(0x30383D));
            s.Box(x + 40, top + 9, 52, 22, 4, Sketch.Rgb(0xE9C877), Sketch.Rgb(0xA57F33));
            s.Box(x + width - 92, top + 9, 52, 22, 4, Sketch.Rgb(0xE9C877), Sketch.Rgb(0xA57F33));
            s.Box(x + 96, top + 6, width - 192, 28, 6, Sketch.Rgb(slot == 1 ? 0x4F9BC4u : 0xE08B3Eu).WithAlpha(230), Sketch.Rgb(slot == 1 ? 0x2F6C91u : 0xA85F20u));
        }

        s.Fill(FormattableString.Invariant($"M{x + 10} {y + 8} h{width * 0.5f} l-90 {height - 16} h{-(width * 0.5f) + 90} z"), SKColors.White.WithAlpha(28));
    }

    private static void Processor(Sketch s, float x, float y, float width, float height)
    {
        s.ShadowBox(x + 6, y + 16, width, height, 16, 160);
        s.Box(x, y, width, height, 14, Sketch.Rgb(0x39434A), Sketch.Rgb(0x1D2327));
        for (var plug = 0; plug < 8; plug++)
        {
            s.Oval(x + 50 + (plug * 46), y + height - 36, 16, 16, Sketch.Rgb(0xC9CFD3), Sketch.Rgb(0x69747B));
            s.Oval(x + 50 + (plug * 46), y + height - 36, 7, 7, Sketch.Rgb(plug % 2 == 0 ? 0xC94A3Au : 0xF0F2F2u));
        }

        for (var lamp = 0; lamp < 4; lamp++)
        {
            s.Oval(x + 60 + (lamp * 34), y + 40, 8, 8, lamp < 3 ? s.Colours.Accent : Sketch.Rgb(0x58636A));
        }

        s.Box(x + 230, y + 24, 150, 34, 8, Sketch.Rgb(0x10151A), Sketch.Rgb(0x232B31));
    }
}
