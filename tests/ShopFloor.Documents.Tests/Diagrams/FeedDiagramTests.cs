using CsCheck;
using ShopFloor.Documents.Diagrams;

namespace ShopFloor.Documents.Tests.Diagrams;

public sealed class FeedDiagramTests
{
    private static readonly Gen<string> _label = Gen.String[Gen.Char["abc Ωжλ<&>0123456789"], 0, 60];

    private static readonly Gen<FeedMark?> _mark =
        from has in Gen.Int[0, 3]
        from kind in Gen.Enum<FeedMarkKind>()
        from text in _label
        select has == 0 ? new FeedMark(kind, text) : null;

    private static readonly Gen<FeedNode> _tree = Gen.Recursive<FeedNode>((depth, deeper) =>
        from label in _label
        from lines in _label.Array[0, 3]
        from mark in _mark
        from runs in Run(deeper).Array[0, depth >= 3 ? 0 : 4]
        select new FeedNode(depth == 0 ? FeedNodeKind.Source : runs.Length > 0 ? FeedNodeKind.Distribution : FeedNodeKind.Load, label,
            lines) { Runs = runs, Mark = mark });

    [Fact]
    public void Boxes_and_labels_never_overlap_and_stay_inside_the_drawing()
    {
        _tree.Sample(
            tree =>
            {
                var arrangement = FeedDiagram.Arrange(tree);
                var boxes = arrangement.Nodes.Select(node => node.Box).Concat(arrangement.Runs.Select(run => run.Labels)).ToList();
                for (var i = 0; i < boxes.Count; i++)
                {
                    Assert.True(boxes[i].X >= 0 && boxes[i].Y >= 0 && boxes[i].Right <= arrangement.Width && boxes[i].Bottom <= arrangement.Height);
                    for (var j = i + 1; j < boxes.Count; j++)
                        Assert.False(boxes[i].Overlaps(boxes[j]), $"{boxes[i]} {boxes[j]}");
                }
            },
            iter: 300);
    }

    [Fact]
    public void Several_trees_stand_below_each_other_without_touching()
    {
        _tree.Array[1, 4].Sample(
            trees =>
            {
                var arrangement = FeedDiagram.Arrange(trees);
                var boxes = arrangement.Nodes.Select(node => node.Box).Concat(arrangement.Runs.Select(run => run.Labels)).ToList();
                for (var i = 0; i < boxes.Count; i++)
                {
                    Assert.True(boxes[i].Right <= arrangement.Width && boxes[i].Bottom <= arrangement.Height);
                    for (var j = i + 1; j < boxes.Count; j++)
                        Assert.False(boxes[i].Overlaps(boxes[j]), $"{boxes[i]} {boxes[j]}");
                }
            },
            iter: 100);
    }

    [Fact]
    public void The_drawing_says_in_words_what_feeds_what()
    {
        var tree = new FeedNode(FeedNodeKind.Source, "Battery") { Runs = [new FeedRun(new FeedNode(FeedNodeKind.Load, "Amplifier"), "W1: 4 AWG") { Fuse = "F1 60 A" }] };

        var root = SvgGeometry.Parse(FeedDiagram.Draw(tree));

        Assert.Equal("Battery feeds Amplifier, W1: 4 AWG, F1 60 A.", root.Elements().Single(element => element.Name.LocalName == "desc").Value);
        Assert.Equal("Single-line diagram of the feed from Battery", root.Elements().Single(element => element.Name.LocalName == "title").Value);
    }

    [Fact]
    public void A_node_with_a_key_is_found_by_it_and_without_one_nothing_is_added()
    {
        FeedNode Node(string key) => new(FeedNodeKind.Load, "Amplifier") { Key = key };

        Assert.Single(SvgGeometry.Groups(SvgGeometry.Parse(FeedDiagram.Draw(Node("node:7"))), "node:7"));
        Assert.DoesNotContain("data-key", FeedDiagram.Draw(Node("")), StringComparison.Ordinal);
    }

