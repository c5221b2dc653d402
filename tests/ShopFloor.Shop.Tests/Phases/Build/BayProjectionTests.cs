using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Build;

namespace ShopFloor.Shop.Tests.Phases.Build;

public sealed class BayProjectionTests
{
    private static readonly string[] MoneyWords = ["Cost", "Price", "Margin", "Budget", "Rate", "Tax", "Amount"];

    public static TheoryData<Type> SeenInTheBay => [typeof(WorkSheet), typeof(BoardPage), typeof(BoardCounts), typeof(RunningClock), typeof(TimeRow), typeof(PersonHours), typeof(PhotoRow)];

    [Theory]
    [MemberData(nameof(SeenInTheBay))]
    public void What_the_bay_sees_has_no_field_for_money(Type projection) => Assert.Empty(MoneyFieldsOf(projection));

    [Fact]
    public void The_search_for_money_can_find_some() => Assert.Contains("TimeEntry.CostPerHour", MoneyFieldsOf(typeof(TimeEntry)));

    private static List<string> MoneyFieldsOf(Type type)
    {
        var found = new List<string>();
        var seen = new HashSet<Type>();
        var waiting = new Queue<Type>([type]);
        while (waiting.TryDequeue(out var next))
        {
            if (!seen.Add(next))
            {
                continue;
            }

            foreach (var property in next.GetProperties())
            {
                if (MoneyWords.Any(word => property.Name.Contains(word, StringComparison.Ordinal)))
                {
                    found.Add($"{next.Name}.{property.Name}");
                }

                foreach (var inner in new[] { property.PropertyType }.Concat(property.PropertyType.GetGenericArguments()).Where(inner => inner.Namespace?.StartsWith("ShopFloor", StringComparison.Ordinal) == true))
                {
                    waiting.Enqueue(inner);
                }
            }
        }

        return found;
    }
}
