using MudBlazor;
using ShopFloor.Shop.Common;
using ShopFloor.Web.Components;

namespace ShopFloor.Web.Layout;

/// <summary>Lets the second of two editors choose, field by field, and puts the choice into their form.</summary>
public static class ConflictAsking
{
    /// <summary>Saves a form; while somebody else's version stands in the way, lets the person choose and saves again.</summary>
    /// <param name="dialogs">The page's dialog service.</param>
    /// <param name="viewer">Who looks.</param>
    /// <param name="mine">The form as typed.</param>
    /// <param name="version">The version the form was loaded with.</param>
    /// <param name="save">Saves the form against a version; the caller keeps that version for the next try.</param>
    /// <param name="theirs">Reads the form as saved meanwhile; null when it is gone.</param>
    /// <returns>What came of the last save; still a conflict when the person did not choose.</returns>
    public static async Task<Outcome<TSaved>> SaveAsync<TDetails, TSaved>(
        IDialogService dialogs, Viewer viewer, TDetails mine, Guid version, Func<Guid, Task<Outcome<TSaved>>> save, Func<Task<TDetails?>> theirs)
        where TDetails : class
    {
        var outcome = await save(version);
        while (outcome.Conflict is { } conflict && await theirs() is { } other && await ResolveAsync(dialogs, conflict, mine, other, viewer))
        {
            outcome = await save(conflict.CurrentVersion);
        }

        return outcome;
    }

    /// <param name="dialogs">The page's dialog service.</param>
    /// <param name="conflict">Both versions.</param>
    /// <param name="mine">The form as typed; the fields chosen from the other version are copied into it.</param>
    /// <param name="theirs">The form as saved meanwhile.</param>
    /// <param name="viewer">Who looks, for the time of the other save.</param>
    /// <returns>True when the choice was made and the form can be saved against the current version.</returns>
    public static async Task<bool> ResolveAsync<TDetails>(IDialogService dialogs, EditConflict conflict, TDetails mine, TDetails theirs, Viewer viewer)
        where TDetails : class
    {
        if (conflict.Differences.Count == 0)
        {
            return true;
        }

        var fields = conflict.Differences.Select(difference => new ConflictField(difference.Field, difference.Label, difference.Mine, difference.Theirs)).ToList();
        var choices = await ConflictDialog.AskAsync(dialogs, fields, conflict.ChangedBy, $"on {viewer.Moment(conflict.ChangedAt)}");
        if (choices is null)
        {
            return false;
        }

        EditConflict.Take(mine, theirs, choices.Where(choice => choice.Value == ConflictChoice.Theirs).Select(choice => choice.Key));
        return true;
    }
}
