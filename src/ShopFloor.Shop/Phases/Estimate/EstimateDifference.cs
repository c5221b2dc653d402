namespace ShopFloor.Shop.Phases.Estimate;

/// <summary>How the job as it stands now differs from the estimate the client approved.</summary>
/// <param name="ApprovedNumber">Number of the approved version.</param>
/// <param name="ApprovedNet">What was approved, net.</param>
/// <param name="Net">What the job comes to now, net.</param>
/// <param name="Lines">The lines that differ.</param>
public sealed record EstimateDifference(int ApprovedNumber, decimal ApprovedNet, decimal Net, IReadOnlyList<EstimateLineDifference> Lines)
{
    /// <summary>More than approved when above zero, net.</summary>
    public decimal By => Net - ApprovedNet;

    /// <returns>Null when every line reads as approved.</returns>
    public static EstimateDifference? Between(EstimateVersion approved, EstimateDraft now)
    {
        var before = approved.Lines.ToDictionary(line => line.SourceId);
        var after = now.Lines.ToDictionary(line => line.SourceId);
        var lines = new List<EstimateLineDifference>();
        foreach (var line in now.Lines)
        {
            if (!before.TryGetValue(line.SourceId, out var old))
            {
                lines.Add(new EstimateLineDifference(line.Text, null, line));
            }
            else if (old != line)
            {
                lines.Add(new EstimateLineDifference(line.Text, old, line));
            }
        }

        lines.AddRange(approved.Lines.Where(line => !after.ContainsKey(line.SourceId)).Select(line => new EstimateLineDifference(line.Text, line, null)));
        return lines.Count == 0 && now.Gaps.Count == 0 && approved.NetTotal == now.Net ? null : new EstimateDifference(approved.Number, approved.NetTotal, now.Net, lines);
    }
}

/// <param name="Text">What the line is about.</param>
/// <param name="Approved">The line as approved; null when it is new.</param>
/// <param name="Now">The line as it would read now; null when it is gone.</param>
public sealed record EstimateLineDifference(string Text, EstimateLine? Approved, EstimateLine? Now)
{
    public decimal By => (Now?.Total ?? 0) - (Approved?.Total ?? 0);
}
