using System.ComponentModel.DataAnnotations;
using System.Globalization;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What an output of a processor is made of.</summary>
public enum OutputMix
{
    /// <summary>Not said: taken as set for the side its loudspeakers sit on.</summary>
    AsItEnds,
    Left,
    Right,

    /// <summary>Left and right together.</summary>
    Sum,
}

/// <summary>What the outputs of one processor are set to inside: the routing as it is in the device.</summary>
public sealed record SignalRoutingForm : IDesignForm
{
    public static DesignKind Kind => DesignKind.SignalRouting;

    public static Permission Needed => Permission.DesignJobs;

    [Display(Name = "Processor")]
    public Guid PartId { get; set; }

    /// <summary>Only outputs somebody decided; counted over the units of the line.</summary>
    [Display(Name = "Outputs")]
    public List<OutputRouteForm> Outputs { get; set; } = [];

    public OutputRouteForm Of(int output) => Outputs.Find(route => route.Output == output) ?? new OutputRouteForm { Output = output };

    public List<Problem> Problems()
    {
        var check = new Check()
            .That(PartId != Guid.Empty, nameof(PartId), "Say which processor it is.")
            .That(Outputs.Select(route => route.Output).Distinct().Count() == Outputs.Count, nameof(Outputs), "An output is named twice; name each once.");
        foreach (var route in Outputs)
        {
            check.Range(route.Output, nameof(Outputs), "The output", 0, SignalPorts.Most - 1, "")
                .That(Enum.IsDefined(route.Takes), nameof(Outputs), $"'{route.Takes}' is nothing an output is made of; accepted are {string.Join(", ", Enum.GetNames<OutputMix>())}.")
                .Longest(route.Role, nameof(Outputs), "What it is for", Limits.Name);
        }

        return check.Problems;
    }
}

/// <summary>What one output of a processor is made of and for.</summary>
public sealed record OutputRouteForm
{
    public int Output { get; set; }

    public OutputMix Takes { get; set; }

    /// <summary>What it is for, as it stands in the processor: "front high", "sub".</summary>
    public string Role { get; set; } = "";

    public bool IsEmpty => Takes == OutputMix.AsItEnds && Role.Length == 0;

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Output + 1}: {Takes}{(Role.Length > 0 ? $", {Role}" : "")}");
}
