namespace ShopFloor.Engineering.Electrical.Network;

/// <summary>Metal of a conductor, one of those of <see cref="Conductors.ConductorMaterial"/>.</summary>
public enum ConductorMetal
{
    /// <summary>Annealed copper.</summary>
    Copper,

    /// <summary>Copper-clad aluminium with 10 % copper by volume, ASTM B566 class 10A.</summary>
    CopperCladAluminium10,

    /// <summary>Copper-clad aluminium with 15 % copper by volume, ASTM B566 class 15A.</summary>
    CopperCladAluminium15,
}
