using System.Reflection;
using System.Xml.Linq;
using NetArchTest.Rules;
using ShopFloor.Shop.Jobs;

namespace ShopFloor.Architecture.Tests;

/// <summary>Who may use whom. The same table stands in DEVELOPERS.md; a test compares the two.</summary>
public sealed class DependencyRules
{
    private static readonly Assembly[] Assemblies =
    [
        typeof(Engineering.Explained.Finding).Assembly,
        typeof(Job).Assembly,
        typeof(Documents.DocumentServices).Assembly,
        typeof(Program).Assembly,
    ];

    /// <summary>Areas of the calculations, which do not know each other; what they share knows none of them.</summary>
    private static readonly string[] Areas = ["Electrical", "Mass", "Signal", "Acoustics", "Fabrication", "Tuning"];

    public static TheoryData<string, string[]> Rules => new()
    {
        { "ShopFloor.Engineering", ["System.IO", "System.Net", "Microsoft", "ShopFloor.Shop", "ShopFloor.Documents", "ShopFloor.Web"] },
        { "ShopFloor.Engineering.Electrical", OthersThan("Electrical") },
        { "ShopFloor.Engineering.Mass", OthersThan("Mass") },
        { "ShopFloor.Engineering.Signal", OthersThan("Signal") },
        { "ShopFloor.Engineering.Acoustics", OthersThan("Acoustics") },
        { "ShopFloor.Engineering.Fabrication", OthersThan("Fabrication") },
        { "ShopFloor.Engineering.Tuning", OthersThan("Tuning") },
        { "ShopFloor.Engineering.Numerics", OthersThan("") },
        { "ShopFloor.Engineering.Responses", OthersThan("") },
        { "ShopFloor.Engineering.Geometry", OthersThan("") },
        { "ShopFloor.Engineering.Physics", OthersThan("") },
        { "ShopFloor.Engineering.Waves", OthersThan("") },
        { "ShopFloor.Shop", ["ShopFloor.Documents", "ShopFloor.Web", "MudBlazor", "Microsoft.AspNetCore.Components"] },
        { "ShopFloor.Documents", ["ShopFloor.Web", "Microsoft.EntityFrameworkCore", "MudBlazor"] },
        { "ShopFloor.Web.Components", ["ShopFloor.Shop", "Microsoft.EntityFrameworkCore"] },
        { "ShopFloor.Web.Phases", ["ShopFloor.Shop.Storage.ShopDbContext"] },
        { "ShopFloor.Web.Board", ["ShopFloor.Shop.Storage.ShopDbContext"] },
    };

    private static string[] OthersThan(string area) => [.. Areas.Where(other => other != area).Select(other => $"ShopFloor.Engineering.{other}")];

    [Theory]
    [MemberData(nameof(Rules))]
    public void Namespace_does_not_use(string from, string[] forbidden)
    {
        Assert.Empty(Offenders(from, forbidden));
    }

    [Fact]
    public void A_phase_never_uses_a_later_phase()
    {
        foreach (var project in new[] { "ShopFloor.Shop.Phases", "ShopFloor.Web.Phases" })
        {
            var phases = Enum.GetValues<JobPhase>();
            foreach (var (phase, at) in phases.Select((phase, at) => (phase, at)))
            {
                var later = phases[(at + 1)..].Select(other => $"ShopFloor.Shop.Phases.{other}").ToArray();
                if (later.Length > 0)
                {
                    Assert.Empty(Offenders($"{project}.{phase}", later));
                }
            }
        }
    }

    [Fact]
    public void Every_phase_has_its_folder_in_the_business_and_on_the_web()
    {
        foreach (var phase in Enum.GetValues<JobPhase>())
        {
            foreach (var project in new[] { "ShopFloor.Shop", "ShopFloor.Web" })
            {
                Assert.True(TypesIn($"{project}.Phases.{phase}").Any(), $"{project}.Phases.{phase} is empty");
            }
        }
    }

    [Fact]
    public void Project_references_run_one_way()
    {
        var order = new[] { "ShopFloor.Engineering", "ShopFloor.Shop", "ShopFloor.Documents", "ShopFloor.Web" };
        foreach (var project in Directory.GetDirectories(Path.Combine(Root(), "src"), "ShopFloor.*"))
        {
            var name = Path.GetFileName(project);
            Assert.Contains(name, order);
            var used = XDocument.Load(Path.Combine(project, name + ".csproj"))
                .Descendants("ProjectReference")
                .Select(reference => Path.GetFileNameWithoutExtension(reference.Attribute("Include")!.Value)); // every reference names its project
            Assert.All(used, other => Assert.True(Array.IndexOf(order, other) < Array.IndexOf(order, name), $"{name} uses {other}"));
        }
    }

    [Fact]
    public void The_checker_can_fail()
    {
        Assert.NotEmpty(Offenders("ShopFloor.Web", ["ShopFloor.Shop"]));
    }

    [Theory]
    [MemberData(nameof(Rules))]
    public void Every_rule_matches_some_types(string from, string[] forbidden)
    {
        Assert.NotEmpty(forbidden);
        Assert.NotEmpty(TypesIn(from));
    }

    internal static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "ShopFloor.sln")))
        {
            folder = folder.Parent ?? throw new InvalidOperationException("The tests do not run inside the repository.");
        }

        return folder.FullName;
    }

    private static IEnumerable<Type> TypesIn(string from) =>
        Assemblies.SelectMany(assembly => assembly.GetTypes())
            .Where(type => type.Namespace is { } name && (name == from || name.StartsWith(from + ".", StringComparison.Ordinal)));

    private static List<string> Offenders(string from, string[] forbidden)
    {
        var result = Types.InAssemblies(Assemblies).That().ResideInNamespace(from).ShouldNot().HaveDependencyOnAny(forbidden).GetResult();
        return result.IsSuccessful ? [] : [.. result.FailingTypes.Select(type => type.FullName)];
    }
}
