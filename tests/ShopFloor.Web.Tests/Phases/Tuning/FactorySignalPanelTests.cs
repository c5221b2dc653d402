using System.Globalization;
using System.Text;
using Bunit;
using Microsoft.Extensions.DependencyInjection;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Tuning.Equalisation;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Engineering.Tuning.Measurements;
using ShopFloor.Shop.Clients;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Phases.Tuning.Factory;
using ShopFloor.Shop.Phases.Tuning.Measurements;
using ShopFloor.Shop.Phases.Tuning.Presets;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Vehicles;
using ShopFloor.Web.Layout;
using ShopFloor.Web.Phases.Tuning;
using ShopFloor.Web.Tests.Components;

namespace ShopFloor.Web.Tests.Phases.Tuning;

public sealed class FactorySignalPanelTests : ComponentTest, IAsyncLifetime
{
    private static readonly TimeSpan Long = TimeSpan.FromSeconds(30);
    private readonly ShopApplication _shop = new();
    private readonly PresetBench _bench = new();
    private Guid _job;

    async Task IAsyncLifetime.InitializeAsync()
    {
        await _shop.InitializeAsync();
        _job = (await _shop.Get<JobDesk>().OpenAsync(
            _shop.Actor(ShopRole.Owner),
            new OpenJob { NewClient = new ClientDetails { Name = "Clea Client", Phone = "555 0100" }, NewVehicle = new VehicleDetails { Make = "Verano", Model = "Lince", ModelYear = 2020 }, Card = new JobCardDetails { Title = "Factory" } },
            default)).Value;
        Services.AddSingleton(_shop.Get<FactorySignals>());
        Services.AddSingleton(_shop.Get<TuningPresets>());
        Services.AddSingleton(_shop.Get<TuningBench>());
        _bench.Open(new PresetDraft { Name = "Seat", Profile = ProcessorProfiles.Generic, Target = TargetCurve.BuiltIn[0], Channels = [new ChannelSetting { Id = "t", Name = "Tweeter, left" }] });
    }

    async Task IAsyncLifetime.DisposeAsync()
    {
        await ((IAsyncLifetime)_shop).DisposeAsync();
        await DisposeAsync();
    }

    [Fact]
    public async Task Without_a_measured_output_it_says_what_to_do_and_leads_there()
    {
        var asked = false;
        var panel = Panel(ShopRole.Technician, () => asked = true);
        panel.WaitForElement(".empty", Long);

        await panel.Find(".button-primary").ClickAsync(new());

        Assert.True(asked);
    }

    [Fact]
    public async Task What_undoes_the_outputs_goes_into_the_preset_in_one_step_that_can_be_taken_back()
    {
        await MeasureAsync("Door left", new Crossover(CrossoverShape.LinkwitzRiley, 400, 24), null, 0);
        await MeasureAsync("Dash left", null, new Crossover(CrossoverShape.LinkwitzRiley, 400, 24), 0.001);
        var panel = Panel(ShopRole.Technician);
        panel.WaitForElement(".factory-side", Long);
        Assert.Contains("A · Door left", panel.Markup, StringComparison.Ordinal);

        await panel.FindAll("button").Single(button => button.TextContent == "Put these into the preset").ClickAsync(new());

        Assert.Equal(["Door left", "Dash left"], _bench.Draft!.Inputs.Select(input => input.Name)); // opened above
        // 1 ms at 48 kHz, within a sample.
        Assert.Equal(0.001, _bench.Draft.Inputs[0].DelaySeconds, 1.1 / 48_000);
        Assert.Equal(2, Assert.Single(_bench.Draft.Factory).Outputs);
        _bench.Undo();
        Assert.Empty(_bench.Draft.Inputs);
    }

    [Fact]
    public async Task An_output_that_is_left_out_is_left_out_for_everybody()
    {
        await MeasureAsync("Door left", new Crossover(CrossoverShape.LinkwitzRiley, 400, 24), null, 0);
        await MeasureAsync("Dash left", null, new Crossover(CrossoverShape.LinkwitzRiley, 400, 24), 0.001);
        var panel = Panel(ShopRole.Technician);
        panel.WaitForElement(".factory-side", Long);

        await panel.FindAll("input[type=checkbox]")[1].ChangeAsync(new() { Value = false });

        panel.WaitForAssertion(() => Assert.DoesNotContain("B · Dash left", panel.Markup, StringComparison.Ordinal), Long);
        Assert.Single((await _shop.Get<FactorySignals>().GetAsync(_shop.Actor(ShopRole.Owner), _job, default)).Choice.LeftOut);
    }

    private IRenderedComponent<FactorySignalPanel> Panel(ShopRole role, Action? measure = null)
    {
        var viewer = new Viewer(_shop.Actor(role), ShopFloor.Engineering.Units.UnitSystem.Metric, TimeZoneInfo.Utc, "EUR", "Shop");
        return Render<FactorySignalPanel>(parameters => parameters.AddCascadingValue(viewer).Add(shown => shown.JobId, _job).Add(shown => shown.Round, 0).Add(shown => shown.Bench, _bench).Add(shown => shown.Measure, measure ?? (() => { })));
    }

    private async Task MeasureAsync(string name, Crossover? low, Crossover? high, double later)
    {
        var does = new ChannelSetting { Id = "o", Name = name, DelaySeconds = 0.002 + later, LowPass = low, HighPass = high };
        var grid = FrequencyGrid.LogSpaced(20, 20_000, 300, 96_000);
        var text = new StringBuilder("Hz\tdB\tdegrees\n");
        foreach (var (hertz, value) in grid.Hertz.Zip(does.Response(grid)))
        {
            text.Append(CultureInfo.InvariantCulture, $"{hertz:0.000}\t{20 * Math.Log10(value.Magnitude):0.0000}\t{value.Phase * 180 / Math.PI:0.0000}\n");
        }

        var file = await _shop.Get<JobFiles>().AddAsync(_shop.Actor(ShopRole.Owner), _job, JobFileKind.MeasurementTable, $"{name}.txt", new MemoryStream(Encoding.UTF8.GetBytes(text.ToString())), default);
        var added = await _shop.Get<FactoryMeasurements>().AddAsync(
            _shop.Actor(ShopRole.Owner), _job,
            new FactoryMeasurementForm
            {
                Output = new FactoryOutputRef { Name = name, Side = ImageSide.Left }, FileId = file.Value, Source = MeasurementSource.Table,
                Layout = new ResponseTableLayout { Separator = ColumnSeparator.Tab, FrequencyColumn = 0, LevelColumn = 1, PhaseColumn = 2 },
            },
            default);
        Assert.True(added.Succeeded, added.Message);
    }
}
