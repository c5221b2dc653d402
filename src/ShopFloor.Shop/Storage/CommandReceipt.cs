namespace ShopFloor.Shop.Storage;

/// <summary>Proof that a command was carried out, so that sending it again changes nothing.</summary>
public sealed class CommandReceipt
{
    public CommandReceipt(Guid commandId, Guid? actorId, DateTimeOffset at)
    {
        CommandId = commandId;
        ActorId = actorId;
        At = at;
    }

    private CommandReceipt()
    {
    }

    public Guid CommandId { get; private set; }

    public Guid? ActorId { get; private set; }

    public DateTimeOffset At { get; private set; }
}
