using System.Globalization;
using System.Text;
using CsCheck;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Tuning.Measurements;

namespace ShopFloor.Engineering.Tests.Tuning;

/// <summary>Tables as people have them: guessed, confirmed, read, and refused by line.</summary>
public class ResponseTableTests
{
    [Theory]
    [InlineData("* measured at the left ear\n* Freq(Hz)\tSPL(dB)\tPhase(degrees)\n20\t71.5\t-170\n200\t80.25\t45\n2000\t78\t90\n", ColumnSeparator.Tab, false, PhaseUnit.Degrees)]
    [InlineData("Frequency [Hz];Level [dB];Phase [rad]\r\n20;71,5;-2,96705973\r\n200;80,25;0,78539816\r\n2000;78,0;1,57079633\r\n", ColumnSeparator.Semicolon, true, PhaseUnit.Radians)]
    [InlineData("# comment\nfreq,dB,phase_deg\n20,71.5,-170\n200,80.25,45\n2000,78,90", ColumnSeparator.Comma, false, PhaseUnit.Degrees)]
    [InlineData("// comment\n  20   71.5   -170 \n\n  200 80.25  45\n ; between\n 2000   78  90\n", ColumnSeparator.Blanks, false, PhaseUnit.Degrees)]
    [InlineData("Hz dB deg\n20 71,5 -170\n200 80,25 45\n2000 78,0 90\n", ColumnSeparator.Blanks, true, PhaseUnit.Degrees)]
    [InlineData("\"Hz\";\"dB\";\"Phase °\"\n2000;78;90\n200;80.25;45\n20;71.5;-170\n", ColumnSeparator.Semicolon, false, PhaseUnit.Degrees)]
    public void Each_way_of_writing_is_found_and_read(string table, ColumnSeparator separator, bool decimalComma, PhaseUnit phaseUnit)
    {
        var file = Encoding.UTF8.GetBytes(table);

        var layout = ResponseTable.Propose(file).Layout!;
        var response = ResponseTable.Read(file, layout).Response!;

        Assert.Equal((separator, decimalComma, phaseUnit, (int?)2), (layout.Separator, layout.DecimalComma, layout.PhaseUnit, layout.PhaseColumn));
        Assert.Equal([20, 200, 2000], response.Hertz);
        Assert.Equal([71.5, 80.25, 78], response.Decibels);
        Assert.Equal(Math.PI / 4, response.PhaseRadians![1], 1e-8);
        Assert.Empty(response.Validate());
    }

    [Fact]
    public void Kilohertz_are_told_by_the_title_or_guessed_by_size_and_asked_about()
    {
        var titled = ResponseTable.Propose("f [kHz]\tlevel [dB]\n0.02\t70\n0.2\t71\n20\t60\n"u8);
        var bare = ResponseTable.Propose("0.02 70\n0.2 71\n20 60\n"u8);

        Assert.Equal(FrequencyUnit.Kilohertz, titled.Layout!.FrequencyUnit);
        Assert.Empty(titled.Questions);
        Assert.Equal(FrequencyUnit.Kilohertz, bare.Layout!.FrequencyUnit);
        Assert.Contains(bare.Questions, question => question.Contains("kHz was taken by the size", StringComparison.Ordinal));
        Assert.Equal([20, 200, 20_000], ResponseTable.Read("0.02 70\n0.2 71\n20 60\n"u8, bare.Layout).Response!.Hertz);
    }

    [Fact]
    public void Columns_in_another_order_are_found_by_their_titles()
    {
        var layout = ResponseTable.Propose("n,Phase (deg),SPL,Frequency (Hz)\n1,10,80,100\n2,20,81,200\n3,30,82,400\n"u8).Layout!;

        Assert.Equal((3, 2, (int?)1), (layout.FrequencyColumn, layout.LevelColumn, layout.PhaseColumn));
    }

    [Fact]
    public void Utf16_and_a_byte_order_mark_are_read()
    {
        byte[] file = [0xFF, 0xFE, .. Encoding.Unicode.GetBytes("20\t70\n200\t71\n")];
        byte[] marked = [0xEF, 0xBB, 0xBF, .. "20\t70\n200\t71\n"u8];

        Assert.Equal([70, 71], ResponseTable.Read(file, ResponseTable.Propose(file).Layout!).Response!.Decibels);
        Assert.Equal([70, 71], ResponseTable.Read(marked, ResponseTable.Propose(marked).Layout!).Response!.Decibels);
    }

    [Theory]
    [InlineData("20 70\n30 abc\n40 72\n", 2, "Line 2: the level “abc” is not a number with a decimal point.")]
    [InlineData("20 70\n30\n40 72\n", 2, "Line 2: there is no level; the line has 1 of 2 columns.")]
    [InlineData("20 70\n-30 71\n40 72\n", 2, "Line 2: the frequency “-30” is not accepted; enter 0.001 Hz to 1 MHz.")]
    [InlineData("20 70\n30 2000\n40 72\n", 2, "Line 2: the level “2000” is not accepted; enter −1000 to 1000 dB.")]
    [InlineData("20 70\n40 71\n30 72\n", 3, "Frequency 30 Hz in line 3 does not go on from 40 Hz in line 2; each must occur once and in order.")]
    [InlineData("* only\n", 0, "0 rows of numbers were found; at least 2 are needed.")]
    [InlineData("", 0, "The file is empty.")]
    public void What_cannot_be_read_is_named_by_line(string table, int line, string message)
    {
        var reading = ResponseTable.Read(Encoding.UTF8.GetBytes(table), new ResponseTableLayout { Separator = ColumnSeparator.Blanks });

        Assert.Null(reading.Response);
        Assert.Contains(new TableProblem(line, message), reading.Problems);
    }

