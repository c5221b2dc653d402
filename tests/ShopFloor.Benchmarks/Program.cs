using BenchmarkDotNet.Running;

// Usage: dotnet run -c Release --project tests/ShopFloor.Benchmarks -- --job short --filter '*'
BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
