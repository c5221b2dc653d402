using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Safety;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Fabrication.Restraint;

/// <summary>What is to be looked at in a restraint.</summary>
internal static class RestraintFindings
{
    private const string Practice = Unsourced.CommonPractice;

    public static IReadOnlyList<Finding> Find(RestraintInput input, DirectionHold[] directions, UnitText text)
    {
        var findings = new FindingList("restraint", input.Name);
        foreach (var direction in directions)
        {
            var words = ItemRestraint.Words(direction.Direction);
            if (direction.Margin is not { } margin)
            {
                findings.About($"restraint-{direction.Direction}", input.Name, "restraint-tips", Severity.Stop, $"Pushed {words}, it tips or turns and no fastener stands far enough away to hold it.",
                    "Add fasteners in a second row, or hold it at the top.", "equilibrium");
            }
            else if (margin < ItemRestraint.GoodMargin)
            {
                findings.About($"restraint-{direction.Direction}", input.Name, margin < 1 ? "restraint-fails" : "restraint-close", margin < 1 ? Severity.Stop : Severity.Warn,
                    $"Pushed {words} with {text.With(direction.ForceNewtons, "N")}, fastener {direction.WorstFastenerId} bears {text.Number(margin)} of what it has to.",
                    "More or stronger fasteners, farther apart, or a second row higher up.", input.Hold.Source);
            }
        }

        switch (input.Hold)
        {
            case BoltHold { In: HeldIn.SheetMetal or HeldIn.Wood } bolt:
                findings.Add("restraint-base-weak", Severity.Warn, $"The bolts go into {(bolt.In == HeldIn.Wood ? "wood" : "body sheet")}: {WorkSafety.HoldsInMetal}", "Put a large washer or a plate behind each, or use the vehicle's points.", Practice);
                break;
            case BoltHold { In: HeldIn.BackedSheet }:
                findings.Add("restraint-bolt-only", Severity.Note, "The margins are the bolts'; the sheet behind the washer may give sooner.", "Large washers or one plate across several bolts, near a fold or a cross member.", Practice);
                break;
            case MagnetHold magnet:
                if (magnet.Celsius > magnet.MostCelsius)
                {
                    findings.Add("magnet-too-warm", Severity.Stop, $"{text.Celsius(magnet.Celsius)} is above the {text.Celsius(magnet.MostCelsius)} its grade stands: it loses its pull for good.", "Take a grade for higher temperatures.", "from memory");
                }

                findings.Add("magnet-only", Severity.Warn, "Magnets slide and let go suddenly.", "Use them for covers; hold what is heavy with bolts, and catch a cover by a strap or an edge.", Practice);
                break;
        }

        return findings.Sorted;
    }
}
