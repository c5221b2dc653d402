using System.ComponentModel.DataAnnotations;
using System.Globalization;
using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Signal;
using ShopFloor.Engineering.Signal.Levels;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>What the budgets of a job need and neither the parts list, the vehicle nor the plan's assumptions know.</summary>
public sealed class BudgetSettings : IAudited, IVersioned
{
    public BudgetSettings(Guid jobId, BudgetSettingsForm form)
    {
        Id = Guid.CreateVersion7();
        JobId = jobId;
        Form = form;
    }

    private BudgetSettings()
    {
    }

    public Guid Id { get; private set; }

    public Guid Version { get; private set; }

    public Guid JobId { get; private set; }

    public BudgetSettingsForm Form { get; private set; } = new();

    public void Apply(BudgetSettingsForm form) => Form = form;

    string IAudited.AuditName => "Budget settings";

    Guid? IAudited.AuditJobId => JobId;
}

/// <summary>Empty fields take the default named in the result's explanation, or are listed as missing.</summary>
public sealed record BudgetSettingsForm
{
    /// <summary>How long a bass note draws. Common practice, no source.</summary>
    public const double DefaultBurstSeconds = 0.2;

    /// <summary>Below this many amplifiers go quiet. From memory; use the maker's data.</summary>
    public const double DefaultLeastVolts = 11;

    [Display(Name = "Rating stamped on the alternator")]
    public string? AlternatorStamp { get; set; }

    [Display(Name = "Alternator speed over engine speed")]
    public double? PulleyRatio { get; set; }

    [Display(Name = "Engine speed at idle (1/min)")]
    public double? IdleRpm { get; set; }

    [Display(Name = "Engine speed at cruise (1/min)")]
    public double? CruiseRpm { get; set; }

    [Display(Name = "Kind of the car's battery")]
    public BatteryChemistry BatteryKind { get; set; } = BatteryChemistry.Flooded;

    [Display(Name = "Reserve capacity of the car's battery (min)")]
    public double? ReserveMinutes { get; set; }

    [Display(Name = "Charge at the start (%)")]
    public double StartPercent { get; set; } = 100;

    [Display(Name = "Charge to stop at (%)")]
    public double EndPercent { get; set; } = 50;

    [Display(Name = "Temperature of the battery (°C)")]
    public double BatteryCelsius { get; set; } = 25;

    [Display(Name = "The car's own current asleep (mA)")]
    public double? VehicleSleepMilliamperes { get; set; }

    [Display(Name = "Asleep: where the figure comes from")]
    public SleepCurrentOrigin SleepOrigin { get; set; } = SleepCurrentOrigin.Measured;

    [Display(Name = "The vehicle maker's limit asleep (mA)")]
    public double? MakersLimitMilliamperes { get; set; }

    [Display(Name = "Days the car is to stand")]
    public double? ParkedDays { get; set; }

    [Display(Name = "Hours the parked car is watched")]
    public double? WatchedHours { get; set; }

    [Display(Name = "Length of a peak (s)")]
    public double BurstSeconds { get; set; } = DefaultBurstSeconds;

    [Display(Name = "Voltage to keep in a peak (V)")]
    public double LeastVolts { get; set; } = DefaultLeastVolts;

    [Display(Name = "Rise of the air to be held (K)")]
    public double AllowedRiseKelvin { get; set; } = CompartmentHeat.DefaultAllowedRiseKelvin;

    [Display(Name = "Largest loss in a loudspeaker cable (dB)")]
    public double MaxSpeakerLossDecibels { get; set; } = 0.5;

    [Display(Name = "Least damping factor at a loudspeaker")]
    public double MinDampingFactor { get; set; } = 25;

    [Display(Name = "Gain overlap (dB)")]
    public double GainOverlapDecibels { get; set; } = SignalDefaults.GainOverlapDecibels;

    [Display(Name = "Tolerance of a measured gain (dB)")]
    public double GainToleranceDecibels { get; set; } = SignalDefaults.GainToleranceDecibels;

    [Display(Name = "Compartments")]
    public List<CompartmentForm> Compartments { get; set; } = [];

