using System.Text;
using CsCheck;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Tests.Catalogue;

public sealed class CatalogueImportTests : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;
    private readonly TestShop _shop = new();

    private CatalogueImport Import => _shop.Get<CatalogueImport>();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Theory]
    [InlineData(",", false)]
    [InlineData(";", true)]
    [InlineData("\t", false)]
    public async Task Commas_semicolons_and_tabs_are_read_with_and_without_a_mark(string separator, bool mark)
    {
        var text = string.Join("\n", "kind,name,supplier,part_number,unit_price,rating_amperes", "fuse,Fuse 80 A,Nordhandel,F-80,12.50,80", "fuse,Fuse 100 A,Nordhandel,F-100,13,100")
            .Replace(",", separator, StringComparison.Ordinal);

        var done = (await Import.ImportAsync(_shop.Desk, Bytes((mark ? "\uFEFF" : "") + text), None)).Must();

        Assert.Equal((2, 0), (done.Added, done.Updated));
        var fuses = await PartsAsync();
        Assert.Equal([100, 80], fuses.Select(fuse => ((FuseData)fuse.Data).RatingAmperes!.Value).Order().Reverse());
        Assert.Equal(12.5m, fuses.Single(fuse => fuse.PartNumber == "F-80").UnitPrice);
    }

    [Fact]
    public async Task A_known_number_is_brought_up_to_date_and_empty_cells_leave_what_is_there()
    {
        await _shop.AddToCatalogueAsync(PartBuilder.Amplifier());

        var done = (await Import.ImportAsync(
            _shop.Desk, Bytes("kind,name,supplier,part_number,unit_price,unit_mass_kilograms\namplifier,,NORDHANDEL,a-4150,495,"), None)).Must();

        Assert.Equal((0, 1), (done.Added, done.Updated));
        var part = Assert.Single(await PartsAsync());
        Assert.Equal((495m, 310m, 3.2, "Four-channel amplifier"), (part.UnitPrice, part.UnitCost, part.UnitMassKilograms, part.Name));
        Assert.Equal(150, ((AmplifierData)part.Data).WattsAtFourOhms);
    }

    [Fact]
    public async Task One_bad_row_leaves_everything_as_it_was_and_every_bad_cell_is_named()
    {
        var file = Bytes(
            """
            kind,name,supplier,part_number,unit_price,rating_amperes,channels
            fuse,Good,Nordhandel,F-1,1,80,
            fuse,Comma,Nordhandel,F-2,"1,50",80,
            fuse,,Nordhandel,F-3,1,80,
            fuse,Stranger,Nordhandel,F-4,1,80,4
            toaster,Odd,Nordhandel,F-5,1,,
            fuse,Twice,Nordhandel,F-1,1,80,
            fuse,Huge,Nordhandel,F-6,1,5000,
            """);

        var preview = await Import.PreviewAsync(_shop.Desk, file, None);
        var outcome = await Import.ImportAsync(_shop.Desk, file, None);

        Assert.Equal(
            [(3, "unit_price"), (4, "name"), (5, "channels"), (6, "kind"), (7, "part_number"), (8, "rating_amperes")],
            preview.Problems.Select(problem => (problem.Line, problem.Column)));
        Assert.Contains("decimal point", preview.Problems[0].Message, StringComparison.Ordinal);
        Assert.Contains("5000", preview.Problems[5].Message, StringComparison.Ordinal);
        Assert.False(outcome.Succeeded);
        Assert.Empty(await PartsAsync());
    }

    [Theory]
    [InlineData("", "empty")]
    [InlineData("kind,name", "no rows")]
    [InlineData("name\nFuse", "column is missing")]
    [InlineData("kind,colour\nfuse,red", "No column")]
    [InlineData("kind,kind\nfuse,fuse", "twice")]
    [InlineData("kind,unit_cost\nfuse,3", "owner")]
    [InlineData("kind,name\nfuse,ab\"c", "quotation mark")]
    [InlineData("kind,name\nfuse,\"abc", "never closed")]
    [InlineData("kind,name\nfuse,a,b,c", "4 cells under 2 headers")]
    public async Task A_file_of_the_wrong_form_is_refused_in_plain_words(string text, string expected)
    {
        var preview = await Import.PreviewAsync(_shop.Desk, Bytes(text), None);

        Assert.Contains(expected, preview.Problems[0].Message, StringComparison.Ordinal);
        Assert.False(preview.CanImport);
    }

    [Fact]
    public void Files_too_large_too_long_or_not_text_are_refused()
    {
        Assert.Contains("KB", CatalogueFile.Read(new byte[CatalogueFile.MostBytes + 1], true).Problems[0].Message, StringComparison.Ordinal);
        Assert.Contains("UTF-8", CatalogueFile.Read(Encoding.Latin1.GetBytes("kind,name\nfuse,Größe"), true).Problems[0].Message, StringComparison.Ordinal);
        Assert.Contains("UTF-8", CatalogueFile.Read(Encoding.Unicode.GetBytes("kind,name\nfuse,A"), true).Problems[0].Message, StringComparison.Ordinal);
        var long_ = "kind,name\n" + string.Concat(Enumerable.Repeat("fuse,A\n", CatalogueFile.MostRows + 1));
        Assert.Contains("more than 5000 rows", CatalogueFile.Read(Bytes(long_), true).Problems[0].Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_cell_over_several_lines_keeps_later_lines_countable()
    {
        var preview = await Import.PreviewAsync(_shop.Desk, Bytes("kind,name,notes\nfuse,A,\"one\ntwo\nthree\"\n\nfuse,,x"), None);

        Assert.Equal((6, "name"), (preview.Problems[0].Line, preview.Problems[0].Column));
    }

    [Fact]
    public async Task What_is_given_out_can_be_brought_in_again_unchanged()
    {
        foreach (var kind in PartKinds.All)
        {
            await _shop.AddToCatalogueAsync(new PartFacts { Kind = kind.Kind, Name = $"{kind.Name}; \"one\", two", Supplier = "S", PartNumber = kind.Name, Data = kind.NewData(), UnitPrice = 1.25m, UnitMassKilograms = 0.1 + 0.2 });
        }

        await _shop.AddToCatalogueAsync(PartBuilder.Amplifier());
        var before = (await PartsAsync()).ConvertAll(Facts);
        var file = await Import.ExportAsync(_shop.Owner, null, None);

        var preview = await Import.PreviewAsync(_shop.Owner, file, None);
        Assert.Empty(preview.Problems);
        Assert.Equal((0, before.Count), (preview.Added, preview.Updated));
        (await Import.ImportAsync(_shop.Owner, file, None)).Must();

        Assert.Equal(before, (await PartsAsync()).ConvertAll(Facts));
    }

    [Theory]
    [InlineData("=HYPERLINK(\"http://x\")")]
    [InlineData("+1")]
    [InlineData("-1")]
    [InlineData("@cmd")]
    public async Task Text_a_spreadsheet_would_run_is_disarmed_on_the_way_out_and_whole_again_on_the_way_in(string name)
    {
        await _shop.AddToCatalogueAsync(new PartFacts { Name = name, Supplier = "S", PartNumber = "1" });

        var file = await Import.ExportAsync(_shop.Owner, null, None);

        var cell = CatalogueFile.Read(file, true).Rows[0].Cells["name"];
        Assert.DoesNotContain("," + name[0], Encoding.UTF8.GetString(file), StringComparison.Ordinal);
        Assert.Contains("'" + name[0], Encoding.UTF8.GetString(file), StringComparison.Ordinal);
        Assert.Equal(name, cell);
    }

    [Fact]
    public async Task Files_of_the_front_desk_hold_no_cost_and_technicians_get_none()
    {
        await _shop.AddToCatalogueAsync(PartBuilder.Amplifier());

        var header = Encoding.UTF8.GetString(await Import.ExportAsync(_shop.Desk, null, None)).Split('\n')[0];
        Assert.DoesNotContain("unit_cost", header, StringComparison.Ordinal);
        Assert.Contains("unit_price", header, StringComparison.Ordinal);
        await Assert.ThrowsAsync<NotAllowedException>(() => Import.ExportAsync(_shop.Technician, null, None));
        Assert.Throws<NotAllowedException>(() => CatalogueImport.Template(_shop.Technician, PartKind.Fuse));
    }

    [Fact]
    public void Every_kinds_template_has_exactly_the_columns_that_are_described()
    {
        foreach (var kind in PartKinds.All)
        {
            var header = Encoding.UTF8.GetString(CatalogueImport.Template(_shop.Owner, kind.Kind)).TrimStart('\uFEFF').TrimEnd();
            Assert.Equal(
                CatalogueColumn.Common.Select(column => column.Key).Concat(CatalogueColumn.Technical(kind.Kind).Select(column => column.Field.Key)),
                header.Split(','));
        }
    }

    [Fact]
    public void Whatever_bytes_come_nothing_breaks_and_nothing_is_half_read()
    {
        // Random bytes, and random text from the characters that matter to the format.
        var bytes = Gen.Byte.Array[0, 400];
        var text = Gen.OneOf<string>("kind", "name", "fuse", ",", ";", "\t", "\"", "'", "=", "\n", "\r\n", "\0", "\uFEFF", "80", "rating_amperes", "ü", "unit_mass_kilograms", "NaN", "1e999", "-1")
            .Array[0, 60].Select(parts => Encoding.UTF8.GetBytes("kind,name,rating_amperes,unit_mass_kilograms\n" + string.Concat(parts)));

        Gen.OneOf(bytes, text).Sample(
            sample =>
            {
                var file = CatalogueFile.Read(sample, mayCost: true);
                Assert.True(file.Problems.Count > 0 || file.Rows.Count > 0);
                Assert.All(file.Rows, row => Assert.True(row.Line >= 1));
            },
            iter: 5_000);
    }

    [Fact]
    public async Task Whatever_text_comes_the_catalogue_takes_only_sound_parts()
    {
        var text = Gen.OneOf<string>("fuse", "amplifier", "cable", ",", "\"", "80", "\n", "NaN", "Infinity", "1e999", "-1", "0x10", "1,5", "'=1", "d", "0").Array[0, 60]
            .Select(parts => Encoding.UTF8.GetBytes("kind,name,rating_amperes,unit_mass_kilograms,class,channels\n" + string.Concat(parts)));

        await text.SampleAsync(
            async sample =>
            {
                var outcome = await Import.ImportAsync(_shop.Owner, sample, None);
                Assert.True(outcome.Succeeded || outcome.Problems.Count > 0);
            },
            iter: 300,
            threads: 1);

        Assert.All(await PartsAsync(), part => Assert.Empty(part.Problems()));
    }

    private static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);

    private static string Facts(CataloguePart part) =>
        string.Join('|', part.Kind, part.Name, part.Supplier, part.PartNumber, part.Unit, part.UnitCost, part.UnitPrice, part.UnitMassKilograms, part.Data, part.Notes);

    private Task<List<CataloguePart>> PartsAsync() => _shop.Store.ReadAsync(db => db.CatalogueParts.OrderBy(part => part.Id).ToListAsync(), None);
}
