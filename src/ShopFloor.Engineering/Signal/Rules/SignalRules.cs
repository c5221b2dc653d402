using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Levels;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>The rules a signal path is held to. A new one is a class and a line here.</summary>
public static class SignalRules
{
    /// <summary>All rules.</summary>
    public static IReadOnlyList<SignalRule> All { get; } =
    [
        new DriverNotDriven(),
        new CoilDrivenTwice(),
        new ChannelLoadedTwice(),
        new ChannelUnused(),
        new LoadBelowRating(),
        new BridgingNotAllowed(),
        new SideMixed(),
        new PolarityDiffers(),
        new InputClipped(),
        new GainOutOfRange(),
        new ConnectorMismatch(),
        new InputShared(),
        new OutputShared(),
        new NoSource(),
        new FormatReduced(),
        new DriverOverpowered(),
        new HighPassMissing(),
        new NoiseAudible(),
        new VehicleSoundsLost(),
        new NotTerminated(),
        new FactoryNotMeasured(),
        new LineBesideSupply(),
        new GroundsDiffer(),
        new SourcesDiffer(),
        new FigureMissing(),
    ];

    /// <summary>Everything found, gravest first.</summary>
    /// <param name="input">The path.</param>
    /// <param name="channels">Its levels, from <see cref="SignalLevels.Compute"/>.</param>
    /// <param name="text">How numbers are written in texts; null is metric, invariant.</param>
    public static IReadOnlyList<Finding> Check(SignalPathInput input, IReadOnlyList<ChannelLevels> channels, UnitText? text = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(channels);
        var state = new SignalPathState(input, channels, text ?? UnitText.Invariant);
        return [.. All.SelectMany(rule => rule.Find(state)).DistinctBy(finding => (finding.Code, finding.SubjectId)).OrderByDescending(finding => finding.Severity)];
    }
}
