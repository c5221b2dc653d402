using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Web.Phases.Design;

/// <summary>Words for what is said of a link.</summary>
internal static class LinkWords
{
    /// <summary>How its cable lies; empty while nobody said.</summary>
    public static string Lay(LinkLay lay) => lay switch
    {
        LinkLay.Free => "away from the supply",
        LinkLay.AlongSupply => "beside a supply cable",
        LinkLay.CrossesSupply => "crosses a supply cable",
        _ => "",
    };

    public static string Choice(LinkLay lay) => lay == LinkLay.NotSaid ? "not said yet" : Lay(lay);

    public static string Mix(OutputMix mix) => mix switch
    {
        OutputMix.Left => "left",
        OutputMix.Right => "right",
        OutputMix.Sum => "left and right together",
        _ => "not said: as it ends",
    };
}
