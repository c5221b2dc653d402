using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using ShopFloor.Engineering.Explained;
using ShopFloor.Engineering.Safety;
using ShopFloor.Shop.Catalogue;
using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Phases.Handover;
using ShopFloor.Shop.Phases.Intake;
using ShopFloor.Shop.Staff;

namespace ShopFloor.Shop.Tests.Phases.Handover;

public sealed class DeliveryGateTests : IAsyncLifetime
{
    private const string Reason = "Agreed with the client, comes back on Friday.";
    private readonly TestShop _shop = new();

    private DeliveryGate Gate => _shop.Get<DeliveryGate>();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    [Fact]
    public async Task Job_nothing_stands_against_is_delivered_and_its_handover_frozen()
    {
        var jobId = await _shop.ReadyJobAsync();
        var report = await Gate.ReportAsync(_shop.Desk, jobId, CancellationToken.None);
        Assert.Empty(report.Standing);

        var outcome = await Gate.DeliverAsync(_shop.Desk, jobId, CancellationToken.None);

        Assert.True(outcome.Succeeded, outcome.Message);
        var job = await _shop.ReadAsync(db => db.Jobs.SingleAsync());
        Assert.Equal((JobState.Delivered, _shop.Time.GetUtcNow()), (job.State, job.DeliveredAt));
        var released = await _shop.Get<Handovers>().ReleasedAsync(_shop.Desk, jobId, 1, CancellationToken.None);
        Assert.NotNull(released);
        Assert.Equal("Two-way loudspeakers", released.Facts.System[0].Parts[0].Name);
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(released.Pdf.Span)), released.PdfHash);
        var line = await _shop.ReadAsync(db => db.AuditEntries.SingleAsync(entry => entry.Action == "Delivered"));
        Assert.Equal("Dora Desk", line.ActorName);
    }

    public static TheoryData<string> Obstacles => ["step", "second person", "blocker", "not tried after", "unexplained", "unsigned"];

    [Theory]
    [MemberData(nameof(Obstacles))]
    public async Task Stop_refuses_delivery_until_it_is_mended_or_signed_off(string obstacle)
    {
        var jobId = await _shop.ReadyJobAsync();
        await PutInTheWayAsync(jobId, obstacle);

        var refused = await Gate.DeliverAsync(_shop.Desk, jobId, CancellationToken.None);

        Assert.False(refused.Succeeded);
        Assert.Equal(JobState.Open, (await _shop.ReadAsync(db => db.Jobs.SingleAsync())).State);
        Assert.Equal(0, await _shop.ReadAsync(db => db.HandoverReleases.CountAsync()));

        var stop = Assert.Single((await Gate.ReportAsync(_shop.Owner, jobId, CancellationToken.None)).Standing).Finding;
        Assert.True((await SignOffAsync(jobId, stop)).Succeeded);
        Assert.True((await Gate.DeliverAsync(_shop.Desk, jobId, CancellationToken.None)).Succeeded);
    }

    public static TheoryData<string> Remarks => ["found problem", "part not fitted", "no notes"];

    [Theory]
    [MemberData(nameof(Remarks))]
    public async Task Warning_is_shown_and_does_not_refuse_delivery(string remark)
    {
        var jobId = await _shop.ReadyJobAsync();
        await PutInTheWayAsync(jobId, remark);

        var report = await Gate.ReportAsync(_shop.Desk, jobId, CancellationToken.None);

        Assert.Equal(Severity.Warn, Assert.Single(report.Findings).Finding.Severity);
        Assert.True((await Gate.DeliverAsync(_shop.Desk, jobId, CancellationToken.None)).Succeeded);
    }

    [Fact]
    public async Task Sign_off_does_not_cover_a_finding_that_reads_differently_now()
    {
        var jobId = await _shop.ReadyJobAsync();
        await PutInTheWayAsync(jobId, "unexplained");
        var stop = Assert.Single((await Gate.ReportAsync(_shop.Owner, jobId, CancellationToken.None)).Standing).Finding;
        Assert.True((await SignOffAsync(jobId, stop)).Succeeded);
        Assert.True((await Gate.ReportAsync(_shop.Owner, jobId, CancellationToken.None)).CanDeliver);

        await _shop.SaveAsync(db => db.FactoryFunctions.Single(function => function.Id == Guid.Parse(stop.SubjectId)).TryAfter(FunctionResult.NotFitted, "", "Tom Tech", _shop.Time.GetUtcNow()));

        var report = await Gate.ReportAsync(_shop.Owner, jobId, CancellationToken.None);
        Assert.Null(Assert.Single(report.Standing).SignOff);
        Assert.False((await Gate.DeliverAsync(_shop.Desk, jobId, CancellationToken.None)).Succeeded);
    }

    [Fact]
    public async Task Finding_the_owner_has_not_read_as_it_is_cannot_be_signed_off()
    {
        var jobId = await _shop.ReadyJobAsync();
        await PutInTheWayAsync(jobId, "unexplained");
        var stop = Assert.Single((await Gate.ReportAsync(_shop.Owner, jobId, CancellationToken.None)).Standing).Finding;

        var stale = await Gate.SignOffAsync(_shop.Owner, jobId, stop.Code, stop.SubjectId, stop.Text + " (old)", Reason, CancellationToken.None);
        var shortReason = await Gate.SignOffAsync(_shop.Owner, jobId, stop.Code, stop.SubjectId, stop.Text, "fine   ok ", CancellationToken.None);

        Assert.Contains("reads differently", stale.Message, StringComparison.Ordinal);
        Assert.Contains("at least 10", shortReason.Message, StringComparison.Ordinal);
        await Assert.ThrowsAsync<NotAllowedException>(() => Gate.SignOffAsync(_shop.Desk, jobId, stop.Code, stop.SubjectId, stop.Text, Reason, CancellationToken.None));
    }

    [Fact]
    public async Task Alike_findings_are_signed_off_with_one_reason_and_each_has_its_own_line_in_the_trail()
    {
        var jobId = await _shop.ReadyJobAsync();
        await _shop.AddStageAsync(jobId, "Trim", 1, "Fit the trim", "Fit the cover", "Fit the handle");
        var alike = (await Gate.ReportAsync(_shop.Owner, jobId, CancellationToken.None)).Standing.Select(gated => gated.Finding).ToList();
        Assert.Equal(3, alike.Count);

        var outcome = await Gate.SignOffAlikeAsync(_shop.Owner, jobId, alike[0].Code, Read(alike), Reason, CancellationToken.None);

        Assert.True(outcome.Succeeded, outcome.Message);
        var report = await Gate.ReportAsync(_shop.Owner, jobId, CancellationToken.None);
        Assert.True(report.CanDeliver);
        Assert.All(report.Findings, gated => Assert.Equal(Reason, gated.SignOff?.Reason));
        var lines = await _shop.ReadAsync(db => db.AuditEntries.Where(entry => entry.Action == "SignedOff").ToListAsync());
        Assert.Equal(outcome.Value.Order(), lines.Select(line => line.SubjectId).Order());
        Assert.All(lines, line => Assert.Equal((Reason, "Odile Owner"), (line.Reason, line.ActorName)));

        await Gate.WithdrawSignOffAsync(_shop.Owner, outcome.Value[1], CancellationToken.None);
        Assert.Equal(alike[1].SubjectId, Assert.Single((await Gate.ReportAsync(_shop.Owner, jobId, CancellationToken.None)).Standing).Finding.SubjectId);
    }

    [Fact]
    public async Task One_of_several_that_reads_differently_leaves_them_all_standing()
    {
        var jobId = await _shop.ReadyJobAsync();
        await _shop.AddStageAsync(jobId, "Trim", 1, "Fit the trim", "Fit the cover");
        var alike = (await Gate.ReportAsync(_shop.Owner, jobId, CancellationToken.None)).Standing.Select(gated => gated.Finding).ToList();
        var read = Read(alike);

        var stale = await Gate.SignOffAlikeAsync(_shop.Owner, jobId, alike[0].Code, [read[0], read[1] with { Text = "Something else." }], Reason, CancellationToken.None);
        var none = await Gate.SignOffAlikeAsync(_shop.Owner, jobId, alike[0].Code, [], Reason, CancellationToken.None);

        Assert.Contains("reads differently", stale.Message, StringComparison.Ordinal);
        Assert.Contains("No finding", none.Message, StringComparison.Ordinal);
        Assert.Equal(0, await _shop.ReadAsync(db => db.SignOffs.CountAsync()));
        await Assert.ThrowsAsync<NotAllowedException>(() => Gate.SignOffAlikeAsync(_shop.Desk, jobId, alike[0].Code, read, Reason, CancellationToken.None));
    }

    [Fact]
    public async Task Withdrawn_sign_off_covers_nothing()
    {
        var jobId = await _shop.ReadyJobAsync();
        await PutInTheWayAsync(jobId, "unsigned");
        var stop = Assert.Single((await Gate.ReportAsync(_shop.Owner, jobId, CancellationToken.None)).Standing).Finding;
        var signOff = await SignOffAsync(jobId, stop);

        await Gate.WithdrawSignOffAsync(_shop.Owner, signOff.Value, CancellationToken.None);

        Assert.False((await Gate.ReportAsync(_shop.Owner, jobId, CancellationToken.None)).CanDeliver);
    }

    [Fact]
    public async Task A_delivered_job_takes_no_sign_off_and_gives_none_back()
    {
        var jobId = await _shop.ReadyJobAsync();
        await PutInTheWayAsync(jobId, "unexplained");
        await PutInTheWayAsync(jobId, "found problem");
        var report = await Gate.ReportAsync(_shop.Owner, jobId, CancellationToken.None);
        Assert.True((await SignOffAsync(jobId, Assert.Single(report.Standing).Finding)).Succeeded);
        Assert.True((await Gate.DeliverAsync(_shop.Desk, jobId, CancellationToken.None)).Succeeded);
        var signOff = await _shop.ReadAsync(db => db.SignOffs.SingleAsync());

        var signed = await SignOffAsync(jobId, report.Findings.Single(gated => gated.Finding.Severity == Severity.Warn).Finding);
        var withdrawn = await Gate.WithdrawSignOffAsync(_shop.Owner, signOff.Id, CancellationToken.None);

        Assert.All([signed.Message, withdrawn.Message], message => Assert.Contains("is delivered; reopen it", message, StringComparison.Ordinal));
        Assert.Null((await _shop.ReadAsync(db => db.SignOffs.SingleAsync())).WithdrawnAt);
    }

    [Fact]
    public async Task Reopened_job_is_delivered_again_under_the_next_number_and_the_first_release_stays()
    {
        var jobId = await _shop.ReadyJobAsync();
        await Gate.DeliverAsync(_shop.Desk, jobId, CancellationToken.None);
        var first = await _shop.Get<Handovers>().ReleasedAsync(_shop.Desk, jobId, 1, CancellationToken.None);

        Assert.False((await Gate.DeliverAsync(_shop.Desk, jobId, CancellationToken.None)).Succeeded);
        await Assert.ThrowsAsync<NotAllowedException>(() => Gate.ReopenAsync(_shop.Desk, jobId, Reason, CancellationToken.None));
        Assert.False((await Gate.ReopenAsync(_shop.Owner, jobId, "no", CancellationToken.None)).Succeeded);
        Assert.True((await Gate.ReopenAsync(_shop.Owner, jobId, Reason, CancellationToken.None)).Succeeded);
        await _shop.AddPartAsync(jobId, "Remote knob", part => (part.UnitMassKilograms, part.Data) = (0.1, new AccessoryData { WorkingAmperes = 0 }), PartState.Fitted);
        var second = await Gate.DeliverAsync(_shop.Desk, jobId, CancellationToken.None);

        Assert.Equal(2, second.Value);
        var kept = await _shop.Get<Handovers>().ReleasedAsync(_shop.Desk, jobId, 1, CancellationToken.None);
        Assert.Equal(first!.Pdf.ToArray(), kept!.Pdf.ToArray()); // both were released above
        Assert.DoesNotContain(kept.Facts.System, group => group.Parts.Any(part => part.Name == "Remote knob"));
    }

    [Fact]
    public async Task Handover_gathers_what_was_entered_elsewhere()
    {
        var jobId = await _shop.ReadyJobAsync();
        await _shop.AddPartAsync(jobId, "Spare fuse", part =>
        {
            (part.Kind, part.Zone, part.Place, part.Notes, part.Access) = (PartKind.Fuse, "engine-bay-left", "beside the battery", "Spare feed", "lift the cover");
            part.Data = new FuseData { RatingAmperes = 80, Form = "Bolt-in" };
            part.UnitMassKilograms = 0.1;
        });
        await _shop.Get<Shop.Phases.Tuning.SettingsSheet>().AddAsync(_shop.Technician, jobId, new() { Device = "Amplifier", Setting = "High-pass", Value = "80 Hz" }, CancellationToken.None);

        var facts = await _shop.Get<Handovers>().FactsAsync(_shop.Technician, jobId, CancellationToken.None);

        var fuse = Assert.Single(facts.Fuses);
        Assert.Equal(("Spare fuse", 80.0, "Engine bay, left: beside the battery", "Spare feed"), (fuse.Fuse, fuse.RatingAmperes!.Value, fuse.Place, fuse.Protects)); // set above
        Assert.Equal("lift the cover", Assert.Single(facts.Access).Way);
        Assert.Equal("80 Hz", Assert.Single(facts.Settings).Value);
        Assert.Equal((1.3, 0), (Math.Round(facts.Mass.AddedKilograms, 6), facts.Mass.UnknownParts));
        Assert.Contains(facts.Cautions, caution => caution.IsDanger && caution.Text.Contains("same form and rating", StringComparison.Ordinal));
    }

    [Fact]
    public async Task The_client_reads_the_caution_of_a_batterys_kind_and_not_that_the_shop_did_not_enter_it()
    {
        var jobId = await _shop.ReadyJobAsync();
        await _shop.AddPartAsync(jobId, PartBuilder.Of(PartKind.Battery, "Unknown", new BatteryData()));
        await _shop.AddPartAsync(jobId, PartBuilder.Of(PartKind.Battery, "Gel", new BatteryData { Chemistry = "gel" }));
        await _shop.AddPartAsync(jobId, PartBuilder.Of(PartKind.Capacitor, "Capacitor", new CapacitorData { Farads = 1 }));

        var cautions = (await _shop.Get<Handovers>().FactsAsync(_shop.Technician, jobId, CancellationToken.None)).Cautions.Select(caution => caution.Text).ToList();

        Assert.DoesNotContain(cautions, text => text.Contains("not known", StringComparison.Ordinal));
        Assert.Single(cautions, text => text.StartsWith("Gel battery: ", StringComparison.Ordinal));
        Assert.Contains(WorkSafety.Capacitor, cautions);
    }

    [Fact]
    public async Task The_fuse_map_uses_the_marks_that_are_on_the_labels()
    {
        var jobId = await _shop.ReadyJobAsync();
        await _shop.AddPartAsync(jobId, PartBuilder.Of(PartKind.Fuse, "Fuse for the winch", new FuseData { RatingAmperes = 80 }));
        await _shop.AddPartAsync(jobId, PartBuilder.Amplifier());

        var map = (await _shop.Get<Handovers>().FactsAsync(_shop.Technician, jobId, CancellationToken.None)).Fuses;
        var labels = (await _shop.Get<Shop.Phases.Design.WiringSchedules>().GetAsync(_shop.Technician, jobId, ShopFloor.Engineering.Units.UnitText.Invariant, CancellationToken.None))!.Fuses; // the job is there

        Assert.Equal(labels.Select(fuse => (fuse.Mark, (double?)fuse.RatingAmperes)), map.Take(labels.Count).Select(fuse => (fuse.Mark, fuse.RatingAmperes)));
        Assert.Equal(("F3", "Fuse for the winch"), (map[^1].Mark, map[^1].Fuse));
    }

    [Fact]
    public async Task Notes_saved_from_an_old_version_meet_a_conflict()
    {
        var jobId = await _shop.ReadyJobAsync();
        var handovers = _shop.Get<Handovers>();
        var mine = await handovers.NotesAsync(_shop.Desk, jobId, CancellationToken.None);
        var theirs = await handovers.NotesAsync(_shop.Owner, jobId, CancellationToken.None);
        theirs.Form.Care = "Wipe with a dry cloth.";
        Assert.True((await handovers.SaveNotesAsync(_shop.Owner, jobId, theirs.Version, theirs.Form, CancellationToken.None)).Succeeded);
        mine.Form.Warranty = "Two years.";

        var outcome = await handovers.SaveNotesAsync(_shop.Desk, jobId, mine.Version, mine.Form, CancellationToken.None);

        Assert.NotNull(outcome.Conflict);
        Assert.Equal(("Odile Owner", 2), (outcome.Conflict.ChangedBy, outcome.Conflict.Differences.Count));
    }

    private Task<Common.Outcome<Guid>> SignOffAsync(Guid jobId, Finding finding) =>
        Gate.SignOffAsync(_shop.Owner, jobId, finding.Code, finding.SubjectId, finding.Text, Reason, CancellationToken.None);

    private static List<ReadFinding> Read(IEnumerable<Finding> findings) => [.. findings.Select(finding => new ReadFinding(finding.SubjectId, finding.Text))];

    private async Task PutInTheWayAsync(Guid jobId, string obstacle)
    {
        var now = _shop.Time.GetUtcNow();
        switch (obstacle)
        {
            case "step":
                await _shop.AddStageAsync(jobId, "Trim", 1, "Fit the trim");
                break;
            case "second person":
                var stage = new JobStage(jobId, new TemplateStage("Supply", JobPhase.Build, 1, [new TemplateStep("Torque the battery terminal", NeedsSecondPerson: true)]), 5);
                stage.Steps[0].Tick(_shop.Technician.Id, "Tom Tech", now, null);
                await _shop.SaveAsync(db => db.JobStages.Add(stage));
                break;
            case "blocker":
                await _shop.SaveAsync(db => db.Blockers.Add(new Blocker(jobId, null, BlockerKind.Blocker, "Panel cracked", "Tom Tech", now)));
                break;
            case "found problem":
                await _shop.SaveAsync(db => db.Blockers.Add(new Blocker(jobId, null, BlockerKind.FoundProblem, "Rust under the carpet", "Tom Tech", now)));
                break;
            case "not tried after":
                await _shop.SaveAsync(db => db.FactoryFunctions.OrderBy(function => function.Order).First().TryAfter(FunctionResult.NotTried, "", "", now));
                break;
            case "unexplained":
                await _shop.SaveAsync(db => db.FactoryFunctions.OrderBy(function => function.Order).First().TryAfter(FunctionResult.Faulty, "", "Tom Tech", now));
                break;
            case "unsigned":
                await _shop.SaveAsync(db => db.CheckIns.Single().OpenAgain());
                break;
            case "part not fitted":
                await _shop.AddPartAsync(jobId, "Late part", part => (part.UnitMassKilograms, part.Data) = (0.1, new AccessoryData { WorkingAmperes = 0 }), PartState.Ordered);
                break;
            case "no notes":
                await _shop.SaveAsync(db => db.HandoverNotes.Remove(db.HandoverNotes.Single()));
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(obstacle), obstacle, null);
        }
    }
}
