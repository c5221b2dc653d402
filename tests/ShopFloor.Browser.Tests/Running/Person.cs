namespace ShopFloor.Browser.Tests.Running;

/// <summary>The people of the demo, by sign-in name and the name others see.</summary>
public sealed record Person(string UserName, string Name)
{
    public static Person Owner { get; } = new("olive", "Olive Renn");

    public static Person Desk { get; } = new("dana", "Dana Moss");

    public static Person Tarik { get; } = new("tarik", "Tarik Voss");

    public static Person Mila { get; } = new("mila", "Mila Sorn");

    public override string ToString() => UserName;
}
