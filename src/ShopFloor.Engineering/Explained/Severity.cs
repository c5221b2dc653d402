namespace ShopFloor.Engineering.Explained;

/// <summary>How much a finding matters.</summary>
public enum Severity
{
    /// <summary>Worth knowing; nothing has to change.</summary>
    Note,

    /// <summary>Should be looked at; work may go on.</summary>
    Warn,

    /// <summary>A limit is broken; delivery waits until it is mended or the owner signs it off.</summary>
    Stop,
}
