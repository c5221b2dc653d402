namespace ShopFloor.Shop.Staff;

/// <summary>Who does something. Passed to every use case, which asks it for the permission it needs.</summary>
/// <param name="Id">The staff member, or null for a client and for the shop's own work.</param>
/// <param name="Name">Name as it stands in the record.</param>
/// <param name="Role">The role, or null for a client and for the shop's own work.</param>
/// <param name="Via">Where the command came in.</param>
public sealed record Actor(Guid? Id, string Name, ShopRole? Role, ActorVia Via)
{
    /// <summary>Scope of an API token; null when the whole role applies.</summary>
    public IReadOnlySet<Permission>? OnlyPermissions { get; init; }

    public static Actor Shop { get; } = new(null, "ShopFloor", null, ActorVia.Shop);

    public static Actor Client(string name) => new(null, name, null, ActorVia.ClientLink);

    public bool May(Permission permission) =>
        Via == ActorVia.Shop
        || (Role is { } role && role.Has(permission) && (OnlyPermissions is null || OnlyPermissions.Contains(permission)));

    /// <exception cref="NotAllowedException">The actor lacks the permission.</exception>
    public void Demand(Permission permission)
    {
        if (!May(permission))
        {
            throw new NotAllowedException(this, permission);
        }
    }
}

/// <summary>The door a command came in by.</summary>
public enum ActorVia
{
    Desk,
    Tablet,
    Api,
    ClientLink,
    Shop,
}

/// <summary>Somebody asked for what their role does not allow: the caller failed to hide it, or somebody is trying.</summary>
public sealed class NotAllowedException(Actor actor, Permission permission)
    : Exception($"{actor.Role?.ToString() ?? "Client"} may not {permission}.")
{
    public Permission Permission { get; } = permission;
}
