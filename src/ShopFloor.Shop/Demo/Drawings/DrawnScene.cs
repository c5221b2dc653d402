namespace ShopFloor.Shop.Demo.Drawings;

/// <summary>What a drawn demo photo shows.</summary>
public enum DrawnScene
{
    CarInBay,
    BootEmpty,
    BootWithFalseFloor,
    BootFinished,
    AmplifierRack,
    WiringLoom,
    FuseHolderNearBattery,
    DoorWithTreatment,
    SpeakerInDoor,
    EnclosureInClamps,
    Dashboard,
    ScratchCloseUp,
}
