using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Signal.Loads;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Signal.Chain;

/// <summary>What is wrong with a path someone entered.</summary>
internal static class SignalPathChecks
{
    private const int MostDevices = 1_000;
    private const int MostLinks = 5_000;

    public static IReadOnlyList<InputProblem> Find(SignalPathInput input, UnitText text)
    {
        var checks = new InputChecks(text);
        if (input.Devices.Count > MostDevices)
            checks.Add(nameof(input.Devices), $"Devices: {input.Devices.Count} were given; at most {MostDevices} are accepted.");
        if (input.Links.Count > MostLinks)
            checks.Add(nameof(input.Links), $"Links: {input.Links.Count} were given; at most {MostLinks} are accepted.");
        if (checks.Problems.Count > 0)
            return checks.Problems;

        checks.InRange(nameof(input.GainOverlapDecibels), "Gain overlap in dB", input.GainOverlapDecibels, 0, 20);
        checks.Distinct(nameof(input.Devices), "Devices", input.Devices.Select(device => device.Id));
        checks.Distinct(nameof(input.Links), "Links", input.Links.Select(link => link.Id));
        checks.Distinct(nameof(input.Loads), "Loads", input.Loads.Select(load => load.Id));
        for (var i = 0; i < input.Devices.Count; i++)
            Device(checks, $"{nameof(input.Devices)}[{i}]", input.Devices[i]);
        if (checks.Problems.Count > 0)
            return checks.Problems;

        var devices = input.Devices.ToDictionary(device => device.Id);
        for (var i = 0; i < input.Links.Count; i++)
            Link(checks, $"{nameof(input.Links)}[{i}]", input.Links[i], devices);
        for (var i = 0; i < input.Loads.Count; i++)
            Load(checks, $"{nameof(input.Loads)}[{i}]", input.Loads[i], devices);
        if (checks.Problems.Count == 0 && LoopAt(input) is { } loop)
            checks.Add(nameof(input.Links), $"Links: the signal comes back to {loop}; open the loop there.");
        return checks.Problems;
    }

    private static void Device(InputChecks checks, string at, SignalDevice device)
    {
        checks.Named($"{at}.Id", "Identifier of a device", device.Id);
        checks.Named($"{at}.Name", "Name of a device", device.Name);
        checks.Distinct($"{at}.Inputs", $"Inputs of {device.Name}", device.Inputs.Select(port => port.Id));
        checks.Distinct($"{at}.Outputs", $"Outputs of {device.Name}", device.Outputs.Select(port => port.Id));
        checks.InRange($"{at}.DelaySeconds", $"Delay of {device.Name} in seconds", device.DelaySeconds, 0, 10);
        foreach (var port in device.Inputs.Concat(device.Outputs))
            Port(checks, $"{at}.{port.Id}", $"{device.Name}, {port.Name}", port);
        switch (device)
        {
            case SourceDevice source:
                checks.InRange($"{at}.SignalToNoiseDecibels", $"Noise of {device.Name} in dB", source.SignalToNoiseDecibels, 20, 160);
                break;
            case ProcessingDevice processing:
                checks.InRange($"{at}.SignalToNoiseDecibels", $"Noise of {device.Name} in dB", processing.SignalToNoiseDecibels, 20, 160);
                checks.InRange($"{at}.GainDecibels", $"Level of {device.Name} in dB", processing.GainDecibels, -60, 12);
                checks.InRange($"{at}.SampleRateHertz", $"Sample rate of {device.Name} in Hz", processing.SampleRateHertz, 8_000, 768_000);
                checks.InRange($"{at}.Bits", $"Word length of {device.Name} in bits", processing.Bits, 8, 64);
                foreach (var route in processing.Routes.Where(route => device.Inputs.All(port => port.Id != route.Input) || device.Outputs.All(port => port.Id != route.Output)))
                    checks.Add($"{at}.Routes", $"Routes of {device.Name}: “{route.Input} to {route.Output}” names a connector it does not have.");
                foreach (var band in processing.Bands)
                {
                    checks.InRange($"{at}.Bands", $"Lower corner of {device.Name}, {band.Output} in Hz", band.HighPassHertz, 1, 40_000);
                    checks.InRange($"{at}.Bands", $"Upper corner of {device.Name}, {band.Output} in Hz", band.LowPassHertz, 1, 40_000);
                }

                break;
            case AmplifierDevice amplifier:
                Amplifier(checks, at, amplifier);
                break;
            case DriverDevice driver:
                checks.InRange($"{at}.Coils", $"Voice coils of {device.Name}", driver.Coils, 1, 4);
                checks.InRange($"{at}.CoilOhms", $"Impedance of a coil of {device.Name} in Ω", driver.CoilOhms, 0.25, 64);
                checks.InRange($"{at}.CoilMinimumOhms", $"Lowest impedance of a coil of {device.Name} in Ω", driver.CoilMinimumOhms, 0.1, 64);
                checks.InRange($"{at}.RatedWatts", $"Power {device.Name} bears in W", driver.RatedWatts, 0.1, 40_000);
                checks.InRange($"{at}.SensitivityDecibels", $"Sensitivity of {device.Name} in dB", driver.SensitivityDecibels, 50, 120);
                checks.InRange($"{at}.LowestHertz", $"Lowest frequency of {device.Name} in Hz", driver.LowestHertz, 1, 40_000);
                break;
        }
    }

