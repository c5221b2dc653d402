using Microsoft.EntityFrameworkCore;
using ShopFloor.Shop.Phases.Build;
using ShopFloor.Shop.Staff;
using static ShopFloor.Shop.Tests.Phases.Build.StageBuilder;

namespace ShopFloor.Shop.Tests.Phases.Build;

public sealed class TimeClockTests : IAsyncLifetime
{
    private readonly TestShop _shop = new();

    public Task InitializeAsync() => _shop.InitializeAsync();

    public Task DisposeAsync() => _shop.DisposeAsync();

    private TimeClock Clock => _shop.Get<TimeClock>();

    [Fact]
    public async Task Starting_elsewhere_ends_what_ran()
    {
        var (first, second) = (await _shop.PlannedJobAsync(Stage("Cabling", Step())), await _shop.PlannedJobAsync(Stage("Fitting", Step())));
        await StartAsync(first.Stages[0].Id);
        _shop.Time.Advance(TimeSpan.FromMinutes(40));

        await StartAsync(second.Stages[0].Id);

        var entry = Assert.Single(await Clock.EntriesAsync(_shop.Technician, first.JobId, CancellationToken.None));
        Assert.Equal(TimeSpan.FromMinutes(40), entry.StoppedAt - entry.StartedAt);
        Assert.Equal("Fitting", (await Clock.MineAsync(_shop.Technician, CancellationToken.None))?.StageName);
        Assert.Equal(0, (await _shop.ProgressAsync(first.JobId)).Working);
        Assert.Equal(1, (await _shop.ProgressAsync(second.JobId)).Working);
    }

    [Fact]
    public async Task Two_people_run_side_by_side()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        await StartAsync(sheet.Stages[0].Id);

        await Clock.StartAsync(_shop.SecondTechnician, NewId(), sheet.Stages[0].Id, null, CancellationToken.None);

