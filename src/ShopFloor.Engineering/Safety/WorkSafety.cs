using ShopFloor.Engineering.Electrical.Budget;
using ShopFloor.Engineering.Explained;

namespace ShopFloor.Engineering.Safety;

/// <summary>A caution with where it comes from.</summary>
/// <param name="Title">The hazard in a few words.</param>
/// <param name="Text">What can happen, what to do, and whose instructions decide.</param>
/// <param name="IsDanger">Whether somebody can be badly hurt or a fire start.</param>
/// <param name="Source">Published source, or "common practice, no source".</param>
public sealed record SafetyText(string Title, string Text, bool IsDanger, string Source);

/// <summary>
/// The cautions of work on a vehicle's supply, chosen by facts of the job. The one place of these words: screens, steps and papers take
/// them from here. The wording is ours.
/// </summary>
public static partial class WorkSafety
{
    /// <summary>Whose word comes before ours.</summary>
    public const string MakersFirst = "First come local codes, then the vehicle maker's and the part makers' instructions; have work you are not trained for done by licensed people.";

    /// <summary>Hybrid and electric vehicles: orange marking of high-voltage cables as in UN Regulation No. 100, 5.1.1.5.</summary>
    public const string HighVoltage =
        "High-voltage vehicle: orange cables and their parts are not touched, cut, drilled near or disconnected. " +
        "Only a person licensed for high-voltage work isolates the system at the service disconnect, by the vehicle maker's instructions. " +
        "The 12 V side is worked on only after the maker's own shut-down steps.";

    /// <summary>The step of a hybrid or electric vehicle that a second person confirms.</summary>
    public const string HighVoltageStep =
        "High voltage: shut down and isolated at the service disconnect by a person licensed for it, by the vehicle maker's instructions; locked against switching on, absence of voltage proven. Orange cables stay untouched";

    /// <summary>Charge kept by airbags and belt tensioners.</summary>
    public const string RestraintWait = "Airbags and belt tensioners hold their charge after the battery is off: wait as long as the vehicle maker says before touching their plugs. Never measure on yellow restraint wiring";

    /// <summary>Before the battery is taken off: what forgets.</summary>
    public const string Forgetful = "Looked up and written down: radio code, clock, windows and roof, steering angle, seat and mirror memory, battery registration: what must be learned again after the battery was off";

    /// <summary>What any battery can do.</summary>
    public const string ShortCircuit =
        "A battery can deliver thousands of amperes into a short circuit and gives off explosive gas while charging: no rings or watches, no tool across the posts, cover the terminals, wear eye protection, keep sparks and flames away.";

    /// <summary>Where cables stay away.</summary>
    public const string RestraintRule = "Cables stay off airbag and belt-tensioner wiring and out of the way of airbags, seat rails, pedals, steering, hot and moving parts; grommets through metal.";

    /// <summary>Before a recorder is joined to a factory amplifier's loudspeaker output. Common practice, no source.</summary>
    public const string FactoryOutput =
        "Both wires of a factory amplifier's loudspeaker output carry voltage, and a recorder's input is grounded: joined directly, amplifier or recorder is destroyed. " +
        "Measure through an isolating transformer or a balanced divider of ten to one or more, look at it with a voltmeter first, begin at a low volume. " +
        "Leave the factory loudspeakers or the load connected where the amplifier waits for them, their tweeters included; restraint wiring (yellow) is never probed.";

    /// <summary>When a memory saver may be used.</summary>
    public const string MemorySaver = "Memory saver only if the vehicle maker allows it: small current, its own fuse. It keeps every circuit live, so never with airbag plugs or the new feed open";

    /// <summary>How the battery is taken off.</summary>
    public const string Disconnect = "Key away from the car, all off. Battery's negative terminal disconnected first and held off the post; with two batteries both of them; the new main fuse stays out";

    /// <summary>How the battery is put back.</summary>
    public const string Reconnect = "All branch fuses out, airbag and belt plugs locked, nobody in the car: battery positive first, negative last, tightened to the maker's torque";

    /// <summary>After the battery is back.</summary>
    public const string Relearn = "Learned again by the list: radio code, clock, windows and roof, steering angle, seats; ignition on: no airbag or other warning light stays on";

    /// <summary>Steps before any work on the supply, in order. Order of the posts: common practice, no source; waiting times are the vehicle maker's.</summary>
    /// <param name="highVoltage">Whether the vehicle is a hybrid or electric.</param>
    public static IReadOnlyList<string> BeforeWork(bool highVoltage) =>
        [.. highVoltage ? [HighVoltageStep] : Array.Empty<string>(), Forgetful, MemorySaver, Disconnect, RestraintWait];

    /// <summary>Steps when the supply comes back, in order.</summary>
    public static IReadOnlyList<string> AfterWork => [Reconnect, Relearn];

