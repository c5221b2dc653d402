using MudBlazor;
using ShopFloor.Shop.Common;
using ShopFloor.Web.Components;

namespace ShopFloor.Web.Layout;

/// <summary>Lets the second of two editors choose, field by field, and puts the choice into their form.</summary>
public static class ConflictAsking
{
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
