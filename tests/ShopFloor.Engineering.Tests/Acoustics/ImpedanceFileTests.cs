using System.Text;
using CsCheck;
using ShopFloor.Engineering.Acoustics.Drivers;
using ShopFloor.Engineering.Responses;

namespace ShopFloor.Engineering.Tests.Acoustics;

public class ImpedanceFileTests
{
    [Theory]
    [InlineData("Frequency (Hz);Impedance (Ohm);Phase (deg)\n20,5;3,5;10\n25;3,9;-12,5", ColumnSeparator.Semicolon, true, 0, 1, 2)]
    [InlineData("20\t3,5\n25\t3,9", ColumnSeparator.Tab, true, 0, 1, null)]
    [InlineData("* freq ohm\n20.5  3.5\n25  3.9", ColumnSeparator.Blanks, false, 0, 1, null)]
    [InlineData("Phase [deg],Freq [Hz],|Z| [Ohm],ok\n10,20,3.5,yes\n12,25,3.9,yes", ColumnSeparator.Comma, false, 1, 2, 0)]
    public void A_file_is_guessed_as_programs_write_it(string text, ColumnSeparator separator, bool comma, int frequency, int ohms, int? phase)
    {
        var layout = ImpedanceFile.Propose(Bytes(text)).Layout!;

        Assert.Equal((separator, comma), (layout.Separator, layout.DecimalComma));
        if (text.Contains("yes", StringComparison.Ordinal))
        {
            // A column of words hides the titles; the person sets the columns.
            layout = layout with { FrequencyColumn = 1, OhmsColumn = 2, PhaseColumn = 0 };
        }

        Assert.Equal((frequency, ohms, phase), (layout.FrequencyColumn, layout.OhmsColumn, layout.PhaseColumn));
        Assert.Equal(2, ImpedanceFile.Read(Bytes(text), layout).Points.Count);
    }

    [Fact]
    public void Kilohertz_and_radians_are_read_as_they_are_titled()
    {
        var text = Bytes("f (kHz);Z (Ohm);phase (rad)\n0.02;3.5;0.5\n0.025;3.9;-0.25");
        var proposal = ImpedanceFile.Propose(text);
        var points = ImpedanceFile.Read(text, proposal.Layout!).Points;

        Assert.Empty(proposal.Questions);
        Assert.Equal([20.0, 25.0], points.Select(point => Math.Round(point.Hertz, 9)));
        Assert.Equal(0.5 * 180 / Math.PI, points[0].Degrees!.Value, 1e-9);
    }

    [Theory]
    [InlineData("20;3.5\n25;NaN\n30;4", "Line 2: the ohms in column 2, “NaN”, is no number.")]
    [InlineData("Hz;Ohm\n20;3.5\n25;-3.9", "Line 3: -3.9 Ω is not accepted; an impedance is above 0, up to 1 MΩ. Is column 2 the one with the ohms?")]
    [InlineData("20;3.5\n25\n30;4", "Line 2: it has 1 column; the ohms are looked for in column 2.")]
    [InlineData("20;3.5\n40;4\n30;5\n50;6", "Line 3: 30 Hz in line 3 does not go on from 40 Hz in line 2; frequencies must rise or fall from row to row.")]
    [InlineData("20;3.5\n25;3.9\n25;4", "Line 3: 25 Hz stands there a second time (first in line 2).")]
    [InlineData("20;3.5;10\n25;3.9;400", "Line 2: a phase of 400° is not accepted; it is −180 to 180°. Is column 3 the one with the phase?")]
    public void What_cannot_be_read_is_told_by_its_line(string text, string expected)
    {
        var layout = ImpedanceFile.Propose(Bytes(text)).Layout! with { FrequencyUnit = FrequencyUnit.Hertz, PhaseUnit = PhaseUnit.Degrees };

        Assert.Equal(expected, ImpedanceFile.Read(Bytes(text), layout).Problems[0].Message);
    }

    [Fact]
    public void What_holds_no_sweep_is_refused_in_words()
    {
        Assert.Equal("The file is empty.", Problem([]));
        Assert.StartsWith("No line holds a frequency and ohms.", Problem(Bytes("nothing\nhere at all")), StringComparison.Ordinal);
        Assert.Equal("The file has 50 MB; at most 4 MB are read. A sweep has some hundred rows: is it the right file?", Problem(new byte[50 * 1024 * 1024]));
        Assert.Contains("more than 20000 rows", ImpedanceFile.Read(Bytes(string.Join('\n', Enumerable.Range(1, 20_005).Select(n => $"{n};4"))), new ImpedanceLayout { Separator = ColumnSeparator.Semicolon }).Problems[0].Message, StringComparison.Ordinal);
        Assert.Equal("1 point is too few; measure at least 12, closer together around the peak.", ImpedanceFit.Refusal([new ImpedancePoint(20, 4)]));
        Assert.Contains("says dB", Assert.Single(ImpedanceFile.Propose(Bytes("Hz;mag dB\n20;80\n30;81")).Questions), StringComparison.Ordinal);
    }

    [Fact]
    public void A_sweep_from_the_top_down_is_turned_round() =>
        Assert.Equal([10.0, 20.0, 30.0], ImpedanceFile.Read(Bytes("30;5\n20;6\n10;4"), new ImpedanceLayout { Separator = ColumnSeparator.Semicolon }).Points.Select(point => point.Hertz));

    [Fact]
    public void No_file_breaks_the_reader() =>
        Gen.Byte.Array[0, 400].Sample(file =>
        {
            var proposal = ImpedanceFile.Propose(file);
            return proposal.Layout is null != (proposal.Problems.Count == 0)
                && (proposal.Layout is null || ImpedanceFile.Read(file, proposal.Layout) is { } reading && (reading.Points.Count > 0) != (reading.Problems.Count > 0));
        });

    [Fact]
    public void What_is_written_is_read_back() =>
        Gen.Select(Gen.Double[0.1, 1e5], Gen.Double[0.01, 1e4], Gen.Double[-90, 90]).Sample((hertz, ohms, degrees) =>
            ImpedanceTable.Parse(ImpedanceTable.Write([new ImpedancePoint(hertz, ohms, degrees)])).Points[0] == new ImpedancePoint(hertz, ohms, degrees));

    private static string Problem(byte[] file) => Assert.Single(ImpedanceFile.Propose(file).Problems).Message;

    private static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);
}
