namespace ShopFloor.Shop.Vehicles;

/// <summary>Shape of the body, for the outline drawing and the default run lengths.</summary>
public enum BodyStyle
{
    Hatchback,
    Saloon,
    Estate,
    Suv,
    Coupe,
    Van,
    Pickup,
}
