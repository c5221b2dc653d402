using System.Globalization;

namespace ShopFloor.Shop.Demo.Drawings;

/// <summary>An invented hatchback standing in the workshop, seen from its front corner.</summary>
internal static class CarInBay
{
    public static void Draw(Sketch s)
    {
        Bay(s);
        Shadows(s);
        Body(s);
        Glass(s);
        Front(s);
        Wheel(s, 800, 838, 78, 112);
        Wheel(s, 1242, 770, 60, 94);
        Side(s);
    }

    /// <summary>The room: wall, roller door, window, lamps, tool cabinet and a polished floor.</summary>
    public static void Bay(Sketch s)
    {
        s.Box(0, 0, 1600, 720, 0, Sketch.Rgb(0xD6DEDF), Sketch.Rgb(0xB9C5C7));
        s.Box(0, 470, 1600, 250, 0, Sketch.Rgb(0x5E7A80), Sketch.Rgb(0x4B646A));
        s.Box(0, 462, 1600, 10, 0, Sketch.Rgb(0xE9EEEE));

        // Roller door
        s.Box(90, 150, 640, 570, 6, Sketch.Rgb(0x8E9CA0));
        for (var slat = 0; slat < 14; slat++)
        {
            s.Box(106, 160 + (slat * 40), 608, 37, 3, Sketch.Rgb(0xEDF1F1), Sketch.Rgb(0xC6D0D2));
        }

        for (var pane = 0; pane < 4; pane++)
        {
            s.Box(140 + (pane * 140), 246, 116, 66, 8, Sketch.Rgb(0xBFE0EA), Sketch.Rgb(0xE9F6F8));
        }

        // Shelf and tool cabinet
        s.Box(1010, 270, 470, 14, 3, Sketch.Rgb(0x7C5B3D), Sketch.Rgb(0x654A31));
        var tints = new[] { 0xC9785Au, 0x7FA6A0u, 0xE0BE74u, 0x8C93A6u, 0xB7C3A0u };
        for (var tin = 0; tin < 9; tin++)
        {
            var height = 44 + s.Random.Next(46);
            s.Box(1026 + (tin * 50), 270 - height, 40, height, 5, Sketch.Rgb(tints[s.Random.Next(tints.Length)]), Sketch.Dark(Sketch.Rgb(tints[tin % tints.Length]), 0.25f));
        }

        s.ShadowBox(1290, 420, 240, 320, 18, 90);
        s.Box(1290, 400, 250, 330, 10, Sketch.Rgb(0xC0523F), Sketch.Rgb(0x97392B));
        for (var drawer = 0; drawer < 6; drawer++)
        {
            s.Box(1304, 416 + (drawer * 51), 222, 43, 4, Sketch.Rgb(0xD2614C), Sketch.Rgb(0xAE4535));
            s.Box(1350, 424 + (drawer * 51), 130, 8, 4, Sketch.Rgb(0xE9EDEE), Sketch.Rgb(0x9DA6AA));
        }

        // Floor
        s.Fill("M0 720 H1600 V1200 H0 Z", Sketch.Rgb(0xA9B2B3), Sketch.Rgb(0x737E82));
        for (var joint = -3; joint <= 7; joint++)
        {
            var x = 400 + (joint * 160);
            var foot = 800 + ((x - 800) * 2.6f);
            s.Line(string.Create(CultureInfo.InvariantCulture, $"M{x} 720 L{foot} 1200"), Sketch.Rgb(0x67737A).WithAlpha(70), 2);
        }

        s.Line("M0 806 H1600 M0 952 H1600", Sketch.Rgb(0x67737A).WithAlpha(70), 2);
        s.Fill("M0 1100 L1600 1010 L1600 1046 L0 1142 Z", Sketch.Rgb(0xE6B94A).WithAlpha(215));
        s.Glow(420, 760, 360, 90, Sketch.Rgb(0xFFFFFF).WithAlpha(90));

        foreach (var x in new[] { 420, 1120 })
        {
            s.Line(string.Create(CultureInfo.InvariantCulture, $"M{x - 150} 0 V46 M{x + 150} 0 V46"), Sketch.Rgb(0x5D686C), 4);
            s.Glow(x, 90, 520, 260, Sketch.Rgb(0xFFF6DC).WithAlpha(150));
            s.Box(x - 230, 46, 460, 26, 10, Sketch.Rgb(0x5D686C));
            s.Box(x - 216, 62, 432, 16, 8, Sketch.Rgb(0xFFFDF2));
        }
    }

