using ShopFloor.Shop.Jobs;
using ShopFloor.Shop.Storage;
using ShopFloor.Shop.Storage.Audit;

namespace ShopFloor.Shop.Phases.Build;

/// <summary>A stage of one job, copied from the shop's template when the job was planned.</summary>
public sealed class JobStage : IAudited, IVersioned
{
    private readonly List<JobStep> _steps = [];

    public JobStage(Guid jobId, TemplateStage template, int order)
    {
        Id = Guid.CreateVersion7();
        JobId = jobId;
        Order = order;
        Name = template.Name;
        Phase = template.Phase;
        PlannedHours = template.PlannedHours;
        IsCommissioning = template.IsCommissioning;
        foreach (var step in template.Steps)
        {
            _steps.Add(new JobStep(jobId, Id, step, _steps.Count));
        }
    }

    private JobStage()
    {
    }

    public Guid Id { get; private set; }

    public Guid Version { get; private set; }

    public Guid JobId { get; private set; }

    public int Order { get; private set; }

    public string Name { get; set; } = "";

    public JobPhase Phase { get; private set; }

    public decimal PlannedHours { get; set; }

    /// <summary>Whether new wiring is switched on in it.</summary>
    public bool IsCommissioning { get; private set; }

    public IReadOnlyList<JobStep> Steps => _steps;

    /// <summary>A stage is done when every required step is; a stage without required steps when every step is.</summary>
    public bool IsDone
    {
        get
        {
            var required = _steps.Where(step => step.Required).ToList();
            var deciding = required.Count > 0 ? required : _steps;
            return _steps.Count > 0 && deciding.All(step => step.IsDone);
        }
    }

    public void MoveTo(int order) => Order = order;

    public JobStep AddStep(TemplateStep template)
    {
        var step = new JobStep(JobId, Id, template, _steps.Count == 0 ? 0 : _steps.Max(existing => existing.Order) + 1);
        _steps.Add(step);
        return step;
    }

    string IAudited.AuditName => Name;

    Guid? IAudited.AuditJobId => JobId;
}
