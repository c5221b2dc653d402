using BenchmarkDotNet.Attributes;
using ShopFloor.Engineering.Responses;
using ShopFloor.Engineering.Tuning.Analysis;
using ShopFloor.Engineering.Tuning.Measurements;

namespace ShopFloor.Benchmarks;

/// <summary>A sweep of 10 s at 96 kHz and half a second of silence: 1,008,000 samples.</summary>
public class SweepBenchmarks
{
    private SweepRecording _recording = null!;
    private ImpulseResponse _impulse = null!;

    [GlobalSetup]
    public void Record()
    {
        var sweep = new ExponentialSweep { Seconds = 10, SampleRateHertz = 96_000 };
        double[] played = sweep.Samples();
        var recorded = new double[played.Length + 48_000];
        for (var n = 0; n < played.Length; n++)
        {
            recorded[n + 240] += 0.5 * played[n] + 0.01 * played[n] * played[n];
            recorded[n + 400] -= 0.2 * played[n];
        }

        _recording = new SweepRecording { Sweep = sweep, Recorded = recorded };
        _impulse = SweepDeconvolution.Compute(_recording).Impulse;
    }

    [Benchmark]
    public SweepResult Deconvolved() => SweepDeconvolution.Compute(_recording);

    [Benchmark]
    public ArrivalResult Timed() => Arrival.Compute(new ArrivalInput { Response = _impulse });
}
