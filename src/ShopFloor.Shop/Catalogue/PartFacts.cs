using System.ComponentModel.DataAnnotations;
using ShopFloor.Shop.Common;

namespace ShopFloor.Shop.Catalogue;

/// <summary>What is known of a part wherever it stands: in the catalogue or on a job. Also the form for it.</summary>
public class PartFacts
{
    [Display(Name = "Kind")]
    public PartKind Kind { get; set; } = PartKind.Accessory;

    [Display(Name = "Name")]
    public string Name { get; set; } = "";

    [Display(Name = "Supplier")]
    public string Supplier { get; set; } = "";

    [Display(Name = "Supplier's number")]
    public string PartNumber { get; set; } = "";

    [Display(Name = "Counted in")]
    public PartUnit Unit { get; set; }

    [Display(Name = "Our cost per unit")]
    public decimal? UnitCost { get; set; }

    [Display(Name = "Price per unit")]
    public decimal? UnitPrice { get; set; }

    [Display(Name = "Mass per unit (kg)")]
    public double? UnitMassKilograms { get; set; }

    [Display(Name = "Technical data")]
    public PartData Data { get; set; } = new AccessoryData();

    [Display(Name = "Notes")]
    public string Notes { get; set; } = "";

    public virtual List<Problem> Problems()
    {
        var check = new Check()
            .Required(Name, nameof(Name), "The part's name")
            .Longest(Supplier, nameof(Supplier), "The supplier", Limits.Name)
            .Longest(PartNumber, nameof(PartNumber), "The supplier's number", Limits.Name)
            .Longest(Notes, nameof(Notes), "The note", Limits.Note)
            .Range(UnitCost, nameof(UnitCost), "The cost", 0, 1_000_000, "")
            .Range(UnitPrice, nameof(UnitPrice), "The price", 0, 1_000_000, "")
            .Range(UnitMassKilograms, nameof(UnitMassKilograms), "The mass", 0, 1_000, "kg")
            .That(Data.Kind == Kind, nameof(Data), $"The technical data are of a {Data.Kind}, the part is a {Kind}.");
        check.Problems.AddRange(Data.Problems());
        return check.Problems;
    }

    public static PartFacts CopyOf(PartFacts other)
    {
        var copy = new PartFacts();
        copy.CopyFrom(other);
        return copy;
    }

    protected void CopyFrom(PartFacts other)
    {
        Kind = other.Kind;
        Name = other.Name.Trim();
        Supplier = other.Supplier.Trim();
        PartNumber = other.PartNumber.Trim();
        Unit = other.Unit;
        UnitCost = other.UnitCost;
        UnitPrice = other.UnitPrice;
        UnitMassKilograms = other.UnitMassKilograms;
        Data = other.Data.Copy();
        Notes = other.Notes.Trim();
    }
}
