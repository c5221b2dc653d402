using ShopFloor.Shop.Jobs;

namespace ShopFloor.Web.Phases.Build;

/// <summary>Form fields that tell the photo queue what a photo belongs to.</summary>
internal static class PhotoFields
{
    public static IReadOnlyDictionary<string, string> Of(Guid jobId, PhotoSubject subject, Guid? subjectId)
    {
        var fields = new Dictionary<string, string> { ["jobId"] = jobId.ToString(), ["subject"] = subject.ToString() };
        if (subjectId is { } id)
        {
            fields["subjectId"] = id.ToString();
        }

        return fields;
    }
}
