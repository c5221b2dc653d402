using Microsoft.AspNetCore.Components;
using MudBlazor;
using ShopFloor.Shop.Common;
using ShopFloor.Shop.Staff;
using ShopFloor.Web.Layout;

namespace ShopFloor.Web.Settings;

public sealed partial class PeoplePage : IDisposable
{
    private readonly CancellationTokenSource _ended = new();
    private readonly FormProblems _problems = new();
    private IReadOnlyList<PersonRow>? _rows;
    private PersonDraft? _editing;
    private PersonForm? _form;
    private Guid _version;
    private PersonRow? _secretOf;
    private bool _secretIsPin;
    private string _secret = "";
    private bool _busy;

    [CascadingParameter] private Viewer Viewer { get; set; } = default!; // The page is behind the sign-in.

    [Inject] private People Staff { get; set; } = default!; // Set by the framework before first use.

    [Inject] private IDialogService Dialogs { get; set; } = default!; // Set by the framework before first use.

    [Inject] private ISnackbar Snackbar { get; set; } = default!; // Set by the framework before first use.

    protected override Task OnInitializedAsync() => LoadAsync();

    public void Dispose()
    {
        _ended.Cancel();
        _ended.Dispose();
    }

    private async Task LoadAsync() => _rows = await Staff.ListAsync(Viewer.Actor, _ended.Token);

    private void Add()
    {
        Close();
        _form = new PersonForm { Units = Viewer.Units };
    }

    private async Task EditAsync(Guid personId)
    {
        Close();
        _editing = await Staff.GetAsync(Viewer.Actor, personId, _ended.Token);
        (_form, _version) = (_editing?.Form, _editing?.Version ?? default);
    }

    private void SetSecret(PersonRow person, bool pin)
    {
        Close();
        (_secretOf, _secretIsPin) = (person, pin);
    }

    private void Close()
    {
        _problems.Clear();
        (_editing, _form, _secretOf, _secret) = (null, null, null, "");
    }

    private async Task SaveAsync()
    {
        if (_form is not { } form)
            return;
        _busy = true;
        try
        {
            var outcome = _editing is { } editing
                ? await ConflictAsking.SaveAsync(
                    Dialogs,
                    Viewer,
                    form,
                    _version,
                    version => Staff.EditAsync(Viewer.Actor, editing.Id, _version = version, form, _ended.Token),
                    async () => (await Staff.GetAsync(Viewer.Actor, editing.Id, _ended.Token))?.Form)
                : await Staff.AddAsync(Viewer.Actor, form, _secret, _ended.Token);
            await FinishAsync(outcome, $"{form.DisplayName} saved");
        }
        finally
        {
            _busy = false;
        }
    }

    private async Task SaveSecretAsync()
    {
        if (_secretOf is not { } person)
            return;
        _busy = true;
        try
        {
            var outcome = _secretIsPin
                ? await Staff.SetPinAsync(Viewer.Actor, person.Id, _secret, _ended.Token)
                : await Staff.SetPasswordAsync(Viewer.Actor, person.Id, _secret, _ended.Token);
            await FinishAsync(outcome, $"{(_secretIsPin ? "PIN" : "Password")} of {person.DisplayName} set");
        }
        finally
        {
            _busy = false;
        }
    }

    private async Task UnlockAsync(PersonRow person) =>
        await FinishAsync(await Staff.ResetPinLockAsync(Viewer.Actor, person.Id, _ended.Token), $"PIN of {person.DisplayName} unlocked");

    private async Task FinishAsync<T>(Outcome<T> outcome, string done)
    {
        if (outcome.Succeeded)
        {
            Close();
            Snackbar.Add(done, Severity.Normal);
            await LoadAsync();
        }
        else if (outcome.Conflict is null)
        {
            _problems.Show(outcome.Problems);
        }
    }
}
