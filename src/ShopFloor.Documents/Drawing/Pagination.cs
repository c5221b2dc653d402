namespace ShopFloor.Documents.Drawing;

/// <summary>A strip and where it begins below the top of the text area.</summary>
internal sealed record PlacedStrip(Strip Strip, float Top);

/// <summary>Deals strips out to pages of one height.</summary>
internal sealed class Pagination
{
    private readonly float _height;
    private readonly List<List<PlacedStrip>> _pages = [new()];
    private float _used;

    private Pagination(float height)
    {
        _height = height;
    }

    private List<PlacedStrip> Page => _pages[^1];

    /// <summary>Always at least one page, which may be empty.</summary>
    public static IReadOnlyList<IReadOnlyList<PlacedStrip>> Paginate(IReadOnlyList<Strip> strips, float height)
    {
        var pagination = new Pagination(height);
        var next = 0;
        while (next < strips.Count)
            next += pagination.Place(strips, next);
        return pagination._pages;
    }

    /// <summary>Places one run of strips that belong together and returns how many that were.</summary>
    private int Place(IReadOnlyList<Strip> strips, int first)
    {
        if (strips[first].StartsNewPage && Page.Count > 0)
            NewPage();
        foreach (var hold in (Hold[])[Hold.Together, Hold.Firm])
        {
            var run = Run(strips, first, hold);
            if (_used + HeightOf(run, Page.Count == 0) > _height)
            {
                if (HeightOf(run, onFreshPage: true) > _height)
                    continue;
                NewPage();
            }
            foreach (var strip in run)
                Put(strip);
            return run.Count;
        }
        var single = strips[first];
        if (Page.Count > 0 && _used + single.SpaceBefore + single.Height > _height)
            NewPage();
        Put(single);
        return 1;
    }

    private static List<Strip> Run(IReadOnlyList<Strip> strips, int first, Hold atLeast)
    {
        var run = new List<Strip> { strips[first] };
        while (run[^1].Hold >= atLeast && first + run.Count < strips.Count && !strips[first + run.Count].StartsNewPage)
            run.Add(strips[first + run.Count]);
        return run;
    }

    private static float HeightOf(List<Strip> run, bool onFreshPage)
    {
        var height = run.Sum(strip => strip.SpaceBefore + strip.Height);
        return onFreshPage ? height - run[0].SpaceBefore + (run[0].RepeatedHeader?.Height ?? 0) : height;
    }

    private void NewPage()
    {
        _pages.Add([]);
        _used = 0;
    }

    private void Put(Strip strip)
    {
        if (Page.Count == 0 && strip.RepeatedHeader is { } header)
        {
            Page.Add(new PlacedStrip(header, 0));
            _used = header.Height;
        }
        else if (Page.Count > 0)
        {
            _used += strip.SpaceBefore;
        }
        Page.Add(new PlacedStrip(strip, _used));
        _used += strip.Height;
    }
}
