using System.Globalization;
using Microsoft.AspNetCore.Components;
using ShopFloor.Engineering.Units;

namespace ShopFloor.Web.Components;

/// <summary>
/// A quantity: kept in SI, shown and read in the user's units. Echoes what it understood in both systems, keeps what was
/// typed when it cannot be read, and accepts the other system's unit typed behind the number.
/// </summary>
public sealed partial class UnitField : IDisposable
{
    private readonly string _echoId = ElementIds.Next("echo");
    private CancellationTokenSource? _typing;
    private string _text = "";
    private string? _problem;
    private string _echo = "";
    private double? _shown;
    private UnitScale? _shownIn;

    /// <summary>Name of the field; also begins its messages.</summary>
    [Parameter, EditorRequired] public string Label { get; set; } = "";

    /// <summary>The value in SI, or null for an empty field.</summary>
    [Parameter] public double? Value { get; set; }

    /// <summary>Raised with the SI value once the text can be read and lies in range, or null when it is emptied.</summary>
    [Parameter] public EventCallback<double?> ValueChanged { get; set; }

    /// <summary>The metric unit; also used for everyone when <see cref="Us"/> is null, as with volts.</summary>
    [Parameter, EditorRequired] public UnitScale Metric { get; set; } = default!; // EditorRequired: the compiler asks for it.

    /// <summary>The US unit. Defaults to none.</summary>
    [Parameter] public UnitScale? Us { get; set; }

    /// <summary>More units that may be typed behind the number, such as cm. Defaults to none.</summary>
    [Parameter] public IReadOnlyList<UnitScale> Also { get; set; } = [];

    /// <summary>Least accepted value in SI. Defaults to no limit.</summary>
    [Parameter] public double? MinSi { get; set; }

    /// <summary>Greatest accepted value in SI. Defaults to no limit.</summary>
    [Parameter] public double? MaxSi { get; set; }

    /// <summary>What to enter and where to find it; the accepted range is told when a value lies outside it. Defaults to none.</summary>
    [Parameter] public string? Help { get; set; }

    /// <summary>A message from the page, shown when the field itself has none. Defaults to none.</summary>
    [Parameter] public string? Problem { get; set; }

    /// <summary>Whether it must be filled. Defaults to true.</summary>
    [Parameter] public bool Required { get; set; } = true;

    /// <summary>Whether only whole numbers of the SI unit are accepted, as with counts. Defaults to false.</summary>
    [Parameter] public bool Whole { get; set; }

    /// <summary>Whether it is locked. Defaults to false.</summary>
    [Parameter] public bool Disabled { get; set; }

    /// <summary>Key under which the typed text is mirrored on the device. Defaults to none.</summary>
    [Parameter] public string? DraftKey { get; set; }

    /// <summary>Name of the value in a command sent from the tablet; the text is sent as typed. Defaults to none.</summary>
    [Parameter] public string? OutboxField { get; set; }

    /// <summary>Pause in typing after which the value is read. Defaults to 300 ms.</summary>
    [Parameter] public int DebounceMilliseconds { get; set; } = 300;

    /// <summary>Something small beside the label, such as a Why button. Defaults to none.</summary>
    [Parameter] public RenderFragment? Beside { get; set; }

    [CascadingParameter] private UnitSystem Units { get; set; }

    [CascadingParameter] private FieldGate? Gate { get; set; }

    [Inject] private TimeProvider Clock { get; set; } = default!; // Set by the framework before first use.

    private UnitScale Scale => Units == UnitSystem.Us && Us is not null ? Us : Metric;

    private UnitScale? OtherScale => Us is null ? null : Scale == Us ? Metric : Us;

    private string? RangeText
    {
        get
        {
            var culture = CultureInfo.CurrentCulture;
            return (MinSi, MaxSi) switch
            {
                ({ } min, { } max) => $"{Scale.Number(min, culture)} to {Scale.Text(max, culture)}",
                ({ } min, null) => $"{Scale.Text(min, culture)} or more",
                (null, { } max) => $"up to {Scale.Text(max, culture)}",
                _ => null,
            };
        }
    }