    /// <summary>Cautions that belong beside every job on a vehicle's supply.</summary>
    /// <param name="highVoltage">Whether the vehicle is a hybrid or electric.</param>
    public static IReadOnlyList<SafetyText> Supply(bool highVoltage) =>
    [
        .. highVoltage ? [new SafetyText("high voltage", HighVoltage, true, "orange marking: UN Regulation No. 100; licence: local law")] : Array.Empty<SafetyText>(),
        new("whose word counts", MakersFirst, false, Unsourced.CommonPractice),
        new("disconnecting", $"{Disconnect}. {RestraintWait}.", true, Unsourced.CommonPractice),
        new("memory", $"{Forgetful}. {MemorySaver}.", false, Unsourced.CommonPractice),
        new("short circuit", ShortCircuit, true, Unsourced.CommonPractice),
    ];

    /// <summary>What a battery of this chemistry can do.</summary>
    /// <param name="words">As written in the part's data, such as "AGM" or "lithium iron phosphate"; null or unknown words give the caution of every kind.</param>
    public static SafetyText Battery(string? words)
    {
        var chemistry = BatteryWords.ChemistryOf(words);
        return chemistry is not { } known
            ? new("battery", $"Chemistry not known: enter it with the part, it decides charging and venting. {Flooded}", true, Unsourced.CommonPractice)
            : KindOf(known) switch
            {
                BatteryKind.Lithium => new("lithium battery", Lithium, true, Unsourced.CommonPractice),
                BatteryKind.Sealed => new($"{(known == BatteryChemistry.Gel ? "gel" : "AGM")} battery", Sealed, true, Unsourced.CommonPractice),
                _ => new("lead-acid battery", Flooded, true, Unsourced.CommonPractice),
            };
    }

    /// <summary>The care a chemistry asks for.</summary>
    /// <param name="chemistry">The chemistry.</param>
    /// <exception cref="ArgumentOutOfRangeException">It is not defined.</exception>
    public static BatteryKind KindOf(BatteryChemistry chemistry) => chemistry switch
    {
        BatteryChemistry.LithiumIronPhosphate => BatteryKind.Lithium,
        BatteryChemistry.GlassMat or BatteryChemistry.Gel => BatteryKind.Sealed,
        BatteryChemistry.Flooded => BatteryKind.Flooded,
        _ => throw new ArgumentOutOfRangeException(nameof(chemistry)),
    };

    private const string Flooded =
        "Gives off hydrogen while charging, which explodes at a spark: no flame, charger off before its clamps come off, vented to the outside. Acid burns eyes and skin: goggles and gloves, rinse with much water. Held down and terminals covered.";

    private const string Sealed =
        "Sealed, but it vents hydrogen when overcharged: inside the cabin its vent goes to the outside. Charge only with a charger for this kind. Acid inside: do not open. Held down and terminals covered.";

    private const string Lithium =
        "Charge only within its maker's voltages and temperatures, never below 0 °C unless the maker allows it, and only with its own protection circuit. Damaged, swollen or hot: leave it, get people out, call the fire service; its smoke is poisonous. Held down, away from heat, terminals covered.";

    /// <summary>What a run meets of airbags and belts on its way.</summary>
    /// <param name="places">Kinds of places it touches.</param>
    /// <returns>The caution; null when the places hold none.</returns>
    public static string? Restraints(IReadOnlyCollection<RestraintPlace> places)
    {
        ArgumentNullException.ThrowIfNull(places);
        return places.Count == 0 ? null
            : $"Airbags and belts: {string.Join("; ", places.Distinct().Order().Select(WordsOf))}. Look the routes up in the maker's instructions; no cable over, through or tied to them.";
    }

    private static string WordsOf(RestraintPlace place) => place switch
    {
        RestraintPlace.PillarOrRoof => "head curtain in pillar and roof edge",
        RestraintPlace.Door => "side crash sensor in the door",
        RestraintPlace.Seat => "side airbag and seat plugs under the seat",
        RestraintPlace.Dash => "airbags behind the dashboard",
        _ => "belt tensioner and side sensor along sill and centre pillar",
    };

    /// <summary>What a capacitor across the supply can do. Common practice, no source.</summary>
    public const string Capacitor =
        "A capacitor stays charged after the battery is off, and an empty one is a short circuit: a workshop discharges it through a resistor before work and charges it the same way before it is connected.";
}

/// <summary>Kinds of battery that ask for different care.</summary>
public enum BatteryKind
{
    /// <summary>Lead-acid with liquid acid.</summary>
    Flooded,

    /// <summary>Lead-acid, AGM or gel.</summary>
    Sealed,

    /// <summary>Lithium iron phosphate and other lithium.</summary>
    Lithium,
}

/// <summary>Places of a car that hold parts of its restraint system. Common practice, no source; the vehicle maker's instructions show where.</summary>
public enum RestraintPlace
{
    /// <summary>Windscreen pillar or roof.</summary>
    PillarOrRoof,

    /// <summary>A door.</summary>
    Door,

    /// <summary>Under or behind a seat.</summary>
    Seat,

    /// <summary>Dashboard.</summary>
    Dash,

    /// <summary>Sill and centre pillar, passed on the way from front to rear.</summary>
    Sill,
}