    [Fact]
    public void Wires_reach_their_boxes_and_cross_no_other()
    {
        _tree.Sample(
            tree =>
            {
                var arrangement = FeedDiagram.Arrange(tree);
                foreach (var run in arrangement.Runs)
                {
                    var reached = arrangement.Nodes.Single(node => ReferenceEquals(node.Node, run.Run.To)).Box;
                    Assert.Equal((reached.X, reached.MiddleY), (run.ToX, run.WireY));
                    Assert.True(run.FromX < run.TrunkX && run.TrunkX < run.Labels.X && run.Labels.Right < run.ToX);
                    var trunk = new DiagramBox(run.TrunkX, Math.Min(run.FromY, run.WireY), 0.1, Math.Abs(run.FromY - run.WireY));
                    Assert.DoesNotContain(arrangement.Nodes, node => node.Box.Overlaps(trunk));
                    Assert.DoesNotContain(arrangement.Runs, other => other.Labels.Overlaps(trunk));
                }
            },
            iter: 300);
    }

    [Fact]
    public void Text_fits_its_box()
    {
        _tree.Sample(
            tree =>
            {
                foreach (var node in FeedDiagram.Arrange(tree).Nodes)
                {
                    Assert.All(node.Title, line => Assert.True(TextMeasure.Width(line, 15, heavy: true) <= node.Box.Width));
                    Assert.All(node.Lines, line => Assert.True(TextMeasure.Width(line, 14) <= node.Box.Width));
                }
            },
            iter: 200);
    }

    [Fact]
    public void Every_label_is_escaped_and_present()
    {
        const string Nasty = "<script>";
        var tree = new FeedNode(FeedNodeKind.Source, Nasty, Nasty)
        {
            Mark = new FeedMark(FeedMarkKind.Warn, Nasty),
            Runs = [new FeedRun(new FeedNode(FeedNodeKind.Load, Nasty, Nasty), Nasty) { Fuse = Nasty,
                Mark = new FeedMark(FeedMarkKind.Stop, Nasty) }],
        };
        var root = SvgGeometry.Parse(FeedDiagram.Draw(tree));

        Assert.DoesNotContain(root.Descendants(), element => element.Name.LocalName == "script");
        var texts = root.Descendants().Where(element => element.Name.LocalName == "text").Select(text => text.Value).ToList();
        Assert.Equal(6, texts.Count(text => text == Nasty));
        Assert.Contains($"Stop: {Nasty}", texts);
        Assert.Contains($"Warn: {Nasty}", texts);
    }

    [Fact]
    public void Text_is_at_least_fourteen_units_high()
    {
        _tree.Sample(
            tree =>
            {
                var root = SvgGeometry.Parse(FeedDiagram.Draw(tree));
                var sizes = root.Descendants().Where(element => element.Name.LocalName == "text" && element.Value != "!")
                    .Select(text => (double)text.Attribute("font-size")!);
                Assert.All(sizes, size => Assert.True(size >= 14));
            },
            iter: 50);
    }

    [Fact]
    public void Stop_and_warn_have_different_shapes()
    {
        FeedNode Marked(FeedMarkKind kind) => new(FeedNodeKind.Source, "Battery") { Mark = new FeedMark(kind, "") };

        var stop = Assert.Single(SvgGeometry.Groups(SvgGeometry.Parse(FeedDiagram.Draw(Marked(FeedMarkKind.Stop))),
            "stop")).Elements().First();
        var warn = Assert.Single(SvgGeometry.Groups(SvgGeometry.Parse(FeedDiagram.Draw(Marked(FeedMarkKind.Warn))),
            "warn")).Elements().First();
        Assert.Equal(8, stop.Attribute("points")!.Value.Split(' ').Length);
        Assert.Equal(3, warn.Attribute("points")!.Value.Split(' ').Length);
    }

    [Fact]
    public void Same_tree_gives_the_same_drawing()
    {
        _tree.Sample(tree => Assert.Equal(FeedDiagram.Draw(tree), FeedDiagram.Draw(tree)), iter: 20);
    }

    private static Gen<FeedRun> Run(Gen<FeedNode> to) =>
        from node in to
        from lines in _label.Array[0, 3]
        from fuse in Gen.OneOf("", "F1 150 A", "F12 very long fuse label that has to be wrapped somewhere")
        from mark in _mark
        select new FeedRun(node, lines) { Fuse = fuse, Mark = mark };
}
