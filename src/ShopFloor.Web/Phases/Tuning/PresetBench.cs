using ShopFloor.Engineering.Tuning.Filters;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Tuning.Presets;

namespace ShopFloor.Web.Phases.Tuning;

/// <summary>The preset on the bench: shared by the parts of the tuning tab until it is kept as a version. Every step can be taken back.</summary>
public sealed class PresetBench
{
    private const int MostSteps = 100;
    private readonly List<PresetDraft> _before = [];
    private PresetDraft? _asOpened;

    /// <summary>Null while nothing is on the bench.</summary>
    public PresetDraft? Draft { get; private set; }

    /// <summary>Whether something was changed since it was opened or kept, and not taken back.</summary>
    public bool Changed => !ReferenceEquals(Draft, _asOpened);

    /// <summary>Told after each change: what would be lost, or null while nothing would.</summary>
    public Action<PresetDraft?>? Told { get; set; }

    public bool CanUndo => _before.Count > 0;

    public void Open(LoadedDesign<PresetForm> version)
    {
        ArgumentNullException.ThrowIfNull(version);
        Open(new PresetDraft
        {
            PresetId = version.Form.PresetId, BasedOn = version.Form.Number, Name = version.Name, Profile = version.Form.Profile, Target = version.Form.Target, Channels = version.Form.Channels, Inputs = version.Form.Inputs, Factory = version.Form.Factory, Pins = version.Form.Pins,
        });
    }

    public void Open(PresetDraft draft)
    {
        (Draft, _asOpened) = (draft, draft);
        _before.Clear();
        Told?.Invoke(null);
    }

    /// <summary>Goes on with changes that were made before and not kept.</summary>
    public void TakeUp(PresetDraft unsaved)
    {
        (Draft, _asOpened) = (unsaved, null);
        _before.Clear();
        Told?.Invoke(unsaved);
    }

    /// <summary>Puts the latest version of the first preset on an empty bench.</summary>
    public void OpenAny(TuningPresetList presets)
    {
        ArgumentNullException.ThrowIfNull(presets);
        if (Draft is null && (presets.InCar ?? (presets.Presets.Count > 0 ? presets.Presets[0].Latest : null)) is { } version)
        {
            Open(presets.Presets.First(preset => preset.PresetId == version.Form.PresetId).Latest);
        }
    }

    /// <param name="step">Whether it is a step of its own; false while something is being dragged.</param>
    public void Set(PresetDraft draft, bool step = true)
    {
        if (step && Draft is { } old)
        {
            _before.Add(old);
            if (_before.Count > MostSteps)
            {
                _before.RemoveAt(0);
            }
        }

        Draft = draft;
        Told?.Invoke(draft);
    }

    public void Set(ChannelSetting channel, bool step = true)
    {
        if (Draft is { } draft)
        {
            Set(draft with { Channels = [.. draft.Channels.Select(each => each.Id == channel.Id ? channel : each)] }, step);
        }
    }

    /// <summary>Sets one input; what the factory signal came to stays as it was worked out.</summary>
    public void SetInput(ChannelSetting input)
    {
        if (Draft is { } draft)
        {
            Set(draft with { Inputs = [.. draft.Inputs.Select(each => each.Id == input.Id ? input : each)] });
        }
    }

    public void Undo()
    {
        if (_before.Count > 0)
        {
            Draft = _before[^1];
            _before.RemoveAt(_before.Count - 1);
            Told?.Invoke(Changed ? Draft : null);
        }
    }
}
