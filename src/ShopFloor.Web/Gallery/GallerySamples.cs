using System.Globalization;
using ShopFloor.Engineering.Explained;
using ShopFloor.Web.Components;

namespace ShopFloor.Web.Gallery;

/// <summary>Made-up content for the gallery of components.</summary>
internal static class GallerySamples
{
    public static readonly UnitScale Millimetres = new("mm", "millimetres", 0.001, 1);
    public static readonly UnitScale Inches = new("in", "inches", 0.0254, 3);
    public static readonly UnitScale Volts = new("V", "volts", 1, 2);
    public static readonly UnitScale Kilograms = new("kg", "kilograms", 1, 2);
    public static readonly UnitScale Pounds = new("lb", "pounds", 0.45359237, 2);

    public const string Outline = """
        <svg viewBox="0 0 640 300" fill="none" stroke="#4A555D" stroke-width="2.5" stroke-linejoin="round">
          <rect x="40" y="60" width="560" height="180" rx="70" fill="#FBFAF7" />
          <path d="M190 78c-14 44-14 100 0 144M450 78c16 44 16 100 0 144M190 78l42 22h180l38-22M190 222l42-22h180l38 22M232 100v100M412 100v100M322 100v100" />
          <path d="M56 110c20-4 34-4 48 0M56 190c20 4 34 4 48 0M584 110c-18-4-30-4-40 0M584 190c-18 4-30 4-40 0" />
          <path d="M215 60v-10h26v10M215 240v10h26v-10" />
        </svg>
        """;

    public static readonly OutlineArea[] Areas =
    [
        new("Front bumper", 0.08, 0.5),
        new("Left front door", 0.43, 0.22),
        new("Right front door", 0.43, 0.78),
        new("Tailgate", 0.92, 0.5),
    ];

    public static Explanation SupplyCurrent()
    {
        const double power = 1200, efficiency = 0.85, volts = 13.8, allowed = 150;
        var amperes = power / (efficiency * volts);
        string Text(double value, string unit) => $"{value.ToString("0.#", CultureInfo.CurrentCulture)}\u00A0{unit}";
        return new(
            "Amplifier branch: how much current at full output?",
            Text(amperes, "A"),
            [
                new("Output power", power, "W", "part data"),
                new("Efficiency", efficiency, "", "default; " + Unsourced.CommonPractice),
                new("Supply voltage", volts, "V", "vehicle, engine running"),
            ],
            [new("Supply current", "I = P / (η · U)", $"I = {Text(power, "W")} / ({efficiency.ToString("0.##", CultureInfo.CurrentCulture)} · {Text(volts, "V")})", Text(amperes, "A"), "Definition of power and efficiency")],
            [
                new("Branch fuse rating", amperes, allowed, "A", amperes <= allowed, "Part data of the fuse chosen"),
                new("Amplifier's own input limit", amperes, 100, "A", amperes <= 100, "Part data of the amplifier"),
            ],
            "Amplifier's own input limit");
    }

    public static readonly Finding[] Findings =
    [
        new("mass-not-restrained", Severity.Stop, "part-7", "Enclosure, boot floor", "Nothing holds the 31 kg enclosure when the car brakes.", "Bolt it through the floor bracket or add a strap rated for the load.", "From memory"),
        new("cable-unprotected", Severity.Warn, "run-2", "Main run, engine bay", "The run passes within 40 mm of the steering column without a sleeve.", "Add a sleeve and two clips between the bulkhead and the column.", "Common practice, no source"),
        new("label-missing", Severity.Note, "run-4", "Remote run", "The run has no label at the amplifier end.", "Print label R4 and fit it.", "Common practice, no source"),
        new("fuse-above-ampacity", Severity.Stop, "run-1", "Main run", "The 150 A fuse is larger than the conductor's 138 A at 60 °C.", "Fit a 125 A fuse or the next larger conductor.", "Sample text for this page"),
    ];

    public static readonly ProgressStep[] Phases =
    [
        new("Intake", StageState.Done, "#"),
        new("Design", StageState.Done, "#"),
        new("Estimate", StageState.Done, "#"),
        new("Parts", StageState.Waiting, "#"),
        new("Build", StageState.Working, "#"),
        new("Tuning", StageState.Blocked),
        new("Handover", StageState.NotStarted),
    ];

    public static readonly ConflictField[] Conflict =
    [
        new("odometer", "Odometer", "48,210 km", "48,120 km"),
        new("fuel", "Fuel level", "Half", "A quarter"),
        new("note", "Note to the bench", "", "Client wants the old head unit back."),
    ];

    private const string Picture = "data:image/svg+xml,%3Csvg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 320 240'%3E%3Crect width='320' height='240' fill='%23";

    private static string Drawn(string fill, string path) =>
        $"{Picture}{fill}'/%3E%3Cpath d='{path}' fill='none' stroke='%23fff' stroke-width='10' stroke-linejoin='round'/%3E%3C/svg%3E";

    public static readonly Photo[] Photos =
    [
        new("a", Drawn("5B6770", "M40 180h240l-30-70-50-30h-80l-40 40-40 10z"), "#", "Left side at check-in", "Today 09:12, for check-in"),
        new("b", Drawn("7C3710", "M60 60h200v120H60zM100 60v120M220 60v120"), "#", "Enclosure, first dry fit", "Today 11:40, step 4"),
        new("c", Drawn("4A555D", "M40 120h60l20-50 40 100 30-50h90"), "#", "Main run behind the sill", "Today 13:05, step 6"),
    ];
}
