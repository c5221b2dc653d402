using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace ShopFloor.Engineering.Numerics;

/// <summary>The stages of a transform whose samples are in mirrored order, two stages at a time and two numbers at a time.</summary>
internal static class FftStages
{
    // Short blocks are finished before the next is begun, so that they stay in the cache.
    private const int Block = 1 << 12;

    public static void Combine(Span<Complex> data)
    {
        var block = Math.Min(Block, data.Length);
        var stages = BitOperations.Log2((uint)block);
        for (var start = 0; start < data.Length; start += block)
        {
            var piece = data.Slice(start, block);
            var m = 1;
            if (stages % 2 == 1)
            {
                Single(piece);
                m = 2;
            }

            for (; m < block; m *= 4)
                Double(piece, m);
        }

        var left = BitOperations.Log2((uint)data.Length) - stages;
        var wide = block;
        if (left % 2 == 1)
        {
            One(data, wide, FftFactors.Of(wide));
            wide *= 2;
        }

        for (; wide < data.Length; wide *= 4)
            Double(data, wide);
    }

    // The first stage has the factor 1 alone.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Single(Span<Complex> data)
    {
        for (var n = 0; n + 1 < data.Length; n += 2)
            (data[n], data[n + 1]) = (data[n] + data[n + 1], data[n] - data[n + 1]);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void One(Span<Complex> data, int m, Complex[] factors)
    {
        var numbers = MemoryMarshal.Cast<Complex, double>(data);
        ref var all = ref MemoryMarshal.GetReference(numbers);
        ref var turn = ref Unsafe.As<Complex, double>(ref MemoryMarshal.GetArrayDataReference(factors));
        for (var start = 0; start < data.Length; start += 2 * m)
        {
            for (var k = 0; k < m; k += 2)
            {
                ref var low = ref Unsafe.Add(ref all, 2 * (start + k));
                ref var high = ref Unsafe.Add(ref low, 2 * m);
                var (a, b) = (Vector256.LoadUnsafe(ref low), Times(Vector256.LoadUnsafe(ref high), Vector256.LoadUnsafe(ref Unsafe.Add(ref turn, 2 * k))));
                (a + b).StoreUnsafe(ref low);
                (a - b).StoreUnsafe(ref high);
            }
        }
    }

    private static void Double(Span<Complex> data, int m)
    {
        if (m == 1)
            Quarters(data);
        else
            Two(data, m, FftFactors.Of(m), FftFactors.Of(2 * m));
    }

    // Stages of 2 and 4: factors 1 and −i alone.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Quarters(Span<Complex> data)
    {
        for (var n = 0; n + 3 < data.Length; n += 4)
        {
            var (a, b, c, d) = (data[n] + data[n + 1], data[n] - data[n + 1], data[n + 2] + data[n + 3], data[n + 2] - data[n + 3]);
            var turned = new Complex(d.Imaginary, -d.Real);
            (data[n], data[n + 1], data[n + 2], data[n + 3]) = (a + c, b + turned, a - c, b - turned);
        }
    }

    // Stages m and 2m in one pass over the memory; the second's upper half has −i times the factors of its lower one.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Two(Span<Complex> data, int m, Complex[] first, Complex[] second)
    {
        var numbers = MemoryMarshal.Cast<Complex, double>(data);
        ref var all = ref MemoryMarshal.GetReference(numbers);
        ref var one = ref Unsafe.As<Complex, double>(ref MemoryMarshal.GetArrayDataReference(first));
        ref var two = ref Unsafe.As<Complex, double>(ref MemoryMarshal.GetArrayDataReference(second));
        var sign = Vector256.Create(1.0, -1, 1, -1);
        for (var start = 0; start < data.Length; start += 4 * m)
        {
            for (var k = 0; k < m; k += 2)
            {
                ref var x0 = ref Unsafe.Add(ref all, 2 * (start + k));
                ref var x1 = ref Unsafe.Add(ref x0, 2 * m);
                ref var x2 = ref Unsafe.Add(ref x1, 2 * m);
                ref var x3 = ref Unsafe.Add(ref x2, 2 * m);
                var (w1, w2) = (Vector256.LoadUnsafe(ref Unsafe.Add(ref one, 2 * k)), Vector256.LoadUnsafe(ref Unsafe.Add(ref two, 2 * k)));
                var (a, b) = (Vector256.LoadUnsafe(ref x0), Times(Vector256.LoadUnsafe(ref x1), w1));
                var (c, d) = (Vector256.LoadUnsafe(ref x2), Times(Vector256.LoadUnsafe(ref x3), w1));
                var (low, high) = (Times(c + d, w2), Vector256.Shuffle(Times(c - d, w2), Vector256.Create(1L, 0, 3, 2)) * sign);
                (a + b + low).StoreUnsafe(ref x0);
                (a - b + high).StoreUnsafe(ref x1);
                (a + b - low).StoreUnsafe(ref x2);
                (a - b - high).StoreUnsafe(ref x3);
            }
        }
    }

    // Two products of complex numbers: (ac − bd, ad + bc).
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Times(Vector256<double> x, Vector256<double> w)
    {
        var real = Vector256.Shuffle(w, Vector256.Create(0L, 0, 2, 2));
        var imaginary = Vector256.Shuffle(w, Vector256.Create(1L, 1, 3, 3)) * Vector256.Create(-1.0, 1, -1, 1);
        return x * real + Vector256.Shuffle(x, Vector256.Create(1L, 0, 3, 2)) * imaginary;
    }
}
