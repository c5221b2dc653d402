using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Phases.Tuning.Factory;

/// <summary>Tells the design what the measured factory outputs came to.</summary>
internal sealed class FactorySound(FactorySignals signals) : IFactorySound
{
    public async Task<IReadOnlyList<string>> LinesAsync(Actor actor, Guid jobId, UnitText text, CancellationToken cancellationToken)
    {
        var view = await signals.GetAsync(actor, jobId, cancellationToken);
        if (view.Outputs.Count == 0)
        {
            return view.Problems;
        }

        var sides = await signals.ComputeAsync(actor, view, view.Choice, view.Profile, text, null, cancellationToken);
        return sides.Succeeded ? [.. sides.Value.Select(side => FactoryWords.Of(side.Note, text))] : [sides.Message];
    }
}
