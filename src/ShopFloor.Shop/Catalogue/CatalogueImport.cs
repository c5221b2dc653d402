using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff;
using ShopFloor.Shop.Storage;

namespace ShopFloor.Shop.Catalogue;

/// <summary>
/// Brings a supplier's list into the catalogue and gives it out again. A file is taken whole or not at all:
/// one bad row leaves everything as it was, and every bad row is named.
/// </summary>
public sealed class CatalogueImport(ShopStore store)
{
    /// <summary>Says what a file would do, without doing it.</summary>
    public Task<ImportPreview> PreviewAsync(Actor actor, ReadOnlyMemory<byte> file, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return store.ReadAsync(db => PlanAsync(db, actor, file, cancellationToken), cancellationToken);
    }

    public async Task<Outcome<ImportPreview>> ImportAsync(Actor actor, ReadOnlyMemory<byte> file, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return await store.WriteAsync<ImportPreview>(
            actor,
            async db =>
            {
                var plan = await PlanAsync(db, actor, file, cancellationToken);
                if (!plan.CanImport)
                {
                    return plan.Problems.Select(problem => new Problem(problem.Column, $"Line {problem.Line}: {problem.Message}")).ToList();
                }

                foreach (var (part, facts) in plan.Work)
                {
                    if (part is null)
                    {
                        db.CatalogueParts.Add(new CataloguePart(facts));
                    }
                    else
                    {
                        part.Apply(facts);
                    }
                }

                return plan;
            },
            cancellationToken);
    }

    /// <summary>An empty file with the columns of one kind.</summary>
    public static byte[] Template(Actor actor, PartKind kind)
    {
        actor.Demand(Permission.DesignJobs);
        return CatalogueExport.Write([], [kind], actor.May(Permission.SeePrices), actor.May(Permission.SeeCosts));
    }

    /// <summary>The catalogue, or one kind of it, as a file that can be brought in again.</summary>
    public Task<byte[]> ExportAsync(Actor actor, PartKind? kind, CancellationToken cancellationToken)
    {
        actor.Demand(Permission.DesignJobs);
        return store.ReadAsync(
            async db =>
            {
                var parts = await db.CatalogueParts
                    .Where(part => kind == null || part.Kind == kind)
                    .OrderBy(part => part.SearchText).ThenBy(part => part.Id)
                    .ToListAsync(cancellationToken);
                IReadOnlyList<PartKind> kinds = kind is { } one ? [one] : [.. Enum.GetValues<PartKind>().Where(any => parts.Exists(part => part.Kind == any))];
                return CatalogueExport.Write(parts, kinds, actor.May(Permission.SeePrices), actor.May(Permission.SeeCosts));
            },
            cancellationToken);
    }

    private static async Task<ImportPreview> PlanAsync(ShopDbContext db, Actor actor, ReadOnlyMemory<byte> bytes, CancellationToken cancellationToken)
    {
        var file = CatalogueFile.Read(bytes, actor.May(Permission.SeeCosts));
        var problems = new List<CatalogueFileProblem>(file.Problems);
        var work = new List<(CataloguePart? Part, PartFacts Facts)>();
        var known = (await db.CatalogueParts.Where(part => part.Supplier != "" && part.PartNumber != "").ToListAsync(cancellationToken))
            .GroupBy(part => KeyOf(part.Supplier, part.PartNumber))
            .ToDictionary(group => group.Key, group => group.First());
        var seen = new Dictionary<string, int>();
        foreach (var row in file.Rows)
        {
            if (problems.Count >= CatalogueFile.MostProblems)
            {
                break;
            }

            if (Take(row, known, seen, problems) is { } taken)
            {
                work.Add(taken);
            }
        }

        return new ImportPreview(
            work.Count(item => item.Part is null),
            work.Count(item => item.Part is not null),
            work.Count(item => item.Part is null && (item.Facts.Supplier.Length == 0 || item.Facts.PartNumber.Length == 0)),
            problems) { Work = work };
    }

