namespace ShopFloor.Engineering.Electrical;

/// <summary>Output stage of an amplifier, which sets how its supply current follows its output.</summary>
public enum AmplifierClass
{
    /// <summary>Constant draw, whatever the output.</summary>
    A,

    /// <summary>Current follows the square root of output power.</summary>
    AB,

    /// <summary>Switching: current follows output power.</summary>
    D,

    /// <summary>Stepped or tracking supply rails: between AB and D.</summary>
    GH,
}
