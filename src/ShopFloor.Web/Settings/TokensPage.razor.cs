using Microsoft.AspNetCore.Components;
using MudBlazor;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Layout;

namespace ShopFloor.Web.Settings;

public sealed partial class TokensPage : IDisposable
{
    private readonly CancellationTokenSource _ended = new();
    private readonly FormProblems _problems = new();
    private readonly Dictionary<Guid, string> _names = [];
    private IReadOnlyList<Guid?> _people = [null];
    private IReadOnlyList<ApiTokenRow>? _rows;
    private ApiTokenForm? _form;
    private CreatedApiToken? _made;

    [CascadingParameter] private Viewer Viewer { get; set; } = default!; // The page is behind the sign-in.

    [Inject] private ApiTokens Tokens { get; set; } = default!; // Set by the framework before first use.

    [Inject] private People Staff { get; set; } = default!; // Set by the framework before first use.

    [Inject] private IDialogService Dialogs { get; set; } = default!; // Set by the framework before first use.

    protected override async Task OnInitializedAsync()
    {
        foreach (var person in (await Staff.ListAsync(Viewer.Actor, _ended.Token)).Where(person => person.IsActive))
        {
            _names[person.Id] = person.DisplayName;
        }

        _people = [null, .. _names.Keys.Select(id => (Guid?)id)];
        await LoadAsync();
    }

    public void Dispose()
    {
        _ended.Cancel();
        _ended.Dispose();
    }

    private async Task LoadAsync() => _rows = await Tokens.ListAsync(Viewer.Actor, _ended.Token);

    private void New()
    {
        _problems.Clear();
        (_form, _made) = (new ApiTokenForm(), null);
    }

    private void Choose(Permission permission, bool chosen)
    {
        _form?.Scope.Remove(permission);
        if (chosen)
        {
            _form?.Scope.Add(permission);
        }
    }

    private async Task MakeAsync()
    {
        if (_form is not { } form)
            return;
        var outcome = await Tokens.CreateAsync(Viewer.Actor, form, _ended.Token);
        if (outcome.Succeeded)
        {
            (_made, _form) = (outcome.Value, null);
            await LoadAsync();
        }
        else
        {
            _problems.Show(outcome.Problems);
        }
    }

    private async Task RevokeAsync(ApiTokenRow row)
    {
        var sure = await Dialogs.ShowMessageBoxAsync("Revoke the token?", $"The program that uses '{row.Name}' is refused from now on. This cannot be taken back.", "Revoke", cancelText: "Keep it");
        if (sure == true)
        {
            await Tokens.RevokeAsync(Viewer.Actor, row.Id, _ended.Token);
            await LoadAsync();
        }
    }

    private string PersonText(Guid? personId) => personId is { } id ? _names[id] : "itself";

    private static string Words(Permission permission) => permission switch
    {
        Permission.SeeJobs => "see jobs",
        Permission.WorkOnJobs => "tick steps and keep time",
        Permission.EditJobCards => "open and edit job cards",
        Permission.DesignJobs => "change parts",
        Permission.SeePrices => "see and set prices",
        Permission.SeeCosts => "see and set costs",
        Permission.SignOffFindings => "sign findings off",
        Permission.ManageShop => "run the shop",
        _ => throw new ArgumentOutOfRangeException(nameof(permission), permission, null),
    };
}