    private static void Shadows(Sketch s)
    {
        s.Shadow("M250 905 L700 985 L900 955 L1400 850 L1340 800 L500 820 Z", 26, 170);
        s.Shadow("M300 900 L700 955 L1350 845 L1200 820 Z", 12, 190);
    }

    private static void Body(Sketch s)
    {
        var paint = s.Colours.Paint;
        s.Oval(352, 896, 40, 46, Sketch.Rgb(0x14181B), Sketch.Rgb(0x2B3237)); // the far front tyre, mostly hidden
        s.Oval(1180, 820, 40, 34, Sketch.Rgb(0x14181B));

        // Whole silhouette first, in the side's colour.
        s.Fill(
            "M268 862 C248 820 246 740 262 690 C274 650 300 628 340 612 C400 588 450 572 500 556 C550 484 600 420 650 392 C700 370 800 362 900 362 "
            + "C1020 362 1120 374 1190 396 C1260 430 1316 480 1344 540 C1372 590 1376 660 1370 740 C1366 780 1352 800 1330 806 L720 934 C700 940 660 938 640 934 L320 896 C290 890 276 880 268 862 Z",
            Sketch.Light(paint, 0.1f),
            Sketch.Dark(paint, 0.35f));

        // Roof and bonnet catch the lamps.
        s.Fill("M640 400 C700 372 800 362 900 362 C1020 362 1120 374 1190 396 C1100 402 980 404 890 408 C800 404 710 402 640 400 Z", Sketch.Light(paint, 0.5f), Sketch.Light(paint, 0.22f));
        s.Fill("M300 640 C340 606 440 574 500 556 C600 548 720 552 826 566 C770 600 706 640 664 690 C560 684 400 664 300 640 Z", Sketch.Light(paint, 0.42f), Sketch.Light(paint, 0.12f));
        s.Fill("M430 600 C490 580 560 570 640 570 C590 600 540 630 520 660 C470 654 420 646 370 634 C380 622 400 610 430 600 Z", Sketch.Light(paint, 0.6f).WithAlpha(120));

        // Shoulder line along the side.
        s.Fill("M826 566 C1000 566 1200 556 1346 540 L1356 566 C1200 588 1000 604 800 612 C760 630 716 664 690 700 L664 690 C706 640 770 600 826 566 Z", Sketch.Light(paint, 0.32f), Sketch.Light(paint, 0.05f));
        s.Fill("M690 880 C900 850 1150 806 1364 742 C1366 780 1352 800 1330 806 L720 934 C700 938 690 936 680 934 Z", Sketch.Dark(paint, 0.5f), Sketch.Dark(paint, 0.7f));
    }

    private static void Glass(Sketch s)
    {
        var (top, bottom) = (Sketch.Rgb(0x22313A), Sketch.Rgb(0x51707C));
        s.Fill("M520 556 C560 490 608 428 652 404 C730 404 810 408 880 412 C856 456 832 510 820 560 C720 548 610 546 520 556 Z", top, bottom);
        s.Fill("M560 548 C596 494 636 440 676 410 L760 410 C716 452 676 502 652 546 C620 544 590 546 560 548 Z", Sketch.Rgb(0xBFE3EA).WithAlpha(70));
        s.Fill("M852 562 C862 512 884 450 912 414 C1000 412 1040 412 1068 412 L1062 556 C990 560 920 562 852 562 Z", top, bottom);
        s.Fill("M1084 412 C1150 410 1190 420 1220 440 C1258 466 1288 502 1306 536 C1230 546 1150 552 1078 556 Z", top, bottom);
        s.Fill("M900 560 L960 413 L1010 412 L950 561 Z M1110 554 L1150 414 L1180 418 L1144 552 Z", Sketch.Rgb(0xBFE3EA).WithAlpha(55));
        s.Fill("M820 560 C832 510 856 456 880 412 L912 414 C884 450 862 512 852 562 Z", Sketch.Dark(s.Colours.Paint, 0.3f));

        // Mirror
        s.Shadow("M842 566 h70 v40 h-70 z", 6, 110);
        s.Fill("M838 548 C850 530 900 526 914 540 C922 556 920 580 908 586 C884 592 850 590 842 580 C836 570 834 558 838 548 Z", Sketch.Light(s.Colours.Paint, 0.3f), Sketch.Dark(s.Colours.Paint, 0.35f));
    }

