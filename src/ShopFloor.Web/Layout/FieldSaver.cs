using ShopFloor.Shop.Common;

namespace ShopFloor.Web.Layout;

/// <summary>
/// Saves a form each time a field is left. One save runs at a time; what is edited meanwhile goes with the next one, and a person's own
/// saves never count as somebody else's.
/// </summary>
/// <typeparam name="TDetails">The form.</typeparam>
public sealed class FieldSaver<TDetails>
    where TDetails : class, new()
{
    private Guid _version;
    private bool _touched;

    /// <summary>The form being edited.</summary>
    public TDetails Draft { get; private set; } = new();

    /// <summary>Whether a save is under way.</summary>
    public bool IsSaving { get; private set; }

    /// <summary>Saves against a version.</summary>
    public required Func<Guid, TDetails, Task<Outcome<Guid>>> Save { get; init; }

    /// <summary>Reads what is stored now.</summary>
    public required Func<Task<(Guid Version, TDetails Details)>> Load { get; init; }

    /// <summary>Lets the person choose between their draft and what is stored; false when they do not want to.</summary>
    public required Func<EditConflict, TDetails, TDetails, Task<bool>> Ask { get; init; }

    /// <summary>Takes over what was read, unless it is what is known already or a save of this form is under way.</summary>
    public void Show(Guid version, TDetails details)
    {
        if (!IsSaving && version != _version)
            (_version, Draft) = (version, details);
    }

    /// <summary>Saves the draft; null when a save under way takes this edit along.</summary>
    public async Task<Outcome<Guid>?> TouchAsync()
    {
        _touched = true;
        if (IsSaving)
            return null;
        IsSaving = true;
        try
        {
            Outcome<Guid> outcome;
            do
            {
                _touched = false;
                outcome = await SaveAsync();
            }
            while (_touched);
            return outcome;
        }
        finally
        {
            IsSaving = false;
        }
    }

    private async Task<Outcome<Guid>> SaveAsync()
    {
        var mine = Copy(Draft);
        var outcome = await Save(_version, mine);
        while (outcome.Conflict is { } conflict)
        {
            var (_, theirs) = await Load();
            if (!await Ask(conflict, Draft, theirs))
                return outcome;
            _version = conflict.CurrentVersion;
            mine = Copy(Draft);
            outcome = await Save(_version, mine);
        }

        if (!outcome.Succeeded)
            return outcome;
        var (version, stored) = await Load();
        // Somebody else's save between ours and this reading keeps our old version, so that the next save tells both apart.
        if (EditConflict.Compare(mine, stored).Count == 0)
            _version = version;
        else if (!_touched)
            (_version, Draft) = (version, stored);
        return outcome;
    }

    private static TDetails Copy(TDetails draft)
    {
        var copy = new TDetails();
        EditConflict.Take(copy, draft, typeof(TDetails).GetProperties().Where(property => property.CanWrite).Select(property => property.Name));
        return copy;
    }
}
