using ShopFloor.Documents.Diagrams;
using ShopFloor.Engineering.Signal.Chain;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Documents.Tests.Diagrams;

public sealed class ConnectionDiagramTests
{
    [Fact]
    public void Every_connector_has_a_row_a_finger_meets_and_cables_end_in_the_middle_of_it()
    {
        var arrangement = ConnectionDiagram.Arrange(View());

        var processor = arrangement.Nodes.Single(node => node.Node.Key == "p");
        Assert.Equal(ConnectionDiagram.RowHeight, processor.RowHeight);
        Assert.True(processor.Box.Height >= 3 * ConnectionDiagram.RowHeight);
        Assert.InRange(processor.InputsShare, 0.2, 0.8);
        var cable = Assert.Single(arrangement.Edges);
        Assert.Equal(processor.Box.Y + processor.PortTop + (1.5 * ConnectionDiagram.RowHeight), cable.Points[^1].Y, 6);
        // A loudspeaker is one connector: its whole box.
        Assert.True(arrangement.Nodes.Single(node => node.Node.Key == "w").Box.Height >= ConnectionDiagram.RowHeight);
        Assert.Contains("Player feeds Processor.", ConnectionDiagram.Draw(arrangement, View()), StringComparison.Ordinal);
    }

    [Fact]
    public void Before_the_first_cable_devices_stand_in_columns_in_the_order_sound_passes_them()
    {
        var linked = View();
        var open = linked with { Units = [.. linked.Units.Select(unit => unit with { Inputs = [.. unit.Inputs.Select(input => input with { Link = null })] })] };

        var lefts = ConnectionDiagram.Arrange(open).Nodes.ToDictionary(node => node.Node.Key, node => node.Box.X);

        Assert.True(lefts["s"] < lefts["p"]);
        Assert.True(lefts["p"] < lefts["w"]);
    }

    [Fact]
    public void Turn_on_lines_are_drawn_from_what_switches_with_their_delays()
    {
        var (player, amplifier) = (Guid.CreateVersion7(), Guid.CreateVersion7());
        var graph = TurnOnGraph.Of(
            new LightingPlanView
            {
                JobId = Guid.Empty, Strips = [], Accessories = null, AccessoryRows = [], CarAsleepKnown = false, Outputs = [], Order = null, Findings = [],
                Triggers = [new PortChoice(null, 0, "The car"), new PortChoice(player, 0, "Player")],
                TurnOn =
                [
                    new TurnOnRow(player, "Player", default, new SignalLinkForm(), Guid.Empty, "The car", null),
                    new TurnOnRow(amplifier, "Amplifier", default, new SignalLinkForm { FromPartId = player, DelaySeconds = 1.5 }, Guid.Empty, "Player", null),
                ],
            },
            UnitText.Invariant);

        Assert.Equal(["The car", "Player", "Amplifier"], graph.Nodes.Select(node => node.Label));
        Assert.Equal("1.5\u00A0s later", Assert.Single(graph.Nodes[2].Lines));
        Assert.Equal("The car feeds Player. Player feeds Amplifier.", SignalDiagram.Describe(graph));
    }

    private static ConnectionsView View()
    {
        var (player, processor, woofer) = (Guid.CreateVersion7(), Guid.CreateVersion7(), Guid.CreateVersion7());
        ConnectedInput In(Guid part, int number, string label, SignalLinkForm? link = null) => new(part, number, label, label, PortKind.UnbalancedLine, ImageSide.Both, link, Guid.Empty, true);
        ConnectedOutput Out(Guid part, int number) => new(part, number, $"output {number + 1}", "", PortKind.UnbalancedLine, ImageSide.Both, 0);
        return new ConnectionsView
        {
            JobId = Guid.Empty,
            Units =
            [
                new ConnectedUnit("s", player, PartKind.Source, "Player", [], [Out(player, 0)]),
                new ConnectedUnit("p", processor, PartKind.Processor, "Processor", [In(processor, 0, "input 1"), In(processor, 1, "input 2", new SignalLinkForm { FromPartId = player })], [Out(processor, 0), Out(processor, 1), Out(processor, 2)]),
                new ConnectedUnit("w", woofer, PartKind.Loudspeaker, "Woofer", [In(woofer, 0, "")], []),
            ],
            Processors = [],
        };
    }
}
