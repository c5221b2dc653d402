using System.Globalization;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What is wrong with links: a source that is gone, an output loaded below what it is made for.</summary>
internal static class SignalFindings
{
    /// <summary>Control wire: thin enough to lay, thick enough to crimp, mm². Common practice, no source.</summary>
    public const double ControlWireSquareMillimeters = 0.5;

    /// <summary>The stop that the path says too, where it can judge the channel.</summary>
    public const string TooLowCode = "amplifier-load-too-low";

    public static Finding SourceGone(SignalLink link, string name) => new(
        "signal-source-gone", Severity.Warn, link.Id.ToString(), name, "What it was to be fed from is no longer on the parts list.", "Choose again what feeds it.", "the parts list");

    public static void Loads(IReadOnlyList<JobPart> installed, IReadOnlyList<SignalLink> links, UnitText text, List<Finding> findings)
    {
        foreach (var part in installed)
        {
            if (part.Data is not AmplifierData data)
            {
                continue;
            }

            foreach (var output in links.Where(link => link.Kind == SignalKind.Sound && link.Form.FromPartId == part.Id).GroupBy(link => link.Form.FromOutput))
            {
                // Loudspeakers on one output lie side by side, unless a crossover gives each its own range.
                double siemens = 0, apart = 0;
                foreach (var link in output)
                {
                    if (installed.FirstOrDefault(found => found.Id == link.ToPartId)?.Data is LoudspeakerData loudspeaker && SignalMapping.LoadOhms(loudspeaker, link.Form.Coils) is { } ohms)
                    {
                        siemens += link.Form.BehindCrossover ? 0 : 1 / ohms;
                        apart = Math.Max(apart, link.Form.BehindCrossover ? 1 / ohms : 0);
                    }
                }

                siemens = Math.Max(siemens, apart);
                if (siemens > 0 && 1 / siemens < 0.95 * NominalOhms(data.Load))
                {
                    findings.Add(TooLow(part, data, output.Key, 1 / siemens, text));
                }
            }
        }
    }

    /// <summary>What findings about an output are about.</summary>
    public static string OutputId(JobPart amplifier, int output) => string.Create(CultureInfo.InvariantCulture, $"{amplifier.Id}:output-{output}");

    private static Finding TooLow(JobPart part, AmplifierData data, int output, double ohms, UnitText text)
    {
        var rated = ohms >= 0.95 * LeastRatedOhms(data);
        return new Finding(
            rated ? "amplifier-loading-differs" : TooLowCode,
            rated ? Severity.Warn : Severity.Stop,
            OutputId(part, output),
            SignalPorts.NameOfOutput(part, output),
            $"It is loaded with {text.With(ohms, "Ω")}; the part says {text.With(NominalOhms(data.Load), "Ω")}" + (rated ? ", so currents and power are counted for that." : ", and no rating for less is known: it may shut down, overheat or fail."),
            rated ? "Set what the channels are loaded with on the part." : "Join the coils in series, take a loudspeaker off this output, say that a crossover divides them, or enter the maker's rating for this load.",
            "the amplifier's ratings; impedances in parallel");
    }

    private static double NominalOhms(ChannelLoading load) => load switch
    {
        ChannelLoading.TwoOhms => 2,
        ChannelLoading.OneOhm => 1,
        _ => 4,
    };

    private static double LeastRatedOhms(AmplifierData data) => data.Load == ChannelLoading.BridgedFourOhms ? 4
        : data.WattsAtOneOhm is not null ? 1
        : data.WattsAtTwoOhms is not null ? 2
        : NominalOhms(data.Load);
}
