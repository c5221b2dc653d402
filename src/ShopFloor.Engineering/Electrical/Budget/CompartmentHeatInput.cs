using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Engineering.Electrical.Budget;

/// <summary>Something that gives off heat in the compartment.</summary>
public sealed record HeatSource
{
    /// <summary>Identifier, unique in the list.</summary>
    public required string Id { get; init; }

    /// <summary>Name shown in texts.</summary>
    public required string Name { get; init; }

    /// <summary>Heat without signal, W (0 to 20 000); null means not known, which is reported.</summary>
    public double? IdleWatts { get; init; }

    /// <summary>Heat on music, W (0 to 20 000); null means not known.</summary>
    public double? MusicWatts { get; init; }

    /// <summary>Heat at rated output, W (0 to 20 000); null means not known.</summary>
    public double? FullWatts { get; init; }

    /// <summary>Case temperature at which it protects itself, °C (40 to 150); null when not known.</summary>
    public double? ProtectionCelsius { get; init; }

    /// <summary>How much warmer than the air around it its case gets on music, K (0 to 80).</summary>
    public double CaseRiseKelvin { get; init; } = CompartmentHeat.DefaultCaseRiseKelvin;

    /// <summary>An amplifier from its computed levels.</summary>
    /// <param name="id">Identifier.</param>
    /// <param name="name">Name.</param>
    /// <param name="levels">Its levels.</param>
    public static HeatSource Of(string id, string name, AmplifierCurrentResult levels)
    {
        ArgumentNullException.ThrowIfNull(levels);
        return new HeatSource { Id = id, Name = name, IdleWatts = levels.Idle.HeatWatts, MusicWatts = levels.Music.HeatWatts, FullWatts = levels.Rated.HeatWatts };
    }
}

/// <summary>A compartment with heat sources, its walls and its air.</summary>
public sealed record CompartmentHeatInput
{
    /// <summary>Identifier, for findings; give each its own when a job has several.</summary>
    public string Id { get; init; } = "compartment-heat";

    /// <summary>Name shown in texts.</summary>
    public string Name { get; init; } = "Compartment";

    /// <summary>What gives off heat.</summary>
    public required IReadOnlyList<HeatSource> Sources { get; init; }

    /// <summary>Walls; may be empty when nothing is known, then only air carries heat away.</summary>
    public required IReadOnlyList<CompartmentWall> Walls { get; init; }

    /// <summary>Air around the compartment and entering it, °C (−40 to 85).</summary>
    public double AmbientCelsius { get; init; } = ElectricalDefaults.AmbientCelsius;

    /// <summary>Air moved through the compartment, m³/s (0 to 1).</summary>
    public double AirflowCubicMetersPerSecond { get; init; }

    /// <summary>Heat stored per kelvin by everything that warms up, J/K (100 to 1 000 000): mass in kg times about 900 for aluminium, 1600 for wood.</summary>
    public required double HeatCapacityJoulesPerKelvin { get; init; }

    /// <summary>Rise of the air to be held, K (1 to 60).</summary>
    public double AllowedRiseKelvin { get; init; } = CompartmentHeat.DefaultAllowedRiseKelvin;

    /// <summary>Air speed in the free area of the vents, m/s (0.1 to 10).</summary>
    public double FaceVelocityMetersPerSecond { get; init; } = CompartmentHeat.DefaultFaceVelocity;

    /// <summary>Whether the compartment is a false floor or behind a panel that is shut while driving.</summary>
    public bool Covered { get; init; }

    /// <summary>What is wrong with the input, field by field; empty when it can be computed. Missing heat becomes a finding instead.</summary>
    /// <param name="text">How numbers are written; null is metric, invariant.</param>
    public IReadOnlyList<InputProblem> Validate(UnitText? text = null)
    {
        var checks = new InputChecks(text ?? UnitText.Invariant);
        for (var i = 0; i < Sources.Count; i++)
        {
            var source = Sources[i];
            var at = $"{nameof(Sources)}[{i}].";
            checks.Named(at + nameof(source.Id), "Heat source identifier", source.Id);
            checks.Named(at + nameof(source.Name), "Heat source name", source.Name);
            checks.InRange(at + nameof(source.IdleWatts), $"{source.Name}, heat at idle", source.IdleWatts, 0, 20_000, QuantityKind.Power);
            checks.InRange(at + nameof(source.MusicWatts), $"{source.Name}, heat on music", source.MusicWatts, 0, 20_000, QuantityKind.Power);
            checks.InRange(at + nameof(source.FullWatts), $"{source.Name}, heat at rated output", source.FullWatts, 0, 20_000, QuantityKind.Power);
            checks.InRange(at + nameof(source.ProtectionCelsius), $"{source.Name}, protection temperature", source.ProtectionCelsius, 40, 150, QuantityKind.Temperature);
            checks.InRange(at + nameof(source.CaseRiseKelvin), $"{source.Name}, case above air in K", source.CaseRiseKelvin, 0, 80);
        }

        checks.Distinct(nameof(Sources), "Heat sources", Sources.Select(s => s.Id));
        for (var i = 0; i < Walls.Count; i++)
        {
            var at = $"{nameof(Walls)}[{i}].";
            checks.InRange(at + nameof(CompartmentWall.AreaSquareMeters), $"{Walls[i].Name}, area in m²", Walls[i].AreaSquareMeters, 0, 20);
            checks.InRange(at + nameof(CompartmentWall.WattsPerSquareMeterKelvin), $"{Walls[i].Name}, heat let through in W/(m²·K)", Walls[i].WattsPerSquareMeterKelvin, 0.05, 20);
        }

        checks.InRange(nameof(AmbientCelsius), "Ambient", AmbientCelsius, -40, 85, QuantityKind.Temperature);
        checks.InRange(nameof(AirflowCubicMetersPerSecond), "Airflow in m³/s", AirflowCubicMetersPerSecond, 0, 1);
        checks.InRange(nameof(HeatCapacityJoulesPerKelvin), "Heat stored in J/K", HeatCapacityJoulesPerKelvin, 100, 1_000_000);
        checks.InRange(nameof(AllowedRiseKelvin), "Rise of the air to be held in K", AllowedRiseKelvin, 1, 60);
        checks.InRange(nameof(FaceVelocityMetersPerSecond), "Air speed in the vents in m/s", FaceVelocityMetersPerSecond, 0.1, 10);
        if (!(Walls.Sum(w => w.AreaSquareMeters * w.WattsPerSquareMeterKelvin) > 0) && !(AirflowCubicMetersPerSecond > 0))
            checks.Add(nameof(Walls), "Walls and airflow: nothing carries heat away; enter a wall or an airflow.");
        return checks.Problems;
    }
}
