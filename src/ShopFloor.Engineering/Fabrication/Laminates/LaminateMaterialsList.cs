namespace ShopFloor.Engineering.Fabrication.Laminates;

/// <summary>What a laminate takes, as lines of a list.</summary>
internal static class LaminateMaterialsList
{
    // Of the area: folds and edge. Common practice, no source.
    private const double BagShare = 1.5;
    private const double InnerShare = 1.2;

    // Tape runs round the edge with pleats. Common practice, no source.
    private const double TapeShare = 1.4;

    public static IReadOnlyList<MaterialRow> Of(LaminateInput input, double mixed, double resin)
    {
        var rows = new List<MaterialRow>();
        foreach (var layer in input.Layers)
        {
            if (layer is ClothLayer cloth)
            {
                var (quantity, unit, area) = Cloth(cloth, input);
                rows.Add(new MaterialRow(cloth.Name, quantity, unit, area * cloth.ArealKilogramsPerSquareMeter, cloth.Plies * input.Area * cloth.ArealKilogramsPerSquareMeter));
            }
            else if (layer is CoreLayer core)
            {
                var taken = input.Area * (1 + input.ClothWasteShare);
                var areal = core.ThicknessMeters * core.KilogramsPerCubicMeter;
                rows.Add(new MaterialRow(core.Name, taken, "m²", taken * areal, input.Area * areal));
            }
        }

        if (input.Mix is { } mix)
        {
            var hardener = mix.HardenerParts / (mix.ResinParts + mix.HardenerParts);
            rows.Add(new MaterialRow("Resin", mixed * (1 - hardener), "kg", mixed * (1 - hardener), resin * (1 - hardener)));
            rows.Add(new MaterialRow("Hardener", mixed * hardener, "kg", mixed * hardener, resin * hardener));
        }
        else
        {
            rows.Add(new MaterialRow("Resin with hardener", mixed, "kg", mixed, resin));
        }

        if (input.Process != LaminateProcess.HandLayUp)
        {
            rows.Add(new MaterialRow("Peel ply", InnerShare * input.Area, "m²", null, 0));
            rows.Add(input.Process == LaminateProcess.VacuumBag
                ? new MaterialRow("Breather", InnerShare * input.Area, "m²", null, 0)
                : new MaterialRow("Flow mesh", input.Area, "m²", null, 0));
            rows.Add(new MaterialRow("Bagging film", BagShare * input.Area, "m²", null, 0));
            rows.Add(new MaterialRow("Sealant tape", TapeShare * input.Edge, "m", null, 0));
        }

        rows.AddRange(input.Surface.Select(surface =>
        {
            var taken = (surface.SquareMeters ?? input.Area) * surface.KilogramsPerSquareMeter * surface.Coats / (1 - surface.WasteShare);
            return new MaterialRow(surface.Name, taken, "kg", taken, Staying(surface, input.Area));
        }));
        return rows;
    }

    public static double Staying(AreaMaterial surface, double area) => (surface.SquareMeters ?? area) * surface.KilogramsPerSquareMeter * surface.Coats * surface.StayingShare;

    // By strips where length and width are known, along or across the part, whichever takes less; else by area.
    private static (double Quantity, string Unit, double SquareMeters) Cloth(ClothLayer cloth, LaminateInput input)
    {
        var plain = cloth.Plies * input.Area * (1 + input.ClothWasteShare);
        if (cloth.RollMeters is not { } roll)
            return (plain, "m²", plain);
        if (input is not { LengthMeters: { } length, WidthMeters: { } width })
            return (plain / (roll - input.OverlapMeters), "m", plain * roll / (roll - input.OverlapMeters));
        // Trimmed all round: the area grows by the waste share, each side by its root.
        var grow = Math.Sqrt(1 + input.ClothWasteShare);
        var meters = cloth.Plies * Math.Min(Strips(width * grow, roll, input.OverlapMeters) * length * grow, Strips(length * grow, roll, input.OverlapMeters) * width * grow);
        return (meters, "m", meters * roll);
    }

    private static double Strips(double across, double roll, double overlap) => across <= roll ? 1 : Math.Ceiling((across - overlap) / (roll - overlap) - 1e-9);
}
