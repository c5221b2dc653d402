using MudBlazor;
using MudBlazor.Services;

namespace ShopFloor.Web.Layout;

/// <summary>What the shell and the components need from the container.</summary>
public static class ShellServices
{
    public static IServiceCollection AddShell(this IServiceCollection services)
    {
        services.AddMudServices(mud =>
        {
            var snackbar = mud.SnackbarConfiguration;
            // Below the thumb's reach of the top bar, and opaque: it is read in glare.
            snackbar.PositionClass = Defaults.Classes.Position.BottomCenter;
            snackbar.MaximumOpacity = 100;
            snackbar.ShowTransitionDuration = 120;
            snackbar.HideTransitionDuration = 200;
            snackbar.PreventDuplicates = false;
        });
        services.AddSingleton(TimeProvider.System);
        return services;
    }
}