    [Fact]
    public void A_row_at_0_Hz_is_left_out_and_problems_end_at_twenty()
    {
        var layout = new ResponseTableLayout { Separator = ColumnSeparator.Blanks };
        Assert.Equal([10, 20], ResponseTable.Read("0 60\n10 61\n20 62\n"u8, layout).Response!.Hertz);
        var bad = string.Concat(Enumerable.Range(1, 200).Select(n => $"{n} 70\n{n} x\n"));
        Assert.Equal(20, ResponseTable.Read(Encoding.UTF8.GetBytes(bad), layout).Problems.Count);
    }

    [Fact]
    public void A_file_beyond_the_limit_is_not_read()
    {
        Assert.Contains("at most 10 are taken", ResponseTable.Propose("20 70\n30 71\n"u8, 10).Problems[0].Message, StringComparison.Ordinal);
        Assert.Contains("at most 10 are taken", ResponseTable.Read("20 70\n30 71\n"u8, new ResponseTableLayout { Separator = ColumnSeparator.Blanks }, 10).Problems[0].Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_layout_that_contradicts_itself_is_refused()
    {
        Assert.Contains(new ResponseTableLayout { Separator = ColumnSeparator.Comma, DecimalComma = true }.Validate(), problem => problem.Field == "DecimalComma");
        Assert.Contains(new ResponseTableLayout { Separator = ColumnSeparator.Tab, PhaseColumn = 1 }.Validate(), problem => problem.Field == "LevelColumn");
        Assert.Throws<ArgumentOutOfRangeException>(() => ResponseTable.Read("20 70"u8, new ResponseTableLayout { Separator = ColumnSeparator.Tab, LevelColumn = 99 }));
    }

    [Fact]
    public void What_is_written_in_any_way_is_read_back() =>
        Gen.Select(Gen.Int[0, 5], Gen.Select(Gen.Double[0.001, 3], Gen.Double[-120, 140], Gen.Double[-179, 179]).Array[8, 60]).Sample(one =>
        {
            var (way, rows) = one;
            var (separator, comma) = new[] { ("\t", false), (";", false), (",", false), ("  ", false), (";", true), ("\t", true) }[way];
            string Cell(double value) => value.ToString("0.000000", CultureInfo.InvariantCulture).Replace('.', comma ? ',' : '.');
            var hertz = 20.0;
            var expected = rows.Select(row => (Hertz: Math.Round(hertz += row.Item1, 6), row.Item2, row.Item3)).ToList();
            var file = Encoding.UTF8.GetBytes($"Freq(Hz){separator}SPL(dB){separator}Phase(deg)\n" + string.Join('\n', expected.Select(row => string.Join(separator, Cell(row.Hertz), Cell(row.Item2), Cell(row.Item3)))));

            var response = ResponseTable.Read(file, ResponseTable.Propose(file).Layout!).Response!;

            Assert.Equal(expected.Count, response.Hertz.Count);
            for (var n = 0; n < expected.Count; n++)
            {
                Assert.Equal(expected[n].Hertz, response.Hertz[n], 1e-6);
                Assert.Equal(expected[n].Item2, response.Decibels[n], 1e-6);
                Assert.Equal(expected[n].Item3, response.PhaseRadians![n] * 180 / Math.PI, 1e-5);
            }
        }, iter: 300);

    [Fact]
    public void Random_bytes_and_cut_off_tables_never_crash()
    {
        var good = Encoding.UTF8.GetBytes("* Freq(Hz)\tSPL(dB)\tPhase(degrees)\n20\t71.5\t-170\n200\t80.25\t45\n2000\t78\t90\n");
        void Try(byte[] file)
        {
            var proposal = ResponseTable.Propose(file);
            Assert.True(proposal.Layout is null == proposal.Problems.Count > 0);
            var reading = ResponseTable.Read(file, proposal.Layout ?? new ResponseTableLayout { Separator = ColumnSeparator.Blanks });
            Assert.True(reading.Response is null == reading.Problems.Count > 0);
            Assert.Empty(reading.Response?.Validate() ?? []);
        }

        var alphabet = "0123456789.,;\t -+eE\n\r*#/\"naif"u8.ToArray();
        Gen.Byte.Array[0, 300].Sample(Try, iter: 3_000);
        // Bytes a table is made of, at random: most of them nearly tables.
        Gen.Int[0, alphabet.Length - 1].Select(n => alphabet[n]).Array[0, 400].Sample(Try, iter: 5_000);
        Gen.Int[0, good.Length].Sample(length => Try(good[..length]), iter: 200);
        Gen.Select(Gen.Int[0, good.Length - 1], Gen.Byte).Array[1, 8].Sample(changes =>
        {
            byte[] file = [.. good];
            foreach (var (at, value) in changes)
                file[at] = value;
            Try(file);
        }, iter: 3_000);
    }

    [Fact]
    public void A_calibration_is_taken_off_and_its_reach_is_said()
    {
        var measured = new FrequencyResponse([20, 1_000, 20_000], [80, 80, 80], null);
        var curve = new FrequencyResponse([20, 1_000, 10_000], [-3, 0, 2], null);

        var calibrated = MicrophoneCalibration.Apply(measured, curve);

        // A microphone 3 dB low at 20 Hz and 2 dB high at the top, held to 20 kHz.
        Assert.Equal([83, 80, 78], calibrated.Response.Decibels);
        Assert.Contains(calibrated.Findings, finding => finding.Code == "calibration-too-narrow");
    }
}
