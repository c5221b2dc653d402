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

public sealed class SettingRowForm
{
    public string Device { get; set; } = "";

    public string Setting { get; set; } = "";

    public string Value { get; set; } = "";

    public static SettingRowForm Of(SettingRow row) => new() { Device = row.Device, Setting = row.Setting, Value = row.Value };

    public List<Problem> Problems() => new Check()
        .Required(Device, nameof(Device), "The device")
        .Required(Setting, nameof(Setting), "The setting")
        .Required(Value, nameof(Value), "The value")
        .Problems;
}
