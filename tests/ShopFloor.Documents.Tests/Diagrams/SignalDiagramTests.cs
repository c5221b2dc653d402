using CsCheck;
using ShopFloor.Documents.Diagrams;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Documents.Tests.Diagrams;

public sealed class SignalDiagramTests
{
    private static readonly Gen<string> _label = Gen.String[Gen.Char["abc Ωжλ<&>0123456789"], 1, 50];

    // Devices in three to five columns, cables from a column to any later one.
    private static readonly Gen<SignalGraph> _graph =
        from columns in Gen.Int[2, 5]
        from labels in _label.Array[2, 5].Array[columns]
        from seed in Gen.Int[0, int.MaxValue]
        select Build(labels, new Random(seed));

    [Fact]
    public void Boxes_never_overlap_and_stay_inside_the_drawing() => _graph.Sample(
        graph =>
        {
            var arrangement = SignalDiagram.Arrange(graph);
            Assert.Equal(graph.Nodes.Count, arrangement.Nodes.Count);
            for (var i = 0; i < arrangement.Nodes.Count; i++)
            {
                var box = arrangement.Nodes[i].Box;
                Assert.True(box.X >= 0 && box.Y >= 0 && box.Right <= arrangement.Width && box.Bottom <= arrangement.Height);
                for (var j = i + 1; j < arrangement.Nodes.Count; j++)
                    Assert.False(box.Overlaps(arrangement.Nodes[j].Box), $"{box} {arrangement.Nodes[j].Box}");
            }
        },
        iter: 200);

    [Fact]
    public void Cables_run_to_the_right_and_through_no_box() => _graph.Sample(
        graph =>
        {
            var arrangement = SignalDiagram.Arrange(graph);
            foreach (var edge in arrangement.Edges)
            {
                Assert.True(edge.Points.Zip(edge.Points.Skip(1)).All(pair => pair.First.X <= pair.Second.X));
                // Every second stretch crosses a column, level, in its own place.
                foreach (var (from, to) in edge.Points.Skip(1).Zip(edge.Points.Skip(2)).Where((_, at) => at % 2 == 0))
                {
                    Assert.Equal(from.Y, to.Y);
                    Assert.DoesNotContain(arrangement.Nodes, node => node.Box.Overlaps(new DiagramBox(from.X, from.Y, to.X - from.X, 0.1)));
                }
            }
        },
        iter: 200);

    [Fact]
    public void Sweeping_never_leaves_more_crossings_than_the_order_given() => _graph.Sample(
        graph => Assert.True(SignalDiagram.Arrange(graph).Crossings <= SignalDiagram.Arrange(graph, sweep: false).Crossings),
        iter: 200);

    [Fact]
    public void Loudspeakers_listed_the_other_way_round_are_put_in_the_order_of_their_outputs()
    {
        var graph = new SignalGraph(
            [
                new SignalNode("amp", "Amplifier", [], [], ["output 1", "output 2", "output 3"]),
                new SignalNode("c", "Woofer", [], [], []), new SignalNode("b", "Right", [], [], []), new SignalNode("a", "Left", [], [], []),
            ],
            [new SignalEdge("amp", 0, "a", 0), new SignalEdge("amp", 1, "b", 0), new SignalEdge("amp", 2, "c", 0)]);

        // Three cables against the order cross each other once each: 3 · 2 / 2.
        Assert.Equal(3, SignalDiagram.Arrange(graph, sweep: false).Crossings);
        var arranged = SignalDiagram.Arrange(graph);
        Assert.Equal(0, arranged.Crossings);
        Assert.Equal(["a", "b", "c"], arranged.Nodes.Where(node => node.Node.Key != "amp").OrderBy(node => node.Box.Y).Select(node => node.Node.Key));
    }

    [Fact]
    public void The_drawing_says_in_words_what_feeds_what()
    {
        var graph = new SignalGraph(
            [new SignalNode("s", "Player", [], [], ["left"]), new SignalNode("a", "Amplifier <4>", [], ["input 1"], ["output 1, free"])], [new SignalEdge("s", 0, "a", 0)]);

        var root = SvgGeometry.Parse(SignalDiagram.Draw(graph));

        Assert.Equal("Player feeds Amplifier <4>.", root.Elements().Single(element => element.Name.LocalName == "desc").Value);
        Assert.Contains(root.Descendants(), element => element.Value == "output 1, free");
    }

    private static SignalGraph Build(string[][] labels, Random random)
    {
        List<SignalNode> nodes = [];
        List<SignalEdge> edges = [];
        List<List<string>> columns = [];
        for (var column = 0; column < labels.Length; column++)
        {
            columns.Add([.. labels[column].Select((_, row) => $"{column}:{row}")]);
            nodes.AddRange(labels[column].Select((label, row) => new SignalNode(
                $"{column}:{row}", label, [], column == 0 ? [] : ["in 1", "in 2"], column == labels.Length - 1 ? [] : ["out 1", "out 2", "out 3"])));
            if (column == 0)
                continue;
            foreach (var to in columns[column])
            {
                var from = columns[random.Next(column)];
                edges.Add(new SignalEdge(from[random.Next(from.Count)], random.Next(3), to, random.Next(2)));
            }
        }

        return new SignalGraph(nodes, edges);
    }
}