    private static (CataloguePart? Part, PartFacts Facts)? Take(
        CatalogueFileRow row, Dictionary<string, CataloguePart> known, Dictionary<string, int> seen, List<CatalogueFileProblem> problems)
    {
        var before = problems.Count;
        void Report(string column, string message) => problems.Add(new CatalogueFileProblem(row.Line, column, message));

        var kindText = row.Cells.GetValueOrDefault(CatalogueColumn.KindKey, "");
        if (kindText.Length == 0 || !CatalogueColumn.TryChoice<PartKind>(kindText, out var kind))
        {
            Report(CatalogueColumn.KindKey, $"'{kindText}' is not one of {string.Join(", ", Enum.GetNames<PartKind>().Select(CatalogueColumn.Snake))}.");
            return null;
        }

        var key = KeyOf(row.Cells.GetValueOrDefault("supplier", ""), row.Cells.GetValueOrDefault("part_number", ""));
        CataloguePart? part = null;
        if (key.Length > 0)
        {
            if (!seen.TryAdd(key, row.Line))
            {
                Report("part_number", $"The same supplier and number stand on line {seen[key]}.");
            }

            part = known.GetValueOrDefault(key);
            if (part is not null && part.Kind != kind)
            {
                Report(CatalogueColumn.KindKey, $"{part.Supplier} {part.PartNumber} is in the catalogue as {PartKinds.Of(part.Kind).Name.ToLowerInvariant()}.");
                return null;
            }
        }

        var facts = part is null
            ? new PartFacts { Kind = kind, Unit = PartKinds.Of(kind).Unit, Data = PartData.Empty(kind) }
            : PartFacts.CopyOf(part);
        foreach (var column in CatalogueColumn.Common)
        {
            if (row.Cells.GetValueOrDefault(column.Key, "") is { Length: > 0 } text && column.Read(facts, text) is { } wrong)
            {
                Report(column.Key, wrong);
            }
        }

        ReadTechnical(row, facts, Report);
        if (problems.Count == before)
        {
            foreach (var problem in facts.Problems())
            {
                Report(ColumnOf(problem.Field, kind), problem.Message);
            }
        }

        return problems.Count == before ? (part, facts) : null;
    }

    private static void ReadTechnical(CatalogueFileRow row, PartFacts facts, Action<string, string> report)
    {
        var fields = PartKinds.Of(facts.Kind).Fields.ToDictionary(field => field.Key);
        var common = CatalogueColumn.Common.Select(column => column.Key).ToHashSet();
        foreach (var (header, text) in row.Cells.Where(cell => cell.Value.Length > 0 && !common.Contains(cell.Key)))
        {
            if (!fields.TryGetValue(header, out var field))
            {
                report(header, $"{PartKinds.Of(facts.Kind).Plural} have no such column; leave the cell empty.");
            }
            else if (field.Read(facts.Data, text) is { } wrong)
            {
                report(header, wrong);
            }
        }
    }

    private static string ColumnOf(string property, PartKind kind) =>
        PartKinds.Of(kind).Fields.FirstOrDefault(field => field.Name == property)?.Key ?? CatalogueColumn.Snake(property);

    private static string KeyOf(string supplier, string number) =>
        supplier.Trim() is { Length: > 0 } who && number.Trim() is { Length: > 0 } which
            ? $"{who.ToUpperInvariant()}\n{which.ToUpperInvariant()}"
            : "";
}

/// <summary>What a file would do, or did.</summary>
/// <param name="Added">New parts.</param>
/// <param name="Updated">Parts found by supplier and number; empty cells leave what is there.</param>
/// <param name="WithoutNumber">New parts that cannot be found again by supplier and number, so a second import adds them once more.</param>
/// <param name="Problems">Everything wrong, by line and column; a file with any is not taken.</param>
public sealed record ImportPreview(int Added, int Updated, int WithoutNumber, IReadOnlyList<CatalogueFileProblem> Problems)
{
    public bool CanImport => Problems.Count == 0 && Work.Count > 0;

    internal IReadOnlyList<(CataloguePart? Part, PartFacts Facts)> Work { get; init; } = [];
}
