namespace ShopFloor.Engineering.Electrical;

/// <summary>stub</summary>
public enum AmplifierClass
{
    /// <summary>A</summary>
    A,
    /// <summary>AB</summary>
    AB,
    /// <summary>D</summary>
    D,
    /// <summary>GH</summary>
    GH,
}