    private static void Front(Sketch s)
    {
        var paint = s.Colours.Paint;
        s.Fill("M262 690 C270 664 286 648 300 640 C400 664 560 684 664 690 C690 760 690 860 664 934 C560 926 400 908 320 896 C290 890 276 880 268 862 C248 820 246 740 262 690 Z", Sketch.Light(paint, 0.16f), Sketch.Dark(paint, 0.25f));

        // Air intakes
        s.Fill("M330 716 C420 730 520 740 590 742 C596 762 594 780 588 790 C500 788 410 778 336 764 C328 748 326 730 330 716 Z", Sketch.Rgb(0x1B2227), Sketch.Rgb(0x343E44));
        s.Line("M334 732 C420 746 520 754 592 756 M334 748 C420 762 520 770 592 772", Sketch.Rgb(0x59656C), 4);
        s.Fill("M318 822 C420 842 540 854 628 856 C628 878 620 896 606 900 C500 894 400 880 338 868 C326 858 318 838 318 822 Z", Sketch.Rgb(0x1B2227), Sketch.Rgb(0x2B343A));

        // Lamps
        Lamp(s, "M270 698 C290 690 318 694 326 704 C326 726 322 750 312 762 C290 762 268 752 264 740 C262 724 264 708 270 698 Z", 294, 728);
        Lamp(s, "M600 744 C630 728 664 722 684 730 C690 756 690 780 682 796 C654 804 622 802 602 794 C594 778 594 760 600 744 Z", 646, 764);
        s.Line("M300 640 C400 664 560 684 664 690", Sketch.Dark(paint, 0.45f), 4);
        s.Box(402, 800, 130, 34, 5, Sketch.Rgb(0xF0F2F0), Sketch.Rgb(0xCCD2D2));
    }

    private static void Lamp(Sketch s, string path, float x, float y)
    {
        s.Fill(path, Sketch.Rgb(0xE7F1F4), Sketch.Rgb(0x9FB4BD));
        s.Ball(x, y, 22, 22, Sketch.Rgb(0xFFFFFF), Sketch.Rgb(0x7F97A3));
        s.Ring(x, y, 22, 22, Sketch.Rgb(0x54646C), 3);
        s.Glow(x, y, 70, 60, Sketch.Rgb(0xFFFBE6).WithAlpha(120));
    }

    private static void Side(Sketch s)
    {
        var seam = Sketch.Dark(s.Colours.Paint, 0.55f).WithAlpha(190);
        s.Line("M862 572 C862 640 872 690 900 724 C918 756 924 790 926 826 M1070 562 C1082 650 1080 740 1064 808", seam, 3);
        s.Line("M930 828 L1058 802", seam, 3);
        s.Line("M1142 556 C1176 600 1180 640 1176 672", seam, 3);
        s.Box(984, 620, 62, 16, 8, Sketch.Light(s.Colours.Paint, 0.45f), Sketch.Dark(s.Colours.Paint, 0.2f));
        s.Box(1168, 606, 54, 15, 7, Sketch.Light(s.Colours.Paint, 0.45f), Sketch.Dark(s.Colours.Paint, 0.2f));
        s.Fill("M1326 560 C1350 560 1362 580 1366 610 C1366 640 1360 654 1350 656 C1336 630 1328 596 1326 560 Z", Sketch.Rgb(0xE0543F), Sketch.Rgb(0x97281D));
        s.Line("M900 700 C1060 684 1220 660 1366 628", Sketch.Light(s.Colours.Paint, 0.4f).WithAlpha(150), 4);
    }

    private static void Wheel(Sketch s, float x, float y, float radiusX, float radiusY)
    {
        s.Oval(x - 4, y - 6, radiusX * 1.2f, radiusY * 1.16f, Sketch.Rgb(0x12171B));
        s.Oval(x, y, radiusX, radiusY, Sketch.Rgb(0x33393E), Sketch.Rgb(0x15191C));
        s.Ball(x, y, radiusX * 0.72f, radiusY * 0.72f, Sketch.Rgb(0xE9EEF0), Sketch.Rgb(0x76828A));
        s.Oval(x, y, radiusX * 0.62f, radiusY * 0.62f, Sketch.Rgb(0x2A3136), Sketch.Rgb(0x49535A));
        s.Canvas.Save();
        s.Canvas.Translate(x, y);
        s.Canvas.Scale(radiusX / radiusY, 1);
        for (var spoke = 0; spoke < 7; spoke++)
        {
            s.Placed(0, 0, spoke * 360f / 7, radiusY / 100, () => s.Fill("M-9 0 L-13 -66 L13 -66 L9 0 Z", Sketch.Rgb(0xF1F4F5), Sketch.Rgb(0x98A4AB)));
        }

        s.Canvas.Restore();
        s.Ball(x, y, radiusX * 0.16f, radiusY * 0.16f, Sketch.Rgb(0xFFFFFF), Sketch.Rgb(0x6F7B83));
    }
}