        Assert.Equal(2, (await Clock.RunningAsync(_shop.Technician, CancellationToken.None)).Count);
        Assert.Equal(2, (await _shop.ProgressAsync(sheet.JobId)).Working);
    }

    [Fact]
    public async Task Start_and_stop_sent_again_change_nothing()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        var (start, stop) = (NewId(), NewId());
        await Clock.StartAsync(_shop.Technician, start, sheet.Stages[0].Id, null, CancellationToken.None);
        _shop.Time.Advance(TimeSpan.FromMinutes(30));
        await Clock.StopAsync(_shop.Technician, stop, null, CancellationToken.None);
        _shop.Time.Advance(TimeSpan.FromMinutes(30));

        await Clock.StartAsync(_shop.Technician, start, sheet.Stages[0].Id, null, CancellationToken.None);
        await Clock.StopAsync(_shop.Technician, stop, null, CancellationToken.None);

        var entry = Assert.Single(await Clock.EntriesAsync(_shop.Technician, sheet.JobId, CancellationToken.None));
        Assert.Equal(TimeSpan.FromMinutes(30), entry.StoppedAt - entry.StartedAt);
    }

    [Fact]
    public async Task A_press_sent_later_counts_from_when_it_was_made_and_says_so()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        var made = _shop.Time.GetUtcNow();
        _shop.Time.Advance(TimeSpan.FromMinutes(50));

        await StartAsync(sheet.Stages[0].Id, made);

        var entry = Assert.Single(await Clock.EntriesAsync(_shop.Technician, sheet.JobId, CancellationToken.None));
        Assert.Equal(made, entry.StartedAt);
        Assert.Contains("without a connection", entry.Note, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(-13 * 60)]
    [InlineData(5)]
    public async Task A_press_time_that_is_too_old_or_in_the_future_is_not_believed(int minutes)
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        var now = _shop.Time.GetUtcNow();

        await StartAsync(sheet.Stages[0].Id, now.AddMinutes(minutes));

        Assert.Equal(now, Assert.Single(await Clock.EntriesAsync(_shop.Technician, sheet.JobId, CancellationToken.None)).StartedAt);
    }

    [Fact]
    public async Task A_start_that_arrives_late_takes_its_part_of_what_was_running()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()), Stage("Fitting", Step()));
        var nine = _shop.Time.GetUtcNow();
        await StartAsync(sheet.Stages[0].Id);
        _shop.Time.Advance(TimeSpan.FromMinutes(90));
        await Clock.StopAsync(_shop.Technician, NewId(), null, CancellationToken.None);
        _shop.Time.Advance(TimeSpan.FromMinutes(10));

        await StartAsync(sheet.Stages[1].Id, nine.AddMinutes(60));

        var entries = await Clock.EntriesAsync(_shop.Technician, sheet.JobId, CancellationToken.None);
        Assert.Equal(
            [("Cabling", nine, nine.AddMinutes(60)), ("Fitting", nine.AddMinutes(60), nine.AddMinutes(90))],
            entries.Select(entry => (entry.StageName, entry.StartedAt, entry.StoppedAt!.Value))); // both have ended
    }

    [Fact]
    public async Task A_late_start_before_another_start_ends_where_that_began()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()), Stage("Fitting", Step()));
        var nine = _shop.Time.GetUtcNow();
        _shop.Time.Advance(TimeSpan.FromMinutes(60));
        await StartAsync(sheet.Stages[1].Id);
        _shop.Time.Advance(TimeSpan.FromMinutes(60));

        await StartAsync(sheet.Stages[0].Id, nine);

        var entries = await Clock.EntriesAsync(_shop.Technician, sheet.JobId, CancellationToken.None);
        Assert.Equal(
            [("Cabling", (DateTimeOffset?)nine.AddMinutes(60)), ("Fitting", null)],
            entries.Select(entry => (entry.StageName, entry.StoppedAt)));
    }

    [Fact]
    public async Task Stretches_of_one_person_never_overlap_in_whatever_order_the_presses_arrive()
    {
        var sheet = await _shop.PlannedJobAsync([.. Enumerable.Range(0, 4).Select(stage => Stage($"Stage {stage}", Step()))]);
        var begin = _shop.Time.GetUtcNow();
        _shop.Time.Advance(TimeSpan.FromHours(11));
        var random = new Random(20310303);
        for (var press = 0; press < 60; press++)
        {
            var at = begin.AddMinutes(random.Next(0, 11 * 60));
            var outcome = random.Next(3) == 0
                ? await Clock.StopAsync(_shop.Technician, NewId(), at, CancellationToken.None)
                : await Clock.StartAsync(_shop.Technician, NewId(), sheet.Stages[random.Next(4)].Id, at, CancellationToken.None);
            Assert.True(outcome.Succeeded, outcome.Message);
        }

        var entries = await Clock.EntriesAsync(_shop.Technician, sheet.JobId, CancellationToken.None);
        Assert.True(entries.Count > 10);
        Assert.All(entries.Zip(entries.Skip(1)), pair => Assert.True(
            pair.First.StoppedAt is { } end && end <= pair.Second.StartedAt, $"{pair.First} overlaps {pair.Second}"));
        Assert.InRange(entries.Count(entry => entry.StoppedAt is null), 0, 1);
    }

    // Clocks in Vienna went from 02:00 to 03:00 on 30 March 2031, as on every last Sunday of March (Directive 2000/84/EC).
    [Fact]
    public async Task An_entry_across_the_spring_change_has_the_hours_that_passed()
    {
        await _shop.SetZoneAsync("Europe/Vienna");
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        _shop.Time.SetUtcNow(new DateTimeOffset(2031, 3, 30, 0, 30, 0, TimeSpan.Zero));
        await StartAsync(sheet.Stages[0].Id);
        _shop.Time.SetUtcNow(new DateTimeOffset(2031, 3, 30, 6, 0, 0, TimeSpan.Zero));
        await Clock.StopAsync(_shop.Technician, NewId(), null, CancellationToken.None);
        var entryId = (await Clock.EntriesAsync(_shop.Technician, sheet.JobId, CancellationToken.None))[0].EntryId;

        var never = await CorrectAsync(entryId, new DateTime(2031, 3, 30, 2, 30, 0), new DateTime(2031, 3, 30, 4, 0, 0));
        var right = await CorrectAsync(entryId, new DateTime(2031, 3, 30, 1, 30, 0), new DateTime(2031, 3, 30, 3, 30, 0));

        Assert.Equal("Started", Assert.Single(never.Problems).Field);
        Assert.True(right.Succeeded, right.Message);
        Assert.Equal(1m, (await _shop.SheetAsync(sheet.JobId)).Stages[0].SpentHours);
    }

    [Fact]
    public async Task In_the_doubled_hour_of_autumn_the_reading_next_to_the_recorded_time_is_meant()
    {
        await _shop.SetZoneAsync("Europe/Vienna");
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        _shop.Time.SetUtcNow(new DateTimeOffset(2031, 10, 26, 1, 20, 0, TimeSpan.Zero)); // 02:20 the second time round
        await StartAsync(sheet.Stages[0].Id);
        _shop.Time.SetUtcNow(new DateTimeOffset(2031, 10, 26, 5, 0, 0, TimeSpan.Zero));
        await Clock.StopAsync(_shop.Technician, NewId(), null, CancellationToken.None);
        var entryId = (await Clock.EntriesAsync(_shop.Technician, sheet.JobId, CancellationToken.None))[0].EntryId;

        await CorrectAsync(entryId, new DateTime(2031, 10, 26, 2, 30, 0), new DateTime(2031, 10, 26, 4, 30, 0));

        Assert.Equal(2m, (await _shop.SheetAsync(sheet.JobId)).Stages[0].SpentHours);
    }

    [Fact]
    public async Task A_correction_may_not_overlap_end_before_it_starts_or_lie_in_the_future()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()), Stage("Fitting", Step()));
        await StartAsync(sheet.Stages[0].Id);
        _shop.Time.Advance(TimeSpan.FromHours(1));
        await StartAsync(sheet.Stages[1].Id);
        _shop.Time.Advance(TimeSpan.FromHours(1));
        var entries = await Clock.EntriesAsync(_shop.Technician, sheet.JobId, CancellationToken.None);

        var overlap = await CorrectAsync(entries[0].EntryId, new DateTime(2031, 3, 3, 8, 0, 0), new DateTime(2031, 3, 3, 9, 30, 0));
        var backwards = await CorrectAsync(entries[0].EntryId, new DateTime(2031, 3, 3, 9, 0, 0), new DateTime(2031, 3, 3, 8, 0, 0));
        var future = await CorrectAsync(entries[1].EntryId, new DateTime(2031, 3, 3, 9, 0, 0), new DateTime(2031, 3, 3, 11, 0, 0));

        Assert.Contains("Fitting", overlap.Message, StringComparison.Ordinal);
        Assert.Equal("Stopped", Assert.Single(backwards.Problems).Field);
        Assert.Equal("Stopped", Assert.Single(future.Problems).Field);
    }

    [Fact]
    public async Task A_corrected_entry_is_no_longer_moved_by_late_presses()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()), Stage("Fitting", Step()));
        var eight = _shop.Time.GetUtcNow();
        await StartAsync(sheet.Stages[0].Id);
        _shop.Time.Advance(TimeSpan.FromHours(4));
        var entryId = (await Clock.EntriesAsync(_shop.Technician, sheet.JobId, CancellationToken.None))[0].EntryId;
        await CorrectAsync(entryId, new DateTime(2031, 3, 3, 8, 0, 0), new DateTime(2031, 3, 3, 11, 0, 0));

        await StartAsync(sheet.Stages[1].Id, eight.AddHours(2));

        var entries = await Clock.EntriesAsync(_shop.Technician, sheet.JobId, CancellationToken.None);
        Assert.Equal([(eight, eight.AddHours(3)), (eight.AddHours(3), default)], entries.Select(entry => (entry.StartedAt, entry.StoppedAt ?? default)));
    }

    [Fact]
    public async Task A_clock_left_running_is_pointed_out()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        await StartAsync(sheet.Stages[0].Id);
        _shop.Time.Advance(TimeSpan.FromHours(9.9));
        Assert.False((await Clock.RunningAsync(_shop.Owner, CancellationToken.None))[0].LooksForgotten(_shop.Time.GetUtcNow()));

        _shop.Time.Advance(TimeSpan.FromHours(0.1));

        Assert.True((await Clock.RunningAsync(_shop.Owner, CancellationToken.None))[0].LooksForgotten(_shop.Time.GetUtcNow()));
    }

    [Fact]
    public async Task The_cost_rate_of_the_day_stays_with_the_entry()
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        await SetRateAsync(31.5m);
        await StartAsync(sheet.Stages[0].Id);
        await SetRateAsync(40m);
        await Clock.StopAsync(_shop.Technician, NewId(), null, CancellationToken.None);

        Assert.Equal(31.5m, await _shop.Store.ReadAsync(db => db.TimeEntries.Select(entry => entry.CostPerHour).SingleAsync(), CancellationToken.None));
    }

    [Theory]
    [InlineData(ShopRole.Technician, false)]
    [InlineData(ShopRole.FrontDesk, false)]
    [InlineData(ShopRole.Owner, true)]
    public async Task Only_the_owner_corrects_time(ShopRole role, bool allowed)
    {
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        await StartAsync(sheet.Stages[0].Id);
        _shop.Time.Advance(TimeSpan.FromHours(2));
        var entryId = (await Clock.EntriesAsync(_shop.Technician, sheet.JobId, CancellationToken.None))[0].EntryId;
        var actor = _shop.Owner with { Role = role };
        var form = new CorrectTime { Started = new DateTime(2031, 3, 3, 8, 0, 0), Stopped = new DateTime(2031, 3, 3, 9, 0, 0), Reason = "Forgotten" };

        if (allowed)
        {
            Assert.True((await Clock.CorrectAsync(actor, entryId, form, CancellationToken.None)).Succeeded);
        }
        else
        {
            await Assert.ThrowsAsync<NotAllowedException>(() => Clock.CorrectAsync(actor, entryId, form, CancellationToken.None));
        }
    }

    [Fact]
    public async Task Time_nobody_pressed_a_button_for_is_added_at_the_persons_rate_with_a_reason()
    {
        await SetRateAsync(42);
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        _shop.Time.Advance(TimeSpan.FromHours(6));

        var added = await ForgottenAsync(sheet, sheet.Stages[0].Id, _shop.Technician.Id, 8, 10);

        Assert.True(added.Succeeded, added.Message);
        var entry = Assert.Single(await Clock.EntriesAsync(_shop.Owner, sheet.JobId, CancellationToken.None));
        Assert.Equal((2, "Added later: Tablet was flat"), (entry.HoursUntil(default), entry.Note));
        Assert.Equal(42, await _shop.Store.ReadAsync(db => db.TimeEntries.Select(found => found.CostPerHour).SingleAsync(), CancellationToken.None));
    }

    [Fact]
    public async Task Forgotten_time_names_what_is_missing_and_does_not_overlap()
    {
        await SetRateAsync(42);
        var (sheet, other) = (await _shop.PlannedJobAsync(Stage("Cabling", Step())), await _shop.PlannedJobAsync(Stage("Fitting", Step())));
        _shop.Time.Advance(TimeSpan.FromHours(6));
        (await ForgottenAsync(sheet, sheet.Stages[0].Id, _shop.Technician.Id, 8, 10)).Must();

        var nobody = await ForgottenAsync(sheet, other.Stages[0].Id, null, 10, 11);
        var overlap = await ForgottenAsync(other, other.Stages[0].Id, _shop.Technician.Id, 9, 11);

        Assert.Equal([nameof(ForgottenTime.StaffId), nameof(ForgottenTime.StageId)], nobody.Problems.Select(problem => problem.Field));
        Assert.Contains("Cabling", overlap.Message, StringComparison.Ordinal);
        await Assert.ThrowsAsync<NotAllowedException>(() => Clock.AddForgottenAsync(_shop.Desk, sheet.JobId, new ForgottenTime(), CancellationToken.None));
    }

    [Fact]
    public async Task A_removed_entry_leaves_every_sum_stays_in_the_trail_and_comes_back()
    {
        await SetRateAsync(42);
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        _shop.Time.Advance(TimeSpan.FromHours(6));
        var entryId = (await ForgottenAsync(sheet, sheet.Stages[0].Id, _shop.Technician.Id, 8, 10)).Must();

        var removed = await Clock.RemoveAsync(_shop.Owner, entryId, "Was on the other car", CancellationToken.None);

        Assert.True(removed.Succeeded, removed.Message);
        Assert.Empty(await Clock.EntriesAsync(_shop.Owner, sheet.JobId, CancellationToken.None));
        Assert.Equal(0, (await _shop.Get<WorkSheets>().SheetAsync(_shop.Owner, sheet.JobId, CancellationToken.None))!.Stages[0].SpentHours); // the job was just planned
        var line = await _shop.Store.ReadAsync(db => db.AuditEntries.SingleAsync(found => found.Action == "Removed"), CancellationToken.None);
        Assert.Equal((entryId, "Was on the other car"), (line.SubjectId, line.Reason));

        Assert.True((await Clock.BringBackAsync(_shop.Owner, entryId, CancellationToken.None)).Succeeded);
        Assert.Equal(2, Assert.Single(await Clock.EntriesAsync(_shop.Owner, sheet.JobId, CancellationToken.None)).HoursUntil(default));
    }

    [Fact]
    public async Task A_removed_entry_does_not_come_back_over_time_given_to_another()
    {
        await SetRateAsync(42);
        var (sheet, other) = (await _shop.PlannedJobAsync(Stage("Cabling", Step())), await _shop.PlannedJobAsync(Stage("Fitting", Step())));
        _shop.Time.Advance(TimeSpan.FromHours(6));
        var entryId = (await ForgottenAsync(sheet, sheet.Stages[0].Id, _shop.Technician.Id, 8, 10)).Must();
        await Clock.RemoveAsync(_shop.Owner, entryId, "Was on the other car", CancellationToken.None);
        (await ForgottenAsync(other, other.Stages[0].Id, _shop.Technician.Id, 8, 10)).Must();

        var back = await Clock.BringBackAsync(_shop.Owner, entryId, CancellationToken.None);

        Assert.Contains("Fitting", back.Message, StringComparison.Ordinal);
        Assert.Contains("reason", (await Clock.RemoveAsync(_shop.Owner, entryId, " ", CancellationToken.None)).Message, StringComparison.OrdinalIgnoreCase);
        await Assert.ThrowsAsync<NotAllowedException>(() => Clock.RemoveAsync(_shop.Desk, entryId, "Mine", CancellationToken.None));
    }

    [Fact]
    public async Task A_running_clock_that_is_removed_no_longer_counts_as_work()
    {
        await SetRateAsync(42);
        var sheet = await _shop.PlannedJobAsync(Stage("Cabling", Step()));
        await StartAsync(sheet.Stages[0].Id);
        var entry = Assert.Single(await Clock.EntriesAsync(_shop.Owner, sheet.JobId, CancellationToken.None));

        await Clock.RemoveAsync(_shop.Owner, entry.EntryId, "Started on the wrong job", CancellationToken.None);

        Assert.Null(await Clock.MineAsync(_shop.Technician, CancellationToken.None));
        Assert.Equal(0, (await _shop.ProgressAsync(sheet.JobId)).Working);
    }

    private Task<Common.Outcome<Guid>> ForgottenAsync(WorkSheet sheet, Guid stageId, Guid? staffId, int from, int to) =>
        Clock.AddForgottenAsync(
            _shop.Owner,
            sheet.JobId,
            new ForgottenTime
            {
                StaffId = staffId,
                StageId = stageId,
                Times = new CorrectTime { Started = new DateTime(2031, 3, 3, from, 0, 0), Stopped = new DateTime(2031, 3, 3, to, 0, 0), Reason = "Tablet was flat" },
            },
            CancellationToken.None);

    private async Task StartAsync(Guid stageId, DateTimeOffset? pressedAt = null)
    {
        var outcome = await Clock.StartAsync(_shop.Technician, NewId(), stageId, pressedAt, CancellationToken.None);
        Assert.True(outcome.Succeeded, outcome.Message);
    }

    private Task<Common.Outcome<Common.Done>> CorrectAsync(Guid entryId, DateTime started, DateTime stopped) =>
        Clock.CorrectAsync(_shop.Owner, entryId, new CorrectTime { Started = started, Stopped = stopped, Reason = "Clock was forgotten" }, CancellationToken.None);

    private async Task SetRateAsync(decimal rate) =>
        await _shop.Store.WriteAsync<Common.Done>(
            _shop.Owner,
            async db =>
            {
                var member = await db.Users.SingleOrDefaultAsync();
                if (member is null)
                {
                    member = new StaffMember("tom", "Tom Tech", ShopRole.Technician) { Id = _shop.Technician.Id!.Value }; // staff of a test have ids
                    db.Users.Add(member);
                }

                member.CostPerHour = rate;
                return Common.Done.Value;
            },
            CancellationToken.None);
}
