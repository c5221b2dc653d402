using System.Reflection;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Design;
using ShopFloor.Shop.Phases.Parts;

namespace ShopFloor.Shop.Tests.Jobs;

/// <summary>What technicians are given holds no money at all, however deep one looks.</summary>
public sealed class NoMoneyForTechniciansTests
{
    [Theory]
    [InlineData(typeof(PartRow))]
    [InlineData(typeof(CatalogueRow))]
    [InlineData(typeof(CatalogueRows))]
    [InlineData(typeof(PartNeed))]
    [InlineData(typeof(SupplierNeeds))]
    [InlineData(typeof(LatePart))]
    [InlineData(typeof(ElectricalPlanView))]
    [InlineData(typeof(WeightPlanView))]
    public void A_projection_everybody_sees_has_no_money_in_it(Type projection) => Assert.Empty(MoneyIn(projection));

    [Fact]
    public void The_search_for_money_finds_it_where_it_is()
    {
        Assert.NotEmpty(MoneyIn(typeof(PartMoneyRow)));
        Assert.NotEmpty(MoneyIn(typeof(PartForm)));
        Assert.NotEmpty(MoneyIn(typeof(List<PartCostRow>)));
    }

    private static List<string> MoneyIn(Type root)
    {
        var found = new List<string>();
        var seen = new HashSet<Type>();
        Look(root, root.Name);
        return found;

        void Look(Type type, string path)
        {
            type = Nullable.GetUnderlyingType(type) ?? type;
            foreach (var argument in type.IsGenericType ? type.GetGenericArguments() : [])
            {
                Look(argument, path);
            }

            if (!(type.Namespace ?? "").StartsWith("ShopFloor", StringComparison.Ordinal) || !seen.Add(type))
            {
                return;
            }

            foreach (var property in type.GetProperties(BindingFlags.Public | BindingFlags.Instance))
            {
                var named = new[] { "Price", "Cost", "Margin", "Money", "Net", "Total" }.Any(word => property.Name.Contains(word, StringComparison.Ordinal));
                var amount = (Nullable.GetUnderlyingType(property.PropertyType) ?? property.PropertyType) == typeof(decimal);
                if (amount && (named || property.Name != nameof(PartRow.Quantity)))
                {
                    found.Add($"{path}.{property.Name}");
                }

                Look(property.PropertyType, $"{path}.{property.Name}");
            }
        }
    }
}
