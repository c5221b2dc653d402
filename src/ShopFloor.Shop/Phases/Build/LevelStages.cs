using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>Stages levels are set in: those of the phase of tuning.</summary>
public static class LevelStages
{
    public static bool Covers(SheetStage stage) => stage is { Phase: JobPhase.Tuning };
}
