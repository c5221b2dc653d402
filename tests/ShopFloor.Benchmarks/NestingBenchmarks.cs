using BenchmarkDotNet.Attributes;
using ShopFloor.Engineering.Fabrication.Nesting;
using ShopFloor.Engineering.Tests.Fabrication;

namespace ShopFloor.Benchmarks;

/// <summary>A cut list of enclosure boards on sheets of 2440 × 1220 mm: small ones are solved exactly, large ones searched.</summary>
public class NestingBenchmarks
{
    private NestingInput _input = null!;

    /// <summary>Parts.</summary>
    [Params(10, 60, 500)]
    public int Parts { get; set; }

    [GlobalSetup]
    public void Build() => _input = new NestingInput
    {
        // Sizes by a fixed rule, spread over 90 to 890 mm.
        Parts = [.. Enumerable.Range(0, Parts / 2).Select(n => CutLists.Part($"p{n}", 90 + n * 347 % 800, 80 + n * 211 % 520, 2))],
        Stock = [CutLists.Sheet(2440, 1220)],
        TrimMeters = 0.01,
    };

    [Benchmark]
    public NestingResult Nest() => SheetNesting.Compute(_input);
}
