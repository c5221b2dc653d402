using System.Globalization;
using System.Text.RegularExpressions;
using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Phases.Tuning;

/// <summary>One setting as the car left the shop with it, for the client and the next technician.</summary>
public sealed class SettingRow : IAudited, IVersioned, IRemovable
{
    public SettingRow(Guid jobId, SettingRowForm form, int order)
    {
        Id = Guid.CreateVersion7();
        JobId = jobId;
        Order = order;
        Apply(form);
    }

    private SettingRow()
    {
    }

    public Guid Id { get; private set; }

    public Guid Version { get; private set; }

    public Guid JobId { get; private set; }

    [NotAudited]
    public int Order { get; private set; }

    public string Device { get; private set; } = "";

    public string Setting { get; private set; } = "";

    public string Value { get; private set; } = "";

    public DateTimeOffset? RemovedAt { get; private set; }

    public void Apply(SettingRowForm form)
    {
        Device = form.Device.Trim();
        Setting = form.Setting.Trim();
        Value = form.Value.Trim();
    }

    public void MoveTo(int order) => Order = order;

    public void Remove(DateTimeOffset at) => RemovedAt ??= at;

    public void BringBack() => RemovedAt = null;

    string IAudited.AuditName => $"{Device}: {Setting}";

    Guid? IAudited.AuditJobId => JobId;
}

public sealed partial class SettingRowForm
{
    public string Device { get; set; } = "";

    public string Setting { get; set; } = "";

    public string Value { get; set; } = "";

    public static SettingRowForm Of(SettingRow row) => new() { Device = row.Device, Setting = row.Setting, Value = row.Value };

    public List<Problem> Problems() => new Check()
        .Required(Device, nameof(Device), "The device")
        .Required(Setting, nameof(Setting), "The setting")
        .Required(Value, nameof(Value), "The value")
        .That(Impossible is null, nameof(Value), Impossible ?? "")
        .Problems;

    // A crossover that no processor can be set to is a slip of the pen that the next technician could not mend.
    private string? Impossible => NamedSlope().Match($"{Setting} {Value}") is { Success: true } found && int.TryParse(found.Groups[1].Value, CultureInfo.InvariantCulture, out var slope)
        ? Crossover.SlopeProblem(CrossoverShape.LinkwitzRiley, slope)
        : null;

    [GeneratedRegex(@"(?:linkwitz|\bLR\b)[^0-9]*(?:[0-9.,]+\s*k?Hz[^0-9]*)?(\d{1,2})\s*dB\s*(?:/|per|an)\s*oct", RegexOptions.IgnoreCase, matchTimeoutMilliseconds: 200)]
    private static partial Regex NamedSlope();
}
