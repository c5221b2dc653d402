namespace ShopFloor.Shop.Storage.Audit;

/// <summary>A thing whose every change is written to the audit trail in the same transaction.</summary>
public interface IAudited
{
    /// <summary>Name of the thing as people know it.</summary>
    string AuditName { get; }

    /// <summary>The job it belongs to, so the trail can be read per job.</summary>
    Guid? AuditJobId { get; }
}

/// <summary>Keeps a property out of the audit trail: secrets and things derived from others.</summary>
[AttributeUsage(AttributeTargets.Property)]
public sealed class NotAuditedAttribute : Attribute;
