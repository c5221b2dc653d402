using System.Collections.Concurrent;
using System.Text.Json;
using ShopFloor.Engineering.Fabrication.Nesting;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Shop.Phases.Design;

/// <summary>How far a search is.</summary>
/// <param name="Done">Materials laid out.</param>
/// <param name="Of">Materials in all.</param>
/// <param name="Name">The material in work; empty at the end.</param>
public sealed record CutProgress(int Done, int Of, string Name);

/// <summary>
/// Lays cut lists out away from the caller's thread, one material after the other, and keeps what was found: the same list gives the same
/// layout, so a second look, a paper and the parts list wait for nothing.
/// </summary>
public sealed class CutLayouts
{
    private const int MostKept = 200;
    private readonly ConcurrentDictionary<string, NestingResult> _kept = new();

    /// <summary>Tells inputs and readers apart. Texts are in units and culture of the reader: a number with its unit tells both.</summary>
    public static string KeyOf(NestingInput input, UnitText text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.Millimeters(1.2345) + JsonSerializer.Serialize(input);
    }

    /// <param name="input">A list without problems.</param>
    public async Task<NestingResult> FindAsync(NestingInput input, UnitText text, IProgress<CutProgress>? progress, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(text);
        var materials = input.Parts.GroupBy(part => (part.MaterialId, part.ThicknessMeters)).ToList();
        var found = new List<NestingResult>();
        foreach (var group in materials)
        {
            progress?.Report(new CutProgress(found.Count, materials.Count, group.Key.MaterialId));
            found.Add(await OneAsync(input with { Parts = [.. group], Stock = [.. input.Stock.Where(sheet => sheet.MaterialId == group.Key.MaterialId)] }, text, cancellationToken));
        }

        progress?.Report(new CutProgress(found.Count, materials.Count, ""));
        return new NestingResult([.. found.SelectMany(each => each.Materials)], [.. found.SelectMany(each => each.Findings).OrderByDescending(finding => finding.Severity)]);
    }

    private async Task<NestingResult> OneAsync(NestingInput input, UnitText text, CancellationToken cancellationToken)
    {
        var key = KeyOf(input, text);
        if (_kept.TryGetValue(key, out var known))
        {
            return known;
        }

        var found = await Task.Run(() => SheetNesting.Compute(input, text, cancellationToken), cancellationToken);
        if (_kept.Count >= MostKept)
        {
            _kept.Clear();
        }

        return _kept[key] = found;
    }
}
