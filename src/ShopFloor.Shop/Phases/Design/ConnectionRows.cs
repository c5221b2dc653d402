using System.Globalization;
using ShopFloor.Engineering.Signal.Chain;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>A cable of the signal path as it is made and laid.</summary>
/// <param name="Mark">Short name written at both ends: S for signals, L for loudspeakers.</param>
/// <param name="Carries">What it carries, in plain words.</param>
/// <param name="FromConnector">What is crimped or plugged at its beginning.</param>
/// <param name="LengthMeters">One way; null while not known.</param>
/// <param name="Cable">Kind and size.</param>
public sealed record ConnectionRow(string Mark, string From, string To, string Carries, string FromConnector, string ToConnector, double? LengthMeters, bool LengthMeasured, string Cable);

/// <summary>The connection list of a job. What is plugged where is common practice of the trade, no source: the maker's drawing decides.</summary>
internal static class ConnectionRows
{
    public static IReadOnlyList<ConnectionRow> Of(SignalPathInput path, IReadOnlyList<SignalLink> links, IReadOnlyList<SpeakerRow> runs)
    {
        var devices = path.Devices.ToDictionary(device => device.Id);
        var measured = links.ToDictionary(link => link.Id.ToString(), link => link.Form.LengthMeters);
        List<ConnectionRow> rows = [];
        HashSet<(string From, string To, PortKind Kind)> cabled = [];
        // As the signal runs: device by device, output by output.
        int At(string device) => path.Devices.TakeWhile(found => found.Id != device).Count();
        int Port(IReadOnlyList<SignalPort>? ports, string id) => ports?.TakeWhile(port => port.Id != id).Count() ?? 0;
        foreach (var link in path.Links
            .OrderBy(link => At(link.FromDevice)).ThenBy(link => Port(devices.GetValueOrDefault(link.FromDevice)?.Outputs, link.FromPort))
            .ThenBy(link => At(link.ToDevice)).ThenBy(link => Port(devices.GetValueOrDefault(link.ToDevice)?.Inputs, link.ToPort)))
        {
            if (!devices.TryGetValue(link.FromDevice, out var from) || !devices.TryGetValue(link.ToDevice, out var to)
                || from.Outputs.FirstOrDefault(port => port.Id == link.FromPort) is not { } output || to.Inputs.FirstOrDefault(port => port.Id == link.ToPort) is not { } input)
            {
                continue;
            }

            // Both sides travel in one digital cable.
            var digital = !output.Kind.IsAnalog();
            if (digital && !cabled.Add((from.Id, to.Id, output.Kind)))
            {
                continue;
            }

            rows.Add(new ConnectionRow(
                Mark("S", rows.Count), $"{from.Name}, {(digital ? output.Kind.Words() : output.Name)}", $"{to.Name}, {(digital ? input.Kind.Words() : input.Name)}", output.Kind.Words(), Connector(output.Kind), Connector(input.Kind),
                output.Kind == PortKind.Wireless ? null : link.LengthMeters, measured.GetValueOrDefault(link.Id) is not null, CableOf(output.Kind)));
        }

        var signals = rows.Count;
        foreach (var run in runs.Where(run => run.Link is not null && run.From.Length > 0))
        {
            rows.Add(new ConnectionRow(
                Mark("L", rows.Count - signals), run.From, run.Name, PortKind.SpeakerLevel.Words(), Connector(PortKind.SpeakerLevel), "the loudspeaker's own terminals",
                run.LengthMeters, run.LengthMeasured, run.Conductor is { } size ? $"loudspeaker cable, {size.Label}" : "loudspeaker cable, size not known"));
        }

        return rows;
    }

    private static string Mark(string kind, int number) => string.Create(CultureInfo.InvariantCulture, $"{kind}{number + 1}");

    private static string Connector(PortKind kind) => kind switch
    {
        PortKind.SpeakerLevel => "ferrules or the maker's plug",
        PortKind.UnbalancedLine => "phono (RCA) plug",
        PortKind.BalancedLine => "the maker's balanced plug",
        PortKind.Optical => "optical plug F05",
        PortKind.Coaxial => "phono (RCA) plug, 75 Ω",
        PortKind.Usb => "USB plug",
        PortKind.Wireless => "none",
        PortKind.VehicleBus => "adapter of the vehicle",
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };

    private static string CableOf(PortKind kind) => kind switch
    {
        PortKind.SpeakerLevel => "twisted pair",
        PortKind.UnbalancedLine or PortKind.BalancedLine => "screened twin signal cable",
        PortKind.Optical => "optical fibre, not bent below 25 mm radius",
        PortKind.Coaxial => "coaxial cable, 75 Ω",
        PortKind.Usb => "USB cable, 5 m at most",
        PortKind.Wireless => "none",
        PortKind.VehicleBus => "bus cable of the vehicle",
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };
}
