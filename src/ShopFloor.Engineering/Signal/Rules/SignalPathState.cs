using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Signal.Levels;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Signal.Rules;

/// <summary>A path with everything rules look at.</summary>
/// <param name="Input">The path.</param>
/// <param name="Channels">Every loaded channel with its levels.</param>
/// <param name="Text">How numbers are written in texts.</param>
public sealed record SignalPathState(SignalPathInput Input, IReadOnlyList<ChannelLevels> Channels, UnitText Text)
{
    private readonly Dictionary<string, SignalDevice> _devices = Input.Devices.ToDictionary(device => device.Id);

    /// <summary>The drivers.</summary>
    public IEnumerable<DriverDevice> Drivers => Input.Devices.OfType<DriverDevice>();

    /// <summary>The amplifiers.</summary>
    public IEnumerable<AmplifierDevice> Amplifiers => Input.Devices.OfType<AmplifierDevice>();

    /// <summary>Every way to every channel, each once.</summary>
    public IEnumerable<RouteLevels> Routes => Channels.SelectMany(channel => channel.Routes);

    /// <summary>A device by its identifier.</summary>
    /// <param name="id">Identifier; the path has been checked.</param>
    public SignalDevice Device(string id) => _devices[id];

    /// <summary>The connectors a link joins, with words for both.</summary>
    /// <param name="link">A link of the path.</param>
    public (SignalPort From, SignalPort To, string Name) Ends(SignalLink link)
    {
        ArgumentNullException.ThrowIfNull(link);
        var (from, to) = (Device(link.FromDevice), Device(link.ToDevice));
        var (output, input) = (from.Outputs.First(port => port.Id == link.FromPort), to.Inputs.First(port => port.Id == link.ToPort));
        return (output, input, $"{from.Name}, {output.Name} to {to.Name}, {input.Name}");
    }
}
