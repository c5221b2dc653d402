using ShopFloor.Engineering.Electrical;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Vehicles;

namespace ShopFloor.Shop.Tests.Phases.Design;

public sealed class ElectricalPlanBuilderTests
{
    private static readonly Dictionary<string, RunChoiceForm> NoChoices = [];

    [Fact]
    public void An_amplifier_becomes_a_load_with_its_data_sheet()
    {
        var load = Assert.Single(Build([PartBuilder.Amplifier()]).Input!.Loads);

        Assert.Equal(LoadKind.Amplifier, load.Kind);
        Assert.Equal(600, load.Amplifier!.RatedOutputWatts); // 4 channels of 150 W
        Assert.Equal(0.8, load.Amplifier.FullPowerEfficiency);
        Assert.Equal(70, load.MakerFuseAmperes);
    }

    [Fact]
    public void Bridged_channels_count_in_pairs()
    {
        var load = Assert.Single(Build([PartBuilder.Amplifier(part => part.Data = new AmplifierData
        {
            Channels = 4, WattsBridgedAtFourOhms = 500, Load = ChannelLoading.BridgedFourOhms,
        })]).Input!.Loads);

        Assert.Equal(1000, load.Amplifier!.RatedOutputWatts);
    }

    [Fact]
    public void Two_amplifiers_on_one_line_get_a_run_each_and_the_first_keeps_the_parts_id()
    {
        var basis = Build([PartBuilder.Amplifier(part => part.Quantity = 2)], out var parts);

        Assert.Equal(
            [ElectricalPlanBuilder.MainRunId, parts[0].Id.ToString(), $"{parts[0].Id}-2"],
            basis.Runs.Select(run => run.RunId));
        Assert.Equal("Four-channel amplifier (2 of 2)", basis.Runs[2].Name);
    }

    [Fact]
    public void Every_other_consumer_brings_its_current()
    {
        var loads = Build(
        [
            PartBuilder.Of(PartKind.Processor, "Processor", new ProcessorData { WorkingAmperes = 1.5, FuseAmperes = 3 }),
            PartBuilder.Of(PartKind.Source, "Head unit", new SourceData { WorkingAmperes = 4 }),
            PartBuilder.Of(PartKind.Lighting, "Strip", new LightingData { WattsPerMeter = 14.4, LengthMeters = 5 }),
            PartBuilder.Of(PartKind.Accessory, "Fan", new AccessoryData { WorkingAmperes = 0.3 }, part => part.Quantity = 2),
        ]).Input!.Loads;

        // 14.4 W/m over 5 m at the nominal 12 V: 6 A.
        Assert.Equal([1.5, 4, 6, 0.6], loads.Select(load => Math.Round(load.Fixed!.RatedAmperes!.Value, 9)));
        Assert.Equal(3, loads[0].MakerFuseAmperes);
    }

    [Fact]
    public void Parts_without_an_electrical_role_are_no_loads()
    {
        var basis = Build(
        [
            PartBuilder.Cable("4"),
            PartBuilder.Of(PartKind.Loudspeaker, "Woofer", new LoudspeakerData { RatedWatts = 500 }),
            PartBuilder.Of(PartKind.Treatment, "Mat", new TreatmentData()),
            PartBuilder.Of(PartKind.Accessory, "Bracket", new AccessoryData { WorkingAmperes = 0 }),
            PartBuilder.Amplifier(part => part.Direction = PartDirection.Removed),
        ]);

        Assert.Null(basis.Input);
        Assert.Empty(basis.Runs);
        Assert.Empty(basis.Findings);
    }

    [Fact]
    public void An_accessory_of_unknown_current_and_a_second_battery_are_found()
    {
        var basis = Build(
        [
            PartBuilder.Of(PartKind.Accessory, "Relay box", new AccessoryData()),
            PartBuilder.Of(PartKind.Battery, "Second battery", new BatteryData { CapacityAmpereHours = 60 }),
        ]);

        Assert.Equal(["accessory-current-missing", "battery-feed-not-planned"], basis.Findings.Select(finding => finding.Code));
    }