    public List<Problem> Problems()
    {
        var check = new Check()
            .That(string.IsNullOrWhiteSpace(AlternatorStamp) || AlternatorRating.Parse(AlternatorStamp) is not null, nameof(AlternatorStamp), $"'{AlternatorStamp}' is not accepted; enter the rating as stamped, for example 50/120 A 13.5 V.")
            .Range(PulleyRatio, nameof(PulleyRatio), "The pulley ratio", 1, 5, "")
            .Range(IdleRpm, nameof(IdleRpm), "The engine speed at idle", 300, 2_000, "1/min")
            .Range(CruiseRpm, nameof(CruiseRpm), "The engine speed at cruise", 800, 8_000, "1/min")
            .That(
                (CruiseRpm ?? AlternatorBudgetInput.DefaultCruiseRpm) > (IdleRpm ?? AlternatorBudgetInput.DefaultIdleRpm), nameof(CruiseRpm),
                $"The engine speed at cruise, {CruiseRpm ?? AlternatorBudgetInput.DefaultCruiseRpm} 1/min, is to be above that at idle, {IdleRpm ?? AlternatorBudgetInput.DefaultIdleRpm} 1/min.")
            .Range(ReserveMinutes, nameof(ReserveMinutes), "The reserve capacity", 10, 1_000, "min")
            .Range(StartPercent, nameof(StartPercent), "The charge at the start", 1, 100, "%")
            .Range(EndPercent, nameof(EndPercent), "The charge to stop at", 0, 99, "%")
            .Range(BatteryCelsius, nameof(BatteryCelsius), "The battery's temperature", -40, 70, "°C")
            .Range(VehicleSleepMilliamperes, nameof(VehicleSleepMilliamperes), "The car's own current asleep", 0, 5_000, "mA")
            .Range(MakersLimitMilliamperes, nameof(MakersLimitMilliamperes), "The maker's limit", 1, 5_000, "mA")
            .Range(ParkedDays, nameof(ParkedDays), "The days the car is to stand", 0.1, 365, "d")
            .Range(WatchedHours, nameof(WatchedHours), "The hours watched", 0.1, 1_000, "h")
            .Range(BurstSeconds, nameof(BurstSeconds), "The length of a peak", 0.001, 60, "s")
            .Range(LeastVolts, nameof(LeastVolts), "The voltage to keep", 5, 50, "V")
            .Range(AllowedRiseKelvin, nameof(AllowedRiseKelvin), "The rise to be held", 1, 60, "K")
            .Range(MaxSpeakerLossDecibels, nameof(MaxSpeakerLossDecibels), "The loss in a loudspeaker cable", 0.01, 6, "dB")
            .Range(MinDampingFactor, nameof(MinDampingFactor), "The damping factor", 1, 1_000, "")
            .Range(GainOverlapDecibels, nameof(GainOverlapDecibels), "The gain overlap", 0, 20, "dB")
            .Range(GainToleranceDecibels, nameof(GainToleranceDecibels), "The tolerance of a measured gain", GainPoints.LeastToleranceDecibels, GainPoints.MostToleranceDecibels, "dB")
            .That(Compartments.Select(each => each.Zone).Distinct().Count() == Compartments.Count, nameof(Compartments), "A place has two compartments; enter one for each.");
        check.Problems.AddRange(Compartments.SelectMany(compartment => compartment.Problems()));
        return check.Problems;
    }

    /// <summary>A copy whose list is its own.</summary>
    public BudgetSettingsForm Copy() => this with { Compartments = [.. Compartments.Select(each => each with { })] };
}

/// <summary>The inside of the box around the amplifiers of one place.</summary>
public sealed record CompartmentForm
{
    public string Zone { get; set; } = "";

    public double LengthMeters { get; set; } = 0.6;

    public double WidthMeters { get; set; } = 0.4;

    public double HeightMeters { get; set; } = 0.15;

    /// <summary>Name of a <see cref="WallBuild"/>.</summary>
    public string Wall { get; set; } = WallBuild.CarpetedPlywood.Name;

    public double AirflowCubicMetersPerHour { get; set; }

    public bool Covered { get; set; }

    /// <summary>All six sides of the box, m².</summary>
    public double SurfaceSquareMeters => 2 * ((LengthMeters * WidthMeters) + (LengthMeters * HeightMeters) + (WidthMeters * HeightMeters));

    public WallBuild? Build => WallBuild.All.FirstOrDefault(build => build.Name == Wall);

    public IReadOnlyList<Problem> Problems() => new Check()
        .That(VehicleZones.Exists(Zone), nameof(Zone), $"'{Zone}' is no place in the vehicle.")
        .Range(LengthMeters, nameof(LengthMeters), "The length inside", 0.05, 3, "m")
        .Range(WidthMeters, nameof(WidthMeters), "The width inside", 0.05, 3, "m")
        .Range(HeightMeters, nameof(HeightMeters), "The height inside", 0.02, 2, "m")
        .Range(AirflowCubicMetersPerHour, nameof(AirflowCubicMetersPerHour), "The airflow", 0, 1_000, "m³/h")
        .That(Build is not null, nameof(Wall), $"'{Wall}' is no wall of the table; accepted are {string.Join(", ", WallBuild.All.Select(build => build.Name))}.")
        .Problems;

    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture,
        $"{VehicleZones.NameOf(Zone)}: {LengthMeters:0.##} × {WidthMeters:0.##} × {HeightMeters:0.##} m, {Wall}, {AirflowCubicMetersPerHour:0.#} m³/h{(Covered ? ", covered" : "")}");
}