    private static void Amplifier(InputChecks checks, string at, AmplifierDevice amplifier)
    {
        if (amplifier.Inputs.Count != amplifier.Outputs.Count)
            checks.Add($"{at}.Outputs", $"{amplifier.Name}: it has {amplifier.Inputs.Count} inputs and {amplifier.Outputs.Count} outputs; each channel has one of each.");
        if (amplifier.RatedPowers.Count == 0)
            checks.Add($"{at}.RatedPowers", $"{amplifier.Name}: no rated power was given; enter at least one with its load.");
        foreach (var point in amplifier.RatedPowers.Concat(amplifier.BridgedPowers))
        {
            checks.InRange($"{at}.RatedPowers", $"Load of a rated power of {amplifier.Name} in Ω", point.Ohms, 0.25, 64);
            checks.InRange($"{at}.RatedPowers", $"Rated power of {amplifier.Name} in W", point.Watts, 0.1, 40_000);
        }

        checks.Distinct($"{at}.RatedPowers", $"Rated powers of {amplifier.Name}", amplifier.RatedPowers.Select(point => point.Ohms.ToString("R", System.Globalization.CultureInfo.InvariantCulture)));
        checks.InRange($"{at}.SensitivityMinVolts", $"Highest sensitivity of {amplifier.Name} in V", amplifier.SensitivityMinVolts, 0.01, 50);
        checks.InRange($"{at}.SensitivityMaxVolts", $"Lowest sensitivity of {amplifier.Name} in V", amplifier.SensitivityMaxVolts, 0.01, 50);
        checks.InRange($"{at}.SignalToNoiseDecibels", $"Noise of {amplifier.Name} in dB", amplifier.SignalToNoiseDecibels, 20, 160);
        if (amplifier is { SensitivityMinVolts: { } min, SensitivityMaxVolts: { } max } && min > max)
            checks.Add($"{at}.SensitivityMinVolts", $"Sensitivity of {amplifier.Name}: {min} V is above {max} V; the lower voltage is the more sensitive position.");
    }

    private static void Port(InputChecks checks, string at, string name, SignalPort port)
    {
        checks.Known($"{at}.Kind", $"Kind of {name}", port.Kind);
        checks.InRange($"{at}.MaxVolts", $"Largest voltage of {name} in V", port.MaxVolts, 0.01, 100);
        checks.InRange($"{at}.MinVolts", $"Highest sensitivity of {name} in V", port.MinVolts, 0.001, 100);
        checks.InRange($"{at}.Ohms", $"Impedance of {name} in Ω", port.Ohms, 0.001, 10_000_000);
        checks.InRange($"{at}.MaxSampleRateHertz", $"Sample rate of {name} in Hz", port.MaxSampleRateHertz, 8_000, 768_000);
        checks.InRange($"{at}.MaxBits", $"Word length of {name} in bits", port.MaxBits, 8, 64);
        if (port is { MinVolts: { } min, MaxVolts: { } max } && min > max)
            checks.Add($"{at}.MinVolts", $"Sensitivity of {name}: {min} V is above {max} V; the lower voltage is the more sensitive position.");
    }