    [Fact]
    public void Batteries_of_one_line_are_one_source_side_by_side_at_the_rest_voltage_of_their_kind()
    {
        var basis = Build(
            [
                PartBuilder.Amplifier(),
                PartBuilder.Of(PartKind.Battery, "Lithium pair", new BatteryData { InternalMilliohms = 4, Chemistry = "lithium iron phosphate" }, part => (part.Quantity, part.Zone) = (2, "spare-well")),
            ],
            out var parts,
            amplifier => []);
        var chosen = ElectricalPlanBuilder.Build(parts, Vehicle(null), new ElectricalSettingsForm(), new Dictionary<string, RunChoiceForm>
        {
            [parts[0].Id.ToString()] = new() { From = parts[1].Id.ToString() },
        });

        // 4 mΩ twice in parallel; 13.3 V is that of full lithium iron phosphate, from memory.
        Assert.Equal(new BatterySource(13.3, 0.002), Assert.Single(chosen.Input!.Points).Battery);
        Assert.DoesNotContain(basis.Runs, run => run.PartId == parts[1].Id);
    }

    [Fact]
    public void A_missing_rating_stays_missing()
    {
        var load = Assert.Single(Build([PartBuilder.Amplifier(part => ((AmplifierData)part.Data).WattsAtFourOhms = null)]).Input!.Loads);

        Assert.Null(load.Amplifier!.RatedOutputWatts);
        Assert.Contains(ElectricalPlan.Compute(Build([PartBuilder.Amplifier(part => ((AmplifierData)part.Data).WattsAtFourOhms = null)]).Input!).Findings, finding => finding.Code == "load-data-missing");
    }

