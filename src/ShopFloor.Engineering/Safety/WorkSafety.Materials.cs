using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Safety;

/// <summary>What a material or a step of making by hand can do.</summary>
public enum MaterialHazard
{
    /// <summary>Resin that heats itself in a deep mass.</summary>
    CuringHeat,

    /// <summary>Styrene of polyester, vinyl ester and gel coat.</summary>
    Styrene,

    /// <summary>Organic peroxide as hardener.</summary>
    Peroxide,

    /// <summary>Isocyanate of two-part paint, foam and polyurethane.</summary>
    Isocyanate,

    /// <summary>Uncured epoxy and its hardener.</summary>
    Epoxy,

    /// <summary>Solvent of contact adhesive, primer and lacquer.</summary>
    Solvent,

    /// <summary>Dust of wood board, fibre and filler.</summary>
    Dust,

    /// <summary>Carbon fibre, which conducts.</summary>
    CarbonFibre,

    /// <summary>Strong magnets.</summary>
    Magnet,
}

// Words for making by hand.
public static partial class WorkSafety
{
    /// <summary>What nothing is fixed to and nothing may block.</summary>
    public const string KeepClear =
        "Nothing is fixed to, drilled into or in the way of airbags and their sensors, seat belts and their anchors, child-seat anchors, seat rails, fuel and brake lines, high-voltage cables. Look behind every hole before it is drilled.";

    /// <summary>A bolt and what it goes through.</summary>
    public const string HoldsInMetal =
        "A bolt holds only as much as what it is bolted to: thin sheet tears and wood pulls out long before the bolt. Use a large washer or a backing plate behind it, or the vehicle's own threaded points.";

    /// <summary>What a treated panel keeps open and free.</summary>
    public const string TreatedPanels =
        "Drain holes of doors and sills stay open, and windows, locks and rods move freely. Some cars sense a side impact by the pressure inside the door: ask the vehicle maker before openings of the inner panel are closed. Nothing on airbag panels, seat-belt reels, heaters or hot pipes.";

    /// <summary>Cautions of materials, each once, gravest first.</summary>
    /// <param name="hazards">What the materials can do.</param>
    public static IReadOnlyList<SafetyText> Materials(IEnumerable<MaterialHazard> hazards)
    {
        ArgumentNullException.ThrowIfNull(hazards);
        return [.. hazards.Distinct().Order().Select(Words).OrderByDescending(caution => caution.IsDanger)];
    }

    private static SafetyText Words(MaterialHazard hazard) => hazard switch
    {
        MaterialHazard.CuringHeat => new("resin heats itself", "A deep cup of mixed resin heats itself until it smokes or burns. Mix small cups, pour them out flat, put a hot cup outside on stone, do not fill up a cup that is getting warm.", true, Unsourced.CommonPractice),
        MaterialHazard.Styrene => new("styrene", "Vapour burns and harms nerves, hearing and the unborn child. Air drawn off at the mould, mask with filter A, no flame or spark, gloves.", true, "harmonised classification of styrene, Regulation (EC) No 1272/2008: from memory"),
        MaterialHazard.Peroxide => new("peroxide hardener", "One splash can blind: goggles on before the bottle is open, rinse at once with much water and see a doctor. Never mix it straight with an accelerator, keep it cool, away from rags and metal dust: it can burn or explode.", true, Unsourced.CommonPractice),
        MaterialHazard.Isocyanate => new("isocyanate", "Can cause asthma for life, without a smell as a warning. In the EU only trained people use it. Spraying only with supplied air; gloves, covered skin, others out of the room.", true, "REACH Annex XVII entry 74 (Regulation (EU) 2020/1149): from memory"),
        MaterialHazard.Epoxy => new("epoxy", "Skin that was touched often becomes allergic for good. Nitrile gloves, changed often; no solvent on skin; sanding only when fully cured.", false, Unsourced.CommonPractice),
        MaterialHazard.Solvent => new("solvent", "Vapour burns and lies low, also in the car: doors open, air drawn off, no spark or heater, battery off while it dries inside. Mask with filter A.", true, Unsourced.CommonPractice),
        MaterialHazard.Dust => new("dust", "Fine dust of board, fibre and filler harms the lungs; wood dust causes cancer. Draw it off at the tool, mask P2 or better, no compressed air to clean.", false, "IARC Monographs 100C for wood dust"),
        MaterialHazard.CarbonFibre => new("carbon conducts", "Carbon fibre and its dust conduct: away from battery posts, fuses, airbag connectors and open electronics; edges closed; aluminium beside it corrodes.", false, Unsourced.CommonPractice),
        _ => new("strong magnets", "Strong magnets crush fingers, splinter, and disturb pacemakers: people with one keep away. Keep them off compass, hall sensors and cards.", true, Unsourced.CommonPractice),
    };
}
