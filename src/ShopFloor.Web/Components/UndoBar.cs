using MudBlazor;

namespace ShopFloor.Web.Components;

/// <summary>A strip that says what was done and offers to undo it, instead of asking beforehand.</summary>
public static class UndoBar
{
    /// <summary>How long Undo is offered.</summary>
    public static readonly TimeSpan Offered = TimeSpan.FromSeconds(20);

    /// <summary>Shows the strip.</summary>
    /// <param name="snackbar">The page's snackbar service.</param>
    /// <param name="done">What was done, for example "Step removed".</param>
    /// <param name="undoAsync">Undoes it.</param>
    public static void Show(ISnackbar snackbar, string done, Func<Task> undoAsync) =>
        snackbar.Add(done, MudBlazor.Severity.Normal, options =>
        {
            options.Action = "Undo";
            options.ActionColor = Color.Inherit;
            options.ActionVariant = Variant.Outlined;
            options.VisibleStateDuration = (int)Offered.TotalMilliseconds;
            options.HideIcon = true;
            options.ShowCloseIcon = true;
            options.OnClick = _ => undoAsync();
        });
}
