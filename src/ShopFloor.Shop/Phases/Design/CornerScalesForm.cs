using System.ComponentModel.DataAnnotations;
using ShopFloor.Engineering.Mass;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>The car on four scales, before the build and after it. Whoever stands at the scales types it.</summary>
public sealed record CornerScalesForm : IDesignForm
{
    public static DesignKind Kind => DesignKind.CornerScales;

    public static Permission Needed => Permission.WorkOnJobs;

    [Display(Name = "Before, front left (kg)")]
    public double? BeforeFrontLeft { get; set; }

    [Display(Name = "Before, front right (kg)")]
    public double? BeforeFrontRight { get; set; }

    [Display(Name = "Before, rear left (kg)")]
    public double? BeforeRearLeft { get; set; }

    [Display(Name = "Before, rear right (kg)")]
    public double? BeforeRearRight { get; set; }

    [Display(Name = "After, front left (kg)")]
    public double? AfterFrontLeft { get; set; }

    [Display(Name = "After, front right (kg)")]
    public double? AfterFrontRight { get; set; }

    [Display(Name = "After, rear left (kg)")]
    public double? AfterRearLeft { get; set; }

    [Display(Name = "After, rear right (kg)")]
    public double? AfterRearRight { get; set; }

    [Display(Name = "Fuel and load that may differ (kg)")]
    public double OtherKilograms { get; set; }

    [Display(Name = "Step of a scale (kg)")]
    public double StepKilograms { get; set; } = 0.5;

    [Display(Name = "Error of a scale (%)")]
    public double ErrorPercent { get; set; } = 0.2;

    [Display(Name = "How it stood")]
    public string Note { get; set; } = "";

    /// <summary>Null until all four were typed.</summary>
    internal CornerReadings? Before => Readings(BeforeFrontLeft, BeforeFrontRight, BeforeRearLeft, BeforeRearRight);

    internal CornerReadings? After => Readings(AfterFrontLeft, AfterFrontRight, AfterRearLeft, AfterRearRight);

    public List<Problem> Problems()
    {
        var check = new Check()
            .Range(OtherKilograms, nameof(OtherKilograms), "What may differ", 0, 200, "kg")
            .Range(StepKilograms, nameof(StepKilograms), "The step of a scale", 0, 20, "kg")
            .Range(ErrorPercent, nameof(ErrorPercent), "The error of a scale", 0, 10, "%")
            .Longest(Note, nameof(Note), "The remark", Limits.Line);
        Four(check, "Before", [BeforeFrontLeft, BeforeFrontRight, BeforeRearLeft, BeforeRearRight], nameof(BeforeFrontLeft), nameof(BeforeFrontRight), nameof(BeforeRearLeft), nameof(BeforeRearRight));
        Four(check, "After", [AfterFrontLeft, AfterFrontRight, AfterRearLeft, AfterRearRight], nameof(AfterFrontLeft), nameof(AfterFrontRight), nameof(AfterRearLeft), nameof(AfterRearRight));
        return check.Problems;
    }

    private static readonly string[] _wheels = ["front left", "front right", "rear left", "rear right"];

    private static void Four(Check check, string when, double?[] values, params string[] fields)
    {
        for (var n = 0; n < 4; n++)
        {
            check.Range(values[n], fields[n], $"{when}, {_wheels[n]},", 20, 5_000, "kg");
        }

        var typed = values.Count(value => value is not null);
        check.That(typed is 0 or 4, fields[Math.Max(0, Array.FindIndex(values, value => value is null))], $"{when}: {typed} of four readings are there; the four belong together.");
    }

    private static CornerReadings? Readings(double? frontLeft, double? frontRight, double? rearLeft, double? rearRight) =>
        frontLeft is { } fl && frontRight is { } fr && rearLeft is { } rl && rearRight is { } rr ? new CornerReadings(fl, fr, rl, rr) : null;
}

/// <summary>The mass a build may add, agreed before it begins.</summary>
public sealed record MassBudgetForm : IDesignForm
{
    public static DesignKind Kind => DesignKind.MassBudget;

    public static Permission Needed => Permission.DesignJobs;

    [Display(Name = "Mass the build may add (kg)")]
    public double? TargetKilograms { get; set; }

    public List<Problem> Problems() => new Check()
        .That(TargetKilograms is not null, nameof(TargetKilograms), "The mass the build may add is needed.")
        .Range(TargetKilograms, nameof(TargetKilograms), "The mass the build may add", 0.1, 2_000, "kg")
        .Problems;
}
