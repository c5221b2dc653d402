using ShopFloor.Engineering.Signal.Chain;

namespace ShopFloor.Engineering.Signal.Levels;

/// <summary>A stage of a way with its level when the source gives full scale.</summary>
/// <param name="DeviceId">The device.</param>
/// <param name="Name">Device and connector, for texts.</param>
/// <param name="Volts">Voltage there, V rms; null inside a digital link or when not known.</param>
/// <param name="LevelDecibelsFullScale">Level against digital full scale, dB; null in an analogue stage.</param>
/// <param name="LimitVolts">Voltage it clips at, V rms; null when not known or digital.</param>
/// <param name="HeadroomDecibels">Distance to clipping, dB, below 0 when it clips; null when not known.</param>
public sealed record LevelStage(string DeviceId, string Name, double? Volts, double? LevelDecibelsFullScale, double? LimitVolts, double? HeadroomDecibels);

/// <summary>A figure of a device that is not known.</summary>
/// <param name="DeviceId">The device.</param>
/// <param name="DeviceName">Its name, for texts.</param>
/// <param name="What">The figure in plain words, such as "noise".</param>
public sealed record MissingFigure(string DeviceId, string DeviceName, string What);

/// <summary>A way from a source to an amplifier with its levels, noise, format and delay.</summary>
public sealed record RouteLevels
{
    /// <summary>The way.</summary>
    public required SignalRoute Route { get; init; }

    /// <summary>Every stage, source first, the amplifier's input last.</summary>
    public required IReadOnlyList<LevelStage> Stages { get; init; }

    /// <summary>Voltage at the amplifier's input at full scale, V rms; null when a figure is missing.</summary>
    public required double? InputVolts { get; init; }

    /// <summary>Noise there, V rms; null when a figure is missing.</summary>
    public required double? NoiseVolts { get; init; }

    /// <summary>What is not known.</summary>
    public required IReadOnlyList<MissingFigure> Missing { get; init; }

    /// <summary>
    /// The stage before the amplifier that clips first; null when none says. An amplifier's input that clips is told by
    /// <see cref="Rules.InputClipped"/>.
    /// </summary>
    public LevelStage? ClipsFirst => Stages.Where(stage => stage.HeadroomDecibels is not null && stage.DeviceId != Route.Hops[^1].Device.Id).MinBy(stage => stage.HeadroomDecibels);
}

/// <summary>Follows level and noise along a way.</summary>
/// <remarks>
/// Voltages divide between output and input impedance, V·Zin/(Zout + Zin). A digital device with an analogue input is taken as set so that
/// the voltage coming in is full scale, within what its control allows. Noises are uncorrelated: their squares add. Each is referred to
/// the place it appears at and carried on with the gain behind it.
/// </remarks>
public static class RouteLevel
{
    /// <summary>Levels with the source at full scale.</summary>
    /// <param name="route">A way of <see cref="SignalRoutes"/>.</param>
    public static RouteLevels Follow(SignalRoute route)
    {
        ArgumentNullException.ThrowIfNull(route);
        var state = new State();
        foreach (var hop in route.Hops)
            state.Pass(hop);
        return new RouteLevels { Route = route, Stages = state.Stages, InputVolts = state.Volts, NoiseVolts = state.Noise, Missing = state.Missing };
    }

    private sealed class State
    {
        private double? _digital; // dB full scale; null while analogue
        private double? _sourceOhms;

        public List<LevelStage> Stages { get; } = [];

        public List<MissingFigure> Missing { get; } = [];

        /// <summary>V rms at full scale, where the signal is analogue.</summary>
        public double? Volts { get; private set; }

        /// <summary>V rms in an analogue stage; in a digital one as a share of full scale.</summary>
        public double? Noise { get; private set; }