    protected override void OnParametersSet()
    {
        // The text changes under the user's hands only for a value that did not come from this field, or for other units.
        if (Value == _shown && Scale == _shownIn)
            return;
        if (_problem is not null && Value == _shown)
        {
            _shownIn = Scale;
            return;
        }

        _shown = Value;
        _shownIn = Scale;
        _problem = null;
        Gate?.Tell(this, null);
        _text = Value is { } si ? Scale.Number(si, WithoutGrouping(CultureInfo.CurrentCulture)) : "";
        _echo = Echo(Value);
    }

    public void Dispose()
    {
        _typing?.Cancel();
        _typing?.Dispose();
    }

    // Bound, so that a slow server does not write an older text over keys typed meanwhile.
    private async Task TypedAsync(string? text)
    {
        _text = text ?? "";
        var still = StartPause();
        try
        {
            await Task.Delay(TimeSpan.FromMilliseconds(DebounceMilliseconds), Clock, still);
        }
        catch (OperationCanceledException)
        {
            return;
        }

        await ReadAsync();
    }

    private async Task CommitAsync(ChangeEventArgs change)
    {
        _text = change.Value as string ?? "";
        _ = StartPause();
        await ReadAsync();
    }

    // Ends the pause that runs, if any: only the last text typed is read.
    private CancellationToken StartPause()
    {
        _typing?.Cancel();
        _typing?.Dispose();
        _typing = new CancellationTokenSource();
        return _typing.Token;
    }

    private async Task ReadAsync()
    {
        var value = Read();
        Gate?.Tell(this, _problem);
        if (_problem is null && value != _shown)
        {
            _shown = value;
            await ValueChanged.InvokeAsync(value);
        }
    }

    private double? Read()
    {
        var culture = CultureInfo.CurrentCulture;
        _problem = null;
        _echo = "";
        if (string.IsNullOrWhiteSpace(_text))
        {
            _problem = Required ? $"{Label} is empty. Enter a number in {Scale.Symbol}{(RangeText is null ? "" : $", {RangeText}")}." : null;
            return null;
        }

        if (!NumberReading.TryRead(_text, culture, out var number, out var unit, out var problem))
        {
            _problem = $"{Label}: {problem} Enter a number in {Scale.Symbol}{(RangeText is null ? "" : $", {RangeText}")}.";
            return null;
        }

        IEnumerable<UnitScale> known = [Scale, .. OtherScale is null ? [] : new[] { OtherScale }, .. Also];
        var scale = unit.Length == 0 ? Scale : known.FirstOrDefault(each => Means(unit, each));
        if (scale is null)
        {
            _problem = $"{Label}: the unit \u201C{unit}\u201D is not known here. Use {string.Join(" or ", known.Select(each => each.Symbol))}.";
            return null;
        }

        var si = scale.ToSi((double)number);
        // A whisker of room, so that a limit shown in one unit can be typed back in the other.
        var room = 1e-9 * Math.Max(Math.Abs(MinSi ?? 0), Math.Abs(MaxSi ?? 0));
        if (si < MinSi - room || si > MaxSi + room)
        {
            _problem = $"{Label}: {scale.Text(si, culture)} is out of range. Accepted: {RangeText}.";
            return null;
        }

        if (Whole && si != Math.Round(si))
        {
            _problem = $"{Label}: {scale.Text(si, culture)} is not a whole number{(RangeText is null ? "" : $". Accepted: {RangeText}")}.";
            return null;
        }

        _echo = Echo(si);
        return si;
    }

    private string Echo(double? si)
    {
        if (si is not { } value)
            return "";
        var culture = CultureInfo.CurrentCulture;
        if (OtherScale is not null)
            return $"= {Scale.Text(value, culture)}, {OtherScale.Text(value, culture)}";

        // With one unit there is only something to tell when the number was understood otherwise than it was written.
        return _text.Trim() == Scale.Number(value, WithoutGrouping(culture)) ? "" : $"= {Scale.Text(value, culture)}";
    }

    private static bool Means(string unit, UnitScale scale) =>
        string.Equals(unit, scale.Symbol, StringComparison.OrdinalIgnoreCase) || string.Equals(unit, scale.Name, StringComparison.OrdinalIgnoreCase);

    // A thousands mark in an input would only be one more thing to misread when it is edited.
    private static CultureInfo WithoutGrouping(CultureInfo culture)
    {
        var plain = (CultureInfo)culture.Clone();
        plain.NumberFormat.NumberGroupSeparator = "";
        return plain;
    }
}