    [Fact]
    public void Lengths_are_suggested_by_place_until_somebody_measures_them()
    {
        var basis = Build([PartBuilder.Amplifier()]);
        var main = basis.Runs[0];

        // Engine bay left (-0.1, 0.5, 0.5) to boot floor left (3.1, 0.35, 0.1): 3.2 + 0.15 + 0.4 = 3.75 m, a tenth more is 4.1 m.
        Assert.Equal(4.1, main.LengthMeters!.Value, 9);
        Assert.False(main.LengthMeasured);
        Assert.Contains("Main run", Assert.Single(basis.Findings, finding => finding.Code == "run-length-suggested").Text, StringComparison.Ordinal);

        var measured = Build([PartBuilder.Amplifier()], choices: new() { [ElectricalPlanBuilder.MainRunId] = new() { LengthMeters = 5.4 } });

        Assert.Equal(5.4, measured.Input!.Points[0].Run.LengthMeters);
        Assert.True(measured.Runs[0].LengthMeasured);
        Assert.DoesNotContain("Main run", measured.Findings[0].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_part_without_a_place_has_no_length()
    {
        var basis = Build([PartBuilder.Amplifier(part => part.Zone = "")]);

        Assert.Null(basis.Input!.Loads[0].Branch.LengthMeters);
    }

    [Fact]
    public void The_engine_space_counts_for_runs_that_pass_it()
    {
        var input = Build([PartBuilder.Amplifier()]).Input!;
        Assert.True(input.Points[0].Run.EngineSpace);
        Assert.False(input.Loads[0].Branch.EngineSpace);

        var fromTheBoot = Build([PartBuilder.Amplifier()], vehicle: details => details.BatteryZone = "spare-well").Input!;
        Assert.False(fromTheBoot.Points[0].Run.EngineSpace);
    }

    [Fact]
    public void The_distribution_on_the_parts_list_says_where_the_runs_part()
    {
        var basis = Build(
            [PartBuilder.Amplifier(), PartBuilder.Of(PartKind.Distribution, "Fuse block", new DistributionData(), part => part.Zone = "front-seat-left")],
            out var parts);

        Assert.Equal("front-seat-left", basis.Runs[0].To);
        Assert.Equal(parts[1].Id, basis.Sources.MainPartId);
    }

    [Fact]
    public void A_second_distribution_and_a_second_battery_are_points_of_the_feed()
    {
        var basis = Build(
            [
                PartBuilder.Amplifier(),
                PartBuilder.Of(PartKind.Distribution, "Fuse block", new DistributionData(), part => part.Zone = "boot-floor-left"),
                PartBuilder.Of(PartKind.Distribution, "Front block", new DistributionData(), part => part.Zone = "dash"),
                PartBuilder.Of(PartKind.Battery, "Second battery", new BatteryData(), part => part.Zone = "spare-well"),
            ],
            out var parts,
            amplifier => []);
        var (amplifier, front, second) = (parts[0].Id.ToString(), parts[2].Id.ToString(), parts[3].Id.ToString());
        var chosen = ElectricalPlanBuilder.Build(parts, Vehicle(null), new ElectricalSettingsForm(), new Dictionary<string, RunChoiceForm>
        {
            [amplifier] = new() { From = front },
            [front] = new() { From = second },
        });

        // Nothing hangs on the extra points until somebody says so.
        Assert.Equal([ElectricalPlanBuilder.MainRunId, amplifier], basis.Runs.Select(run => run.RunId));
        Assert.Equal([front, second, amplifier], chosen.Runs.Select(run => run.RunId));
        Assert.Equal([(front, second), (second, null)], chosen.Input!.Points.Select(point => (point.Id, point.FedFrom)));
        Assert.Equal([FeedPointKind.Distribution, FeedPointKind.Battery], chosen.Input.Points.Select(point => point.Kind));
        Assert.Equal([ReturnPath.DedicatedConductor, ReturnPath.VehicleBody], chosen.Input.Points.Select(point => point.Run.ReturnPath));
        Assert.DoesNotContain(chosen.Findings, finding => finding.Code == "battery-feed-not-planned");
        Assert.Contains(ElectricalPlan.Compute(chosen.Input).Findings, finding => finding.Code == "fuse-at-both-batteries");
    }

    [Fact]
    public void A_source_that_left_the_parts_list_is_told_and_the_usual_one_is_planned()
    {
        var basis = Build([PartBuilder.Amplifier()], out _, id => new() { [id] = new() { From = Guid.CreateVersion7().ToString() } });

        Assert.Equal(ElectricalPlanBuilder.MainRunId, basis.Input!.Loads[0].FedFrom);
        Assert.Contains(basis.Findings, finding => finding.Code == "source-gone");
    }

    [Fact]
    public void The_body_is_counted_once_on_the_way_back()
    {
        var input = Build([PartBuilder.Amplifier()]).Input!;

        Assert.Equal(ReturnPath.VehicleBody, input.Points[0].Run.ReturnPath);
        Assert.Equal(ReturnPath.DedicatedConductor, input.Loads[0].Branch.ReturnPath);
    }

    [Fact]
    public void Choices_reach_the_run_they_are_about()
    {
        var basis = Build([PartBuilder.Amplifier()], out var parts, id => new()
        {
            [id] = new() { Awg = "0", FuseAmperes = 80, FuseDistanceMeters = 0.4, SheathedToFuse = true, BundledConductors = 4, From = FeedSources.Battery },
        });
        var load = basis.Input!.Loads[0];

        Assert.Null(load.FedFrom);
        Assert.Equal(("1/0 AWG", 80, 0.4, true, 4), (load.Branch.ForcedSize, load.Branch.ForcedFuseAmperes, load.Branch.SourceToFuseMeters, load.Branch.SheathedWholeWay, load.Branch.BundledConductors));
        Assert.Equal(parts[0].Id.ToString(), Assert.Single(basis.Runs).RunId);
    }

    [Fact]
    public void A_part_on_a_circuit_of_the_car_is_told_and_not_planned()
    {
        var basis = Build([PartBuilder.Of(PartKind.Source, "Head unit", new SourceData { WorkingAmperes = 4 })], out _, id => new() { [id] = new() { From = FeedSources.VehicleCircuit } });

        Assert.Null(basis.Input);
        Assert.Equal("fed-by-the-car", Assert.Single(basis.Findings).Code);
    }

    [Fact]
    public void A_high_voltage_vehicle_brings_its_caution()
    {
        var input = Build([PartBuilder.Amplifier()], vehicle: details => details.DriveType = Drivetrain.PlugInHybrid).Input!;

        Assert.StartsWith("High-voltage vehicle", ElectricalPlan.Compute(input).Cautions[0], StringComparison.Ordinal);
    }

    private static PlanBasis Build(JobPartDetails[] details, Dictionary<string, RunChoiceForm>? choices = null, Action<VehicleDetails>? vehicle = null) =>
        ElectricalPlanBuilder.Build(Parts(details), Vehicle(vehicle), new ElectricalSettingsForm(), choices ?? NoChoices);

    private static PlanBasis Build(JobPartDetails[] details, out List<JobPart> parts, Func<string, Dictionary<string, RunChoiceForm>>? choices = null)
    {
        parts = Parts(details);
        return ElectricalPlanBuilder.Build(parts, Vehicle(null), new ElectricalSettingsForm(), choices?.Invoke(parts[0].Id.ToString()) ?? NoChoices);
    }

    private static List<JobPart> Parts(JobPartDetails[] details) =>
        [.. details.Select((detail, order) => new JobPart(Guid.CreateVersion7(), detail, null, order))];

    private static Vehicle Vehicle(Action<VehicleDetails>? change)
    {
        var details = new VehicleDetails { Make = "Verano", Model = "Lince", AlternatorAmperes = 120 };
        change?.Invoke(details);
        return new Vehicle(Guid.CreateVersion7(), details, new DateTimeOffset(2031, 3, 3, 8, 0, 0, TimeSpan.Zero));
    }
}