        public void Pass(SignalHop hop)
        {
            if (hop.Input is { } input)
                Arrive(hop, input);
            switch (hop.Device)
            {
                case SourceDevice source:
                    Leave(hop, 0, source.SignalToNoiseDecibels, own: true);
                    break;
                case ProcessingDevice processing:
                    Through(hop, processing);
                    break;
            }
        }

        private void Arrive(SignalHop hop, SignalPort input)
        {
            if (!input.Kind.IsAnalog())
                return;
            if (_sourceOhms is { } source && input.Ohms is { } load)
            {
                Volts *= load / (source + load);
                Noise *= load / (source + load);
            }

            Stages.Add(Stage(hop, input, Volts, null, input.MaxVolts));
        }

        private void Through(SignalHop hop, ProcessingDevice device)
        {
            var digital = device.IsDigital || !hop.Input!.Kind.IsAnalog(); // only a source has no input
            if (hop.Input!.Kind.IsAnalog() && digital) // as above
            {
                if (hop.Input.MaxVolts is not { } least)
                    Lacks(device, $"voltage for full scale of {hop.Input.Name}");
                else if (Volts is { } volts)
                {
                    var fullScale = Math.Clamp(volts, hop.Input.MinVolts ?? least, least);
                    // What comes above the least sensitive position is cut off there.
                    _digital = Math.Min(0, DecibelLevels.OfRatio(volts / fullScale));
                    Noise /= fullScale;
                }
            }

            if (digital && _digital is { } level)
            {
                _digital = level + device.GainDecibels;
                Noise *= DecibelLevels.ToRatio(device.GainDecibels);
                Stages.Add(new LevelStage(device.Id, $"{device.Name}, inside", null, _digital, null, -_digital));
                _digital = Math.Min(0, _digital.Value);
            }
            else if (!digital)
            {
                Volts *= DecibelLevels.ToRatio(device.GainDecibels);
                Noise *= DecibelLevels.ToRatio(device.GainDecibels);
            }

            Leave(hop, _digital, device.SignalToNoiseDecibels, own: digital);
        }

        // own: the output's voltage follows from its own full scale, not from what came in.
        private void Leave(SignalHop hop, double? level, double? signalToNoise, bool own)
        {
            var output = hop.Output!; // only the amplifier that ends a way has none
            var added = signalToNoise is { } decibels ? DecibelLevels.ToRatio(-decibels) : (double?)null;
            if (added is null)
                Lacks(hop.Device, "noise");
            _sourceOhms = output.Ohms;
            if (!output.Kind.IsAnalog())
            {
                Noise = hop.Device is SourceDevice ? added : Together(Noise, added);
                _digital = level;
                Volts = null;
                return;
            }

            if (output.MaxVolts is null)
                Lacks(hop.Device, $"largest voltage of {output.Name}");
            if (own)
            {
                Noise = (hop.Device is SourceDevice ? added : Together(Noise, added)) * output.MaxVolts;
                Volts = level is { } known ? output.MaxVolts * DecibelLevels.ToRatio(known) : null;
            }
            else
            {
                Noise = Together(Noise, added * output.MaxVolts);
                if (Volts > output.MaxVolts)
                {
                    Stages.Add(Stage(hop, output, Volts, null, output.MaxVolts));
                    Volts = output.MaxVolts;
                    _digital = null;
                    return;
                }
            }

            _digital = null;
            Stages.Add(Stage(hop, output, Volts, null, output.MaxVolts));
        }

        private void Lacks(SignalDevice device, string what) => Missing.Add(new MissingFigure(device.Id, device.Name, what));

        private static double? Together(double? a, double? b) => a is { } x && b is { } y ? Math.Sqrt(x * x + y * y) : null;

        private static LevelStage Stage(SignalHop hop, SignalPort port, double? volts, double? level, double? limit) => new(
            hop.Device.Id, $"{hop.Device.Name}, {port.Name}", volts, level, limit, volts > 0 && limit is { } most ? DecibelLevels.OfRatio(most / volts.Value) : null);
    }
}
