using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Shop.Phases.Tuning.Factory;

/// <summary>A factory signal in a sentence, for screens and papers.</summary>
public static class FactoryWords
{
    public static string Side(ImageSide side) => side == ImageSide.Left ? "Left" : side == ImageSide.Right ? "Right" : "Both sides";

    public static string Of(FactoryNote note, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(note);
        ArgumentNullException.ThrowIfNull(text);
        var band = $"{text.With(note.FromHertz, "Hz")} to {text.With(note.ToHertz, "Hz")}";
        var sum = note.Outputs == 1
            ? $"one output holds {band}"
            : $"{note.Outputs} outputs hold {band}, lose up to {text.With(note.PlainLossDecibels, "dB", 2)} against each other as they come and {text.With(note.JoinedLossDecibels, "dB", 2)} joined, and are up to {text.With(note.ApartSeconds * 1e3, "ms", 3)} apart";
        return $"{Side(note.Side)}: {sum}; {(note.Filters == 0 ? "no filter is needed" : $"undone by {note.Filters} filter{(note.Filters == 1 ? "" : "s")}")}{(note.AllPasses > 0 ? $", {note.AllPasses} all-pass{(note.AllPasses == 1 ? "" : "es")} matched" : "")}.";
    }
}
