using ShopFloor.Documents.Drawing;
using ShopFloor.Shop.Money;

namespace ShopFloor.Documents;

/// <summary>The paper a shop prints on.</summary>
public static class PaperSizes
{
    public static PaperSize Of(Letterhead letterhead)
    {
        ArgumentNullException.ThrowIfNull(letterhead);
        return letterhead.LetterPaper ? PaperSize.Letter : PaperSize.A4;
    }
}
