using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>An output that feeds several inputs</summary>
public sealed class OutputShared : SignalRule
{
    /// <summary>Below so many times the output's impedance the inputs together take 0.8 dB or more off the level: 20·log10(1 + 1/10). Common practice, no source.</summary>
    public const double LeastRatio = 10;

    /// <inheritdoc/>
    public override string Code => "output-shared";

    /// <inheritdoc/>
    public override string Title => "An output that feeds several inputs";

    /// <inheritdoc/>
    public override string Why => "What hangs on one output plays the same, and the inputs together load it more than each alone.";

    /// <inheritdoc/>
    public override string Remedy => "Give each side an output of its own; a Y-cable is for two loudspeakers that are to play the same.";

    /// <inheritdoc/>
    public override string Example => "Output 1 of the processor feeds the left and the right tweeter channel: both play the same, and there is no stage.";

    /// <inheritdoc/>
    public override IEnumerable<Finding> Find(SignalPathState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        foreach (var group in state.Input.Links.Where(link => !link.IsInternal).GroupBy(link => (link.FromDevice, link.FromPort)).Where(group => group.Count() > 1))
        {
            var device = state.Device(group.Key.FromDevice);
            var output = device.Outputs.First(port => port.Id == group.Key.FromPort);
            // The plug of a whole source stands for several outputs.
            if (device is SourceDevice && output.Side == ImageSide.Both)
                continue;
            var (id, name) = ($"{device.Id}:{output.Id}", $"{device.Name}, {output.Name}");
            var sides = group.SelectMany(link => SidesBehind(state, link)).Distinct().ToList();
            if (sides.Contains(ImageSide.Left) && sides.Contains(ImageSide.Right))
                yield return Warn(id, name, $"It feeds {group.Count()} inputs, of loudspeakers on the left and on the right: both play the same.", Remedy);
            else if (Together(state, group) is { } load && output.Ohms is { } own && load < LeastRatio * own)
                yield return Warn(id, name, $"Its {group.Count()} inputs together are {state.Text.With(load, "Ω")}, the output {state.Text.With(own, "Ω")}: the level falls.", "Use outputs of their own, or a splitter with a buffer.");
            else
                yield return Note(id, name, $"It feeds {group.Count()} inputs; all of them play the same.", "Fine where that is meant.");
        }
    }

    private static IEnumerable<ImageSide> SidesBehind(SignalPathState state, SignalLink link) => state.Channels
        .Where(levels => levels.Channel.Amplifier.Id == link.ToDevice && levels.Channel.Load.Outputs.Any(output => InputOf(levels.Channel.Amplifier, output) == link.ToPort))
        .SelectMany(levels => levels.Channel.Drivers).Select(share => share.Driver.Side);

    private static string? InputOf(AmplifierDevice amplifier, string output) =>
        amplifier.Outputs.Zip(amplifier.Inputs).Where(pair => pair.First.Id == output).Select(pair => pair.Second.Id).FirstOrDefault();

    private static double? Together(SignalPathState state, IEnumerable<SignalLink> links)
    {
        var ohms = links.Select(link => state.Ends(link).To.Ohms).ToList();
        return ohms.TrueForAll(each => each > 0) ? 1 / ohms.Sum(each => 1 / each) : null;
    }
}
