using System.Globalization;
using ShopFloor.Documents.Composition;
using ShopFloor.Engineering.Units;
using ShopFloor.Shop.Phases.Design;

namespace ShopFloor.Documents.Wiring;

/// <summary>Labels to cut out: two for each wire, one for each end, and one for each fuse.</summary>
public static class LabelDocument
{
    public static PrintedDocument Compose(WiringSchedule schedule)
    {
        ArgumentNullException.ThrowIfNull(schedule);
        var text = new UnitText(schedule.Letterhead.Units, CultureInfo.CurrentCulture);
        var head = Paper.Head(schedule.Letterhead, $"{schedule.JobReference}   Labels", $"{schedule.Vehicle}: {schedule.JobTitle}", "Labels") with
        {
            ShopContact = [],
            FooterText = $"Labels · {schedule.JobReference} · {schedule.Vehicle}",
        };
        return new PrintedDocument(head,
        [
            new Section("Wires: one label at each end", new Labels(
            [
                .. schedule.Wires.SelectMany(wire => (Label[])
                [
                    new(wire.Mark, $"to {wire.To}", Detail(wire)),
                    new(wire.Mark, $"from {wire.From}", Detail(wire)),
                ]),
            ])),
            new Section("Fuses", new Labels([.. schedule.Fuses.Select(fuse => new Label(fuse.Mark, fuse.Protects, $"{text.Amperes(fuse.RatingAmperes)} {fuse.Form}"))])),
        ]);

        string Detail(WireRow wire) => string.Join(", ", new[] { wire.Size, wire.FuseMark.Length > 0 ? $"fuse {wire.FuseMark}" : "return" });
    }
}
