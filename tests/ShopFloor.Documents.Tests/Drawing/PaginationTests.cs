using CsCheck;
using ShopFloor.Documents.Drawing;

namespace ShopFloor.Documents.Tests.Drawing;

public sealed class PaginationTests
{
    private const float PageHeight = 100;

    private static readonly Gen<Strip> _strip =
        from height in Gen.Int[1, 60]
        from space in Gen.Int[0, 15]
        from hold in Gen.Enum<Hold>()
        from starts in Gen.Int[0, 20]
        from header in Gen.Bool
        select new Strip(height, (_, _, _) => { })
        {
            SpaceBefore = space,
            Hold = hold,
            StartsNewPage = starts == 0,
            RepeatedHeader = header ? new Strip(10, (_, _, _) => { }) : null,
        };

    [Fact]
    public void Every_strip_is_placed_once_in_order_and_inside_its_page()
    {
        _strip.List[0, 40].Sample(strips =>
        {
            var pages = Pagination.Paginate(strips, PageHeight);

            Assert.Equal(strips, pages.SelectMany(page => page).Select(placed => placed.Strip)
                .Where(strips.Contains), ReferenceEqualityComparer.Instance);
            foreach (var page in pages)
            {
                var used = 0f;
                foreach (var placed in page)
                {
                    Assert.True(placed.Top >= used);
                    used = placed.Top + placed.Strip.Height;
                }
                Assert.True(used <= PageHeight);
            }
        });
    }

    [Fact]
    public void Firm_neighbours_that_fit_on_a_page_share_one()
    {
        _strip.List[2, 40].Sample(strips =>
        {
            // Only pairs are held, so that every held run fits.
            for (var i = 0; i < strips.Count; i++)
                strips[i] = strips[i] with { Height = Math.Min(strips[i].Height, 30), RepeatedHeader = null,
                    Hold = i % 2 == 0 ? Hold.Firm : Hold.None };
            var pages = Pagination.Paginate(strips, PageHeight);
            int PageOf(Strip strip) => Enumerable.Range(0, pages.Count).Single(page => pages[page].Any(placed =>
                ReferenceEquals(placed.Strip, strip)));

            for (var i = 0; i + 1 < strips.Count; i += 2)
            {
                if (!strips[i + 1].StartsNewPage)
                    Assert.Equal(PageOf(strips[i]), PageOf(strips[i + 1]));
            }
        });
    }

    [Fact]
    public void Nothing_gives_one_empty_page()
    {
        Assert.Empty(Assert.Single(Pagination.Paginate([], PageHeight)));
    }
}