    private static void Link(InputChecks checks, string at, SignalLink link, Dictionary<string, SignalDevice> devices)
    {
        checks.InRange($"{at}.LengthMeters", $"Length of link {link.Id} in m", link.LengthMeters, 0, 50);
        if (!devices.TryGetValue(link.FromDevice, out var from) || from.Outputs.All(port => port.Id != link.FromPort))
            checks.Add($"{at}.FromPort", $"Link {link.Id}: there is no output “{link.FromDevice}, {link.FromPort}”.");
        if (!devices.TryGetValue(link.ToDevice, out var to) || to.Inputs.All(port => port.Id != link.ToPort))
            checks.Add($"{at}.ToPort", $"Link {link.Id}: there is no input “{link.ToDevice}, {link.ToPort}”.");
        if (from is AmplifierDevice)
            checks.Add($"{at}.FromDevice", $"Link {link.Id}: {from.Name} drives loudspeakers; give what it drives as a load.");
    }

    private static void Load(InputChecks checks, string at, ChannelLoad load, Dictionary<string, SignalDevice> devices)
    {
        checks.InRange($"{at}.CableOhms", $"Cable of load {load.Id} in Ω", load.CableOhms, 0, 10);
        checks.InRange($"{at}.WantedWatts", $"Power wanted of load {load.Id} in W", load.WantedWatts, 0.01, 40_000);
        if (!devices.TryGetValue(load.AmplifierId, out var device) || device is not AmplifierDevice amplifier)
        {
            checks.Add($"{at}.AmplifierId", $"Load {load.Id}: there is no amplifier “{load.AmplifierId}”.");
            return;
        }

        if (load.Outputs.Count is not (1 or 2) || load.Outputs.Distinct().Count() != load.Outputs.Count || load.Outputs.Any(output => amplifier.Outputs.All(port => port.Id != output)))
            checks.Add($"{at}.Outputs", $"Load {load.Id}: “{string.Join(", ", load.Outputs)}” is no output or bridged pair of {amplifier.Name}.");
        if (HasEmptyGroup(load.Wiring))
        {
            checks.Add($"{at}.Wiring", $"Load {load.Id}: a group without coils; put at least one coil in it.");
            return;
        }

        foreach (var coil in load.Wiring.Coils)
        {
            if (!devices.TryGetValue(coil.DriverId, out var found) || found is not DriverDevice driver)
                checks.Add($"{at}.Wiring", $"Load {load.Id}: there is no driver “{coil.DriverId}”.");
            else if (coil.Number < 1 || coil.Number > driver.Coils)
                checks.Add($"{at}.Wiring", $"Load {load.Id}: {driver.Name} has {driver.Coils} coils; coil {coil.Number} is not one of them.");
        }
    }

    private static bool HasEmptyGroup(CoilWiring wiring) => wiring is CoilGroup group && (group.Parts.Count == 0 || group.Parts.Any(HasEmptyGroup));

    // Depth first over devices, without recursion: a chain of a thousand devices must not end the stack.
    private static string? LoopAt(SignalPathInput input)
    {
        var next = input.Links.ToLookup(link => link.FromDevice, link => link.ToDevice);
        var state = new Dictionary<string, bool>(); // false: on the way; true: done
        foreach (var start in input.Devices)
        {
            var way = new Stack<(string Device, IEnumerator<string> Left)>();
            if (state.TryAdd(start.Id, false))
                way.Push((start.Id, next[start.Id].GetEnumerator()));
            while (way.TryPeek(out var at))
            {
                if (!at.Left.MoveNext())
                {
                    state[at.Device] = true;
                    way.Pop();
                }
                else if (!state.TryGetValue(at.Left.Current, out var done))
                {
                    state[at.Left.Current] = false;
                    way.Push((at.Left.Current, next[at.Left.Current].GetEnumerator()));
                }
                else if (!done)
                {
                    return input.Devices.First(device => device.Id == at.Left.Current).Name;
                }
            }
        }

        return null;
    }
}
