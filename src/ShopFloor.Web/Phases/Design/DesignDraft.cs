using ShopFloor.Shop.Jobs;
using ShopFloor.Web.Components;
using ShopFloor.Web.Layout;

namespace ShopFloor.Web.Phases.Design;

/// <summary>A named design while it is edited.</summary>
/// <param name="loaded">As stored.</param>
/// <param name="form">A copy of its own.</param>
/// <param name="changed">Told after each change.</param>
public sealed class DesignDraft<TForm>(LoadedDesign<TForm> loaded, TForm form, Action changed)
    where TForm : class, IDesignForm
{
    public Guid Id { get; } = loaded.Id;

    /// <summary>Version it is saved against.</summary>
    public Guid Version { get; set; } = loaded.Version;

    /// <summary>Version it was loaded with.</summary>
    public Guid Loaded { get; } = loaded.Version;

    public string Name { get; set; } = loaded.Name;

    public TForm Form { get; } = form;

    public bool Dirty { get; set; }

    public FormProblems Problems { get; } = new();

    public FieldGate Gate { get; } = new();

    /// <summary>Call after changing the form.</summary>
    public void Changed()
    {
        Dirty = true;
        changed();
    }

    /// <summary>Call with the value just set, in one expression with setting it.</summary>
    public void Set<TValue>(TValue _) => Changed();
}
