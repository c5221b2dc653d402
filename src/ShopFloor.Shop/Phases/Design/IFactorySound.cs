using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What a later phase found out about the factory signal; the design shows it and never reckons it.</summary>
public interface IFactorySound
{
    /// <summary>A sentence for each side that was measured; none while nothing was.</summary>
    Task<IReadOnlyList<string>> LinesAsync(Actor actor, Guid jobId, UnitText text, CancellationToken cancellationToken);
}
