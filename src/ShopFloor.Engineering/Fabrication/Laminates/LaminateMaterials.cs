namespace ShopFloor.Engineering.Fabrication.Laminates;

/// <summary>Fibre of a cloth.</summary>
public enum FibreKind
{
    /// <summary>E-glass.</summary>
    Glass,

    /// <summary>Carbon, standard modulus. It conducts.</summary>
    Carbon,

    /// <summary>Aramid.</summary>
    Aramid,

    /// <summary>Flax.</summary>
    Flax,
}

/// <summary>How the fibres of a cloth lie.</summary>
public enum ClothForm
{
    /// <summary>All along the length.</summary>
    Unidirectional,

    /// <summary>Half along, half across.</summary>
    Woven,

    /// <summary>Half at +45°, half at −45°.</summary>
    Diagonal,

    /// <summary>Cut fibres in every direction.</summary>
    ChoppedMat,
}

/// <summary>Resin of a laminate.</summary>
public enum ResinKind
{
    /// <summary>Epoxy.</summary>
    Epoxy,

    /// <summary>Unsaturated polyester in styrene, with a peroxide hardener.</summary>
    Polyester,

    /// <summary>Vinyl ester in styrene, with a peroxide hardener.</summary>
    VinylEster,

    /// <summary>Polyurethane, with an isocyanate.</summary>
    Polyurethane,
}

/// <summary>How a laminate is made.</summary>
public enum LaminateProcess
{
    /// <summary>Wetted by roller and left open.</summary>
    HandLayUp,

    /// <summary>Wetted by hand, pressed under a vacuum bag.</summary>
    VacuumBag,

    /// <summary>Dry cloth under the bag, resin drawn in.</summary>
    Infusion,
}

/// <summary>Densities, moduli and shares of a laminate's materials.</summary>
/// <remarks>
/// From memory, as textbooks of composites give them (Hull and Clyne, An Introduction to Composite Materials; Gerstle): E-glass 2540 to
/// 2600 kg/m³ and 72 GPa, standard carbon 1760 to 1800 and 230, aramid 1440 and 120, flax 1450 and 50; epoxy 1150 to 1200 and 3.2 GPa,
/// polyester 1200 and 3.2, vinyl ester 1150 and 3.3, polyurethane 1150 and 2.
/// </remarks>
public static class LaminateMaterials
{
    /// <summary>Where these values come from.</summary>
    public const string Source = "from memory: textbook values; the maker's data sheet goes before";

    /// <summary>Density of a fibre, kg/m³.</summary>
    /// <param name="fibre">The fibre.</param>
    public static double DensityOf(FibreKind fibre) => fibre switch
    {
        FibreKind.Glass => 2_560,
        FibreKind.Carbon => 1_790,
        FibreKind.Aramid => 1_440,
        _ => 1_450,
    };

    /// <summary>Modulus of a fibre along itself, Pa.</summary>
    /// <param name="fibre">The fibre.</param>
    public static double ModulusOf(FibreKind fibre) => fibre switch
    {
        FibreKind.Glass => 72e9,
        FibreKind.Carbon => 230e9,
        FibreKind.Aramid => 120e9,
        _ => 50e9,
    };

    /// <summary>Density of a cured resin, kg/m³.</summary>
    /// <param name="resin">The resin.</param>
    public static double DensityOf(ResinKind resin) => resin switch
    {
        ResinKind.Epoxy => 1_180,
        ResinKind.Polyester => 1_200,
        _ => 1_150,
    };

    /// <summary>Modulus of a cured resin, Pa.</summary>
    /// <param name="resin">The resin.</param>
    public static double ModulusOf(ResinKind resin) => resin switch
    {
        ResinKind.VinylEster => 3.3e9,
        ResinKind.Polyurethane => 2e9,
        _ => 3.2e9,
    };

    /// <summary>
    /// Share of the fibres that works along the length, Σ aₙ·cos⁴φₙ (Krenchel, Fibre Reinforcement, 1964): 1 along, 1/2 for half along and
    /// half across, 1/4 at ±45°, 3/8 for every direction in the plane.
    /// </summary>
    /// <param name="form">How the fibres lie.</param>
    public static double Efficiency(ClothForm form) => form switch
    {
        ClothForm.Unidirectional => 1,
        ClothForm.Woven => 0.5,
        ClothForm.Diagonal => 0.25,
        _ => 0.375,
    };

    /// <summary>
    /// Fibre share by volume that a process reaches: cloth 0.40 by hand, 0.50 under a bag, 0.55 infused; mat 0.19 by hand (two parts of
    /// resin to one of glass by mass), 0.25 under a bag, 0.30 infused. From memory; weigh a sample of your own.
    /// </summary>
    /// <param name="process">How it is made.</param>
    /// <param name="form">How the fibres lie.</param>
    public static double FibreVolumeShare(LaminateProcess process, ClothForm form) => (process, form == ClothForm.ChoppedMat) switch
    {
        (LaminateProcess.HandLayUp, false) => 0.40,
        (LaminateProcess.HandLayUp, true) => 0.19,
        (LaminateProcess.VacuumBag, false) => 0.50,
        (LaminateProcess.VacuumBag, true) => 0.25,
        (_, false) => 0.55,
        (_, true) => 0.30,
    };

    /// <summary>Thickness of a ply: t = m_f/(ρ_f·V_f), m.</summary>
    /// <param name="arealKilogramsPerSquareMeter">Mass of the dry cloth, kg/m².</param>
    /// <param name="fibreKilogramsPerCubicMeter">Density of the fibre, kg/m³.</param>
    /// <param name="fibreVolumeShare">Fibre share by volume, 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is not above 0, or the share is above 1.</exception>
    public static double PlyMeters(double arealKilogramsPerSquareMeter, double fibreKilogramsPerCubicMeter, double fibreVolumeShare)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(arealKilogramsPerSquareMeter);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(fibreKilogramsPerCubicMeter);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(fibreVolumeShare);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(fibreVolumeShare, 1);
        return arealKilogramsPerSquareMeter / (fibreKilogramsPerCubicMeter * fibreVolumeShare);
    }

    /// <summary>Fibre share by volume from the share by mass: V_f = (W_f/ρ_f)/(W_f/ρ_f + (1 − W_f)/ρ_m).</summary>
    /// <param name="fibreMassShare">Fibre share by mass, 0 to 1.</param>
    /// <param name="fibreKilogramsPerCubicMeter">Density of the fibre, kg/m³.</param>
    /// <param name="resinKilogramsPerCubicMeter">Density of the cured resin, kg/m³.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is not above 0, or the share is above 1.</exception>
    public static double VolumeShare(double fibreMassShare, double fibreKilogramsPerCubicMeter, double resinKilogramsPerCubicMeter)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(fibreMassShare);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(fibreMassShare, 1);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(fibreKilogramsPerCubicMeter);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(resinKilogramsPerCubicMeter);
        var fibre = fibreMassShare / fibreKilogramsPerCubicMeter;
        return fibre / (fibre + (1 - fibreMassShare) / resinKilogramsPerCubicMeter);
    }
}
