using ShopFloor.Documents.Fabrication;
using ShopFloor.Documents.Tests.Drawing;
using ShopFloor.Engineering.Fabrication.Nesting;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Money;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Documents.Tests.Fabrication;

/// <summary>Papers of what is made by hand, read back.</summary>
public sealed class FabricationPapersTests
{
    private static readonly Letterhead Head = new("Shop", [], LetterPaper: false, UnitSystem.Metric, "UTC");
    private static readonly ShelfMaterial Birch = new(Guid.CreateVersion7(), "Birch", 0.012, 8.16, "Wood dust: mask on.", OnList: true);

    [Fact]
    public void The_cut_list_has_its_parts_its_sheets_and_a_box_for_every_cut()
    {
        var form = new CutListForm
        {
            Parts = [new CutRow { Name = "Side", MaterialId = Birch.Id, Quantity = 2, LengthMeters = 0.6, WidthMeters = 0.4 }],
            Stock = [new SheetRow { MaterialId = Birch.Id, LengthMeters = 1.25, WidthMeters = 1.25 }],
        };
        var basis = CutListMapping.Map(form, [Birch], UnitText.Invariant);
        var view = CutListMapping.ViewOf(basis, SheetNesting.Compute(basis.Input));

        using var pdf = DrawnPdf.Of(CutListDocument.Compose(new CutListSheet(Head, "J-0007", "Boot", "Estate", [("Boot floor", form, basis, view)])));
        var words = pdf.Text.Replace('\u00a0', ' ');

        Assert.Equal(2, pdf.Pages.Count);
        Assert.Contains("1 Side", words, StringComparison.Ordinal);
        Assert.Contains("1 sheet, proven least", words, StringComparison.Ordinal);
        Assert.Contains("mask on", words, StringComparison.Ordinal);
        Assert.All(view.Result.Materials[0].Sheets[0].Cuts, cut => Assert.Contains($"{cut.Step}. Cut", words, StringComparison.Ordinal));
    }

    [Fact]
    public void A_cut_list_that_cannot_be_laid_out_says_why_instead_of_a_sheet()
    {
        var form = new CutListForm { Parts = [new CutRow { Name = "Side", MaterialId = Birch.Id, LengthMeters = 0.6 }] };
        var basis = CutListMapping.Map(form, [Birch], UnitText.Invariant);

        using var pdf = DrawnPdf.Of(CutListDocument.Compose(new CutListSheet(Head, "J-0007", "Boot", "Estate", [("Boot floor", form, basis, null)])));

        Assert.Contains("length and width are needed", pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Templates_of_a_job_print_one_after_the_other_and_name_what_is_missing()
    {
        var driver = new LoudspeakerData { CutOutMillimeters = 110, OutsideMillimeters = 120 };
        var drawn = TemplateView.Of("Adapter", new TemplateForm(), driver, UnitText.Invariant);
        var open = TemplateView.Of("Grille", new TemplateForm(), null, UnitText.Invariant);

        using var pdf = DrawnPdf.Of(TemplateDocument.Compose(new TemplateSheet(Head, "J-0007", [(Guid.CreateVersion7(), "Adapter", drawn), (Guid.CreateVersion7(), "Grille", open)])));

        Assert.Equal(3, pdf.Pages.Count); // facts, drawing, what is missing
        Assert.Contains("Print at 100", pdf.Text, StringComparison.Ordinal);
        Assert.Contains("Still needed: cut-out diameter", pdf.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_treatment_sheet_says_what_stays_free_what_each_panel_gets_and_how_the_rattles_stand()
    {
        var butyl = new TreatmentProduct(Guid.CreateVersion7(), "Butyl", TreatmentProduct.KindOf("Damps panels"), 3.3, 0.5, 0.375, PartUnit.SquareMeter);
        var form = new TreatmentForm { Panels = [new TreatedPanelRow { Name = "Left door", SquareMeters = 0.8, Layers = [new TreatmentLayerRow { ProductId = butyl.Id }] }] };
        RattleRow gone = new() { Place = "Number plate", Hertz = 45, Remedies = [new RattleRemedy { Text = "Foam strip", StillHeard = false, PlayedBy = "Mila" }] };
        RattleRow open = new() { Place = "Shelf clip", Hertz = 63.5 };

        using var pdf = DrawnPdf.Of(TreatmentDocument.Compose(new TreatmentSheet(Head, "J-0007", "Boot", "Estate", [butyl], [("Doors", form, TreatmentView.Of(form, [butyl], UnitText.Invariant))], [gone, open])));
        var words = pdf.Text.Replace('\u00a0', ' ');

        Assert.Contains("Drain holes", words, StringComparison.Ordinal);
        Assert.Contains("50 % Butyl", words, StringComparison.Ordinal);
        Assert.Contains("3 sheets", words, StringComparison.Ordinal); // 0.4 m² and a tenth lost, of 0.1875 m² each
        Assert.Contains("1.32 kg", words, StringComparison.Ordinal);
        Assert.Contains("gone, Mila", words, StringComparison.Ordinal);
        Assert.Contains("nothing yet", words, StringComparison.Ordinal);
    }

    [Fact]
    public void The_composite_sheet_says_the_cautions_the_cups_and_what_to_get()
    {
        var form = new LaminateForm { SquareMeters = 0.5, HardenerParts = 30, PotLifeMinutes = 40, Layers = [new LaminateRow { Name = "Glass twill", Plies = 2 }] };

        using var pdf = DrawnPdf.Of(LaminateDocument.Compose(new LaminateSheet(Head, "J-0007", "Boot", "Estate", [("Trim", form, LaminateView.Of(form, UnitText.Invariant))])));

        Assert.Contains("Epoxy", pdf.Text, StringComparison.Ordinal);
        Assert.Contains("hardener", pdf.Text, StringComparison.Ordinal);
        Assert.Contains("Glass twill", pdf.Text, StringComparison.Ordinal);
        Assert.Contains("1.15", pdf.Text, StringComparison.Ordinal); // 2 plies on 0.5 m² with 15 % lost
    }
}
