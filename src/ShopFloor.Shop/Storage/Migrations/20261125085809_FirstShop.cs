using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ShopFloor.Shop.Storage.Migrations
{
    /// <inheritdoc />
    public partial class FirstShop : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "ApiTokens",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Hash = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Scope = table.Column<string>(type: "TEXT", nullable: false),
                    PersonId = table.Column<Guid>(type: "TEXT", nullable: true),
                    CreatedBy = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    CreatedAt = table.Column<DateTime>(type: "TEXT", nullable: false),
                    ExpiresAt = table.Column<DateTime>(type: "TEXT", nullable: false),
                    RevokedAt = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ApiTokens", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "AuditEntries",
                columns: table => new
                {
                    Sequence = table.Column<long>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    At = table.Column<DateTime>(type: "TEXT", nullable: false),
                    ActorId = table.Column<Guid>(type: "TEXT", nullable: true),
                    ActorName = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Via = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Action = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    SubjectType = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    SubjectId = table.Column<Guid>(type: "TEXT", nullable: false),
                    SubjectName = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: true),
                    ChangesJson = table.Column<string>(type: "TEXT", maxLength: 4000000, nullable: false),
                    Reason = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    PreviousHash = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Hash = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AuditEntries", x => x.Sequence);
                });

            migrationBuilder.CreateTable(
                name: "Blockers",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    StageId = table.Column<Guid>(type: "TEXT", nullable: true),
                    Kind = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    Text = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    ReportedBy = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    ReportedAt = table.Column<DateTime>(type: "TEXT", nullable: false),
                    Resolution = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    ResolvedBy = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    ResolvedAt = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Blockers", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "CatalogueParts",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false),
                    SearchText = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    RemovedAt = table.Column<DateTime>(type: "TEXT", nullable: true),
                    Kind = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Supplier = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    PartNumber = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Unit = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    UnitCost = table.Column<decimal>(type: "TEXT", precision: 18, scale: 4, nullable: true),
                    UnitPrice = table.Column<decimal>(type: "TEXT", precision: 18, scale: 4, nullable: true),
                    UnitMassKilograms = table.Column<double>(type: "REAL", nullable: true),
                    Data = table.Column<string>(type: "TEXT", nullable: false),
                    Notes = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_CatalogueParts", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "CheckIns",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    WarningLights = table.Column<string>(type: "TEXT", nullable: false),
                    NoWarningLights = table.Column<bool>(type: "INTEGER", nullable: false),
                    BatteryVolts = table.Column<double>(type: "REAL", nullable: true),
                    EnergyPercent = table.Column<int>(type: "INTEGER", nullable: true),
                    Belongings = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Notes = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    SignerName = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    SignaturePath = table.Column<string>(type: "TEXT", maxLength: 200000, nullable: false),
                    SignedContentHash = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    SignedAt = table.Column<DateTime>(type: "TEXT", nullable: true),
                    SignedBefore = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_CheckIns", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Clients",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Phone = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Email = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Address = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Notes = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    SearchText = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    CreatedAt = table.Column<DateTime>(type: "TEXT", nullable: false),
                    RemovedAt = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Clients", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "CommandReceipts",
                columns: table => new
                {
                    CommandId = table.Column<Guid>(type: "TEXT", nullable: false),
                    ActorId = table.Column<Guid>(type: "TEXT", nullable: true),
                    At = table.Column<DateTime>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_CommandReceipts", x => x.CommandId);
                });

            migrationBuilder.CreateTable(
                name: "ConditionMarks",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Number = table.Column<int>(type: "INTEGER", nullable: false),
                    Kind = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    X = table.Column<double>(type: "REAL", nullable: false),
                    Y = table.Column<double>(type: "REAL", nullable: false),
                    Area = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Note = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    RemovedAt = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ConditionMarks", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "DesignReleases",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Number = table.Column<int>(type: "INTEGER", nullable: false),
                    PlanInputJson = table.Column<string>(type: "TEXT", maxLength: 2000000, nullable: false),
                    PlanResultJson = table.Column<string>(type: "TEXT", maxLength: 2000000, nullable: false),
                    ReleasedBy = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    ReleasedAt = table.Column<DateTime>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_DesignReleases", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "ElectricalSettings",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Form = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ElectricalSettings", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Estimates",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Number = table.Column<int>(type: "INTEGER", nullable: false),
                    Currency = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Lines = table.Column<string>(type: "TEXT", maxLength: 2000000, nullable: false),
                    TaxPercent = table.Column<decimal>(type: "TEXT", precision: 18, scale: 4, nullable: false),
                    NetTotal = table.Column<decimal>(type: "TEXT", precision: 18, scale: 4, nullable: false),
                    TaxTotal = table.Column<decimal>(type: "TEXT", precision: 18, scale: 4, nullable: false),
                    GrossTotal = table.Column<decimal>(type: "TEXT", precision: 18, scale: 4, nullable: false),
                    Note = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    State = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    IssuedBy = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    IssuedAt = table.Column<DateTime>(type: "TEXT", nullable: false),
                    AnsweredBy = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    AnsweredHow = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    AnsweredAt = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Estimates", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "FactoryFunctions",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Order = table.Column<int>(type: "INTEGER", nullable: false),
                    Group = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Before = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    BeforeNote = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    BeforeBy = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    BeforeAt = table.Column<DateTime>(type: "TEXT", nullable: true),
                    After = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    AfterBy = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    AfterAt = table.Column<DateTime>(type: "TEXT", nullable: true),
                    Explanation = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    RemovedAt = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_FactoryFunctions", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "HandoverNotes",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Form = table.Column<string>(type: "TEXT", maxLength: 200000, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_HandoverNotes", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "HandoverReleases",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Number = table.Column<int>(type: "INTEGER", nullable: false),
                    FactsJson = table.Column<string>(type: "TEXT", maxLength: 2000000, nullable: false),
                    Pdf = table.Column<byte[]>(type: "BLOB", nullable: false),
                    PdfHash = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    ReleasedBy = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    ReleasedAt = table.Column<DateTime>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_HandoverReleases", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "JobStages",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Order = table.Column<int>(type: "INTEGER", nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Phase = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    PlannedHours = table.Column<decimal>(type: "TEXT", precision: 18, scale: 4, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_JobStages", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "RunChoices",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    RunId = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Form = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_RunChoices", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "SettingRows",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Order = table.Column<int>(type: "INTEGER", nullable: false),
                    Device = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Setting = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Value = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    RemovedAt = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_SettingRows", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "ShopSettings",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false),
                    Form = table.Column<string>(type: "TEXT", maxLength: 40000, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ShopSettings", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "SignOffs",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Code = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    SubjectId = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    FindingText = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Reason = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    By = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    At = table.Column<DateTime>(type: "TEXT", nullable: false),
                    WithdrawnAt = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_SignOffs", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "StaffMembers",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false),
                    DisplayName = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Role = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    CostPerHour = table.Column<decimal>(type: "TEXT", precision: 18, scale: 4, nullable: false),
                    Units = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    IsActive = table.Column<bool>(type: "INTEGER", nullable: false),
                    PinHash = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: true),
                    PinGuardState = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: true),
                    PasswordHash = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: true),
                    SecurityStamp = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: true),
                    ConcurrencyStamp = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: true),
                    AccessFailedCount = table.Column<int>(type: "INTEGER", nullable: false),
                    NormalizedUserName = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    NormalizedEmail = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    UserName = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    Email = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    EmailConfirmed = table.Column<bool>(type: "INTEGER", nullable: false),
                    PhoneNumber = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: true),
                    PhoneNumberConfirmed = table.Column<bool>(type: "INTEGER", nullable: false),
                    TwoFactorEnabled = table.Column<bool>(type: "INTEGER", nullable: false),
                    LockoutEnd = table.Column<DateTime>(type: "TEXT", nullable: true),
                    LockoutEnabled = table.Column<bool>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_StaffMembers", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "StageTemplates",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    IsDefault = table.Column<bool>(type: "INTEGER", nullable: false),
                    Stages = table.Column<string>(type: "TEXT", maxLength: 2000000, nullable: false),
                    RemovedAt = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_StageTemplates", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Tablets",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    SecretHash = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    RegisteredBy = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    RegisteredAt = table.Column<DateTime>(type: "TEXT", nullable: false),
                    RevokedAt = table.Column<DateTime>(type: "TEXT", nullable: true),
                    PinGuardState = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Tablets", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "TimeEntries",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    StageId = table.Column<Guid>(type: "TEXT", nullable: false),
                    StageName = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    StaffId = table.Column<Guid>(type: "TEXT", nullable: false),
                    StaffName = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    CostPerHour = table.Column<decimal>(type: "TEXT", precision: 18, scale: 4, nullable: false),
                    StartedAt = table.Column<DateTime>(type: "TEXT", nullable: false),
                    StoppedAt = table.Column<DateTime>(type: "TEXT", nullable: true),
                    Note = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    CorrectedBy = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_TimeEntries", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Vehicles",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false),
                    ClientId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Vin = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    VinOverrideReason = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Plate = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    ModelYear = table.Column<int>(type: "INTEGER", nullable: true),
                    Make = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Model = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Trim = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Colour = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    DriveType = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    BodyStyle = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    Seats = table.Column<int>(type: "INTEGER", nullable: true),
                    PayloadKilograms = table.Column<double>(type: "REAL", nullable: true),
                    GrossRatingKilograms = table.Column<double>(type: "REAL", nullable: true),
                    AlternatorAmperes = table.Column<double>(type: "REAL", nullable: true),
                    BatteryAmpereHours = table.Column<double>(type: "REAL", nullable: true),
                    BatteryZone = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    SearchText = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    CreatedAt = table.Column<DateTime>(type: "TEXT", nullable: false),
                    RemovedAt = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Vehicles", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Vehicles_Clients_ClientId",
                        column: x => x.ClientId,
                        principalTable: "Clients",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "JobSteps",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    StageId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Order = table.Column<int>(type: "INTEGER", nullable: false),
                    Text = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Required = table.Column<bool>(type: "INTEGER", nullable: false),
                    NeedsPhoto = table.Column<bool>(type: "INTEGER", nullable: false),
                    NeedsSecondPerson = table.Column<bool>(type: "INTEGER", nullable: false),
                    Measure = table.Column<string>(type: "TEXT", nullable: true),
                    MeasuredValue = table.Column<double>(type: "REAL", nullable: true),
                    RefusedValue = table.Column<double>(type: "REAL", nullable: true),
                    RefusedBy = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    RefusedAt = table.Column<DateTime>(type: "TEXT", nullable: true),
                    Note = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    TickedAt = table.Column<DateTime>(type: "TEXT", nullable: true),
                    TickedById = table.Column<Guid>(type: "TEXT", nullable: true),
                    TickedBy = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    ConfirmedAt = table.Column<DateTime>(type: "TEXT", nullable: true),
                    ConfirmedBy = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_JobSteps", x => x.Id);
                    table.ForeignKey(
                        name: "FK_JobSteps_JobStages_StageId",
                        column: x => x.StageId,
                        principalTable: "JobStages",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "AspNetUserClaims",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false)
                        .Annotation("Sqlite:Autoincrement", true),
                    UserId = table.Column<Guid>(type: "TEXT", nullable: false),
                    ClaimType = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: true),
                    ClaimValue = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUserClaims", x => x.Id);
                    table.ForeignKey(
                        name: "FK_AspNetUserClaims_StaffMembers_UserId",
                        column: x => x.UserId,
                        principalTable: "StaffMembers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "AspNetUserLogins",
                columns: table => new
                {
                    LoginProvider = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    ProviderKey = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    ProviderDisplayName = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: true),
                    UserId = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUserLogins", x => new { x.LoginProvider, x.ProviderKey });
                    table.ForeignKey(
                        name: "FK_AspNetUserLogins_StaffMembers_UserId",
                        column: x => x.UserId,
                        principalTable: "StaffMembers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "AspNetUserTokens",
                columns: table => new
                {
                    UserId = table.Column<Guid>(type: "TEXT", nullable: false),
                    LoginProvider = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Value = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUserTokens", x => new { x.UserId, x.LoginProvider, x.Name });
                    table.ForeignKey(
                        name: "FK_AspNetUserTokens_StaffMembers_UserId",
                        column: x => x.UserId,
                        principalTable: "StaffMembers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "Jobs",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false),
                    Number = table.Column<int>(type: "INTEGER", nullable: false),
                    ClientId = table.Column<Guid>(type: "TEXT", nullable: false),
                    VehicleId = table.Column<Guid>(type: "TEXT", nullable: false),
                    State = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    OpenedAt = table.Column<DateTime>(type: "TEXT", nullable: false),
                    DeliveredAt = table.Column<DateTime>(type: "TEXT", nullable: true),
                    Title = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Wish = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    BudgetFrom = table.Column<decimal>(type: "TEXT", precision: 18, scale: 4, nullable: true),
                    BudgetTo = table.Column<decimal>(type: "TEXT", precision: 18, scale: 4, nullable: true),
                    PromisedOn = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    KeyCount = table.Column<int>(type: "INTEGER", nullable: true),
                    OdometerKilometers = table.Column<double>(type: "REAL", nullable: true),
                    SourceDevices = table.Column<string>(type: "TEXT", nullable: false),
                    NothingCut = table.Column<bool>(type: "INTEGER", nullable: false),
                    KeepSpareWheel = table.Column<bool>(type: "INTEGER", nullable: false),
                    LeasedVehicle = table.Column<bool>(type: "INTEGER", nullable: false),
                    LuggageLitresToKeep = table.Column<double>(type: "REAL", nullable: true),
                    RestrictionNotes = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    SearchText = table.Column<string>(type: "TEXT", maxLength: 12000, nullable: false),
                    Progress_OpenBlockers = table.Column<int>(type: "INTEGER", nullable: false),
                    Progress_StageName = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Progress_StageOrder = table.Column<int>(type: "INTEGER", nullable: false),
                    Progress_StagesDone = table.Column<int>(type: "INTEGER", nullable: false),
                    Progress_StagesTotal = table.Column<int>(type: "INTEGER", nullable: false),
                    Progress_Track = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Progress_Working = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Jobs", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Jobs_Clients_ClientId",
                        column: x => x.ClientId,
                        principalTable: "Clients",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Jobs_Vehicles_VehicleId",
                        column: x => x.VehicleId,
                        principalTable: "Vehicles",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "ClientLinks",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Hash = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    CreatedBy = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    CreatedAt = table.Column<DateTime>(type: "TEXT", nullable: false),
                    ExpiresAt = table.Column<DateTime>(type: "TEXT", nullable: false),
                    RevokedAt = table.Column<DateTime>(type: "TEXT", nullable: true),
                    LastOpenedAt = table.Column<DateTime>(type: "TEXT", nullable: true),
                    OpenedCount = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ClientLinks", x => x.Id);
                    table.ForeignKey(
                        name: "FK_ClientLinks_Jobs_JobId",
                        column: x => x.JobId,
                        principalTable: "Jobs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "JobParts",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    CataloguePartId = table.Column<Guid>(type: "TEXT", nullable: true),
                    Order = table.Column<int>(type: "INTEGER", nullable: false),
                    Direction = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    Quantity = table.Column<decimal>(type: "TEXT", precision: 18, scale: 4, nullable: false),
                    Zone = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Place = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Access = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    State = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    OrderReference = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    ExpectedOn = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    PlanRunId = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    RemovedAt = table.Column<DateTime>(type: "TEXT", nullable: true),
                    Kind = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Supplier = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    PartNumber = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Unit = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    UnitCost = table.Column<decimal>(type: "TEXT", precision: 18, scale: 4, nullable: true),
                    UnitPrice = table.Column<decimal>(type: "TEXT", precision: 18, scale: 4, nullable: true),
                    UnitMassKilograms = table.Column<double>(type: "REAL", nullable: true),
                    Data = table.Column<string>(type: "TEXT", nullable: false),
                    Notes = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_JobParts", x => x.Id);
                    table.ForeignKey(
                        name: "FK_JobParts_Jobs_JobId",
                        column: x => x.JobId,
                        principalTable: "Jobs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Photos",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Hash = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Width = table.Column<int>(type: "INTEGER", nullable: false),
                    Height = table.Column<int>(type: "INTEGER", nullable: false),
                    Subject = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    SubjectId = table.Column<Guid>(type: "TEXT", nullable: true),
                    Caption = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    ShownToClient = table.Column<bool>(type: "INTEGER", nullable: false),
                    TakenBy = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    TakenAt = table.Column<DateTime>(type: "TEXT", nullable: false),
                    RemovedAt = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Photos", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Photos_Jobs_JobId",
                        column: x => x.JobId,
                        principalTable: "Jobs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_ApiTokens_Hash",
                table: "ApiTokens",
                column: "Hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_AspNetUserClaims_UserId",
                table: "AspNetUserClaims",
                column: "UserId");

            migrationBuilder.CreateIndex(
                name: "IX_AspNetUserLogins_UserId",
                table: "AspNetUserLogins",
                column: "UserId");

            migrationBuilder.CreateIndex(
                name: "IX_AuditEntries_JobId_Sequence",
                table: "AuditEntries",
                columns: new[] { "JobId", "Sequence" });

            migrationBuilder.CreateIndex(
                name: "IX_Blockers_JobId_ResolvedAt",
                table: "Blockers",
                columns: new[] { "JobId", "ResolvedAt" });

            migrationBuilder.CreateIndex(
                name: "IX_CatalogueParts_Supplier_PartNumber",
                table: "CatalogueParts",
                columns: new[] { "Supplier", "PartNumber" });

            migrationBuilder.CreateIndex(
                name: "IX_CheckIns_JobId",
                table: "CheckIns",
                column: "JobId",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ClientLinks_Hash",
                table: "ClientLinks",
                column: "Hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ClientLinks_JobId",
                table: "ClientLinks",
                column: "JobId");

            migrationBuilder.CreateIndex(
                name: "IX_Clients_SearchText",
                table: "Clients",
                column: "SearchText");

            migrationBuilder.CreateIndex(
                name: "IX_ConditionMarks_JobId",
                table: "ConditionMarks",
                column: "JobId");

            migrationBuilder.CreateIndex(
                name: "IX_DesignReleases_JobId_Number",
                table: "DesignReleases",
                columns: new[] { "JobId", "Number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ElectricalSettings_JobId",
                table: "ElectricalSettings",
                column: "JobId",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Estimates_JobId_Number",
                table: "Estimates",
                columns: new[] { "JobId", "Number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_FactoryFunctions_JobId_Order",
                table: "FactoryFunctions",
                columns: new[] { "JobId", "Order" });

            migrationBuilder.CreateIndex(
                name: "IX_HandoverNotes_JobId",
                table: "HandoverNotes",
                column: "JobId",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_HandoverReleases_JobId_Number",
                table: "HandoverReleases",
                columns: new[] { "JobId", "Number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_JobParts_JobId_Order",
                table: "JobParts",
                columns: new[] { "JobId", "Order" });

            migrationBuilder.CreateIndex(
                name: "IX_Jobs_ClientId",
                table: "Jobs",
                column: "ClientId");

            migrationBuilder.CreateIndex(
                name: "IX_Jobs_Number",
                table: "Jobs",
                column: "Number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Jobs_State_PromisedOn",
                table: "Jobs",
                columns: new[] { "State", "PromisedOn" });

            migrationBuilder.CreateIndex(
                name: "IX_Jobs_VehicleId",
                table: "Jobs",
                column: "VehicleId");

            migrationBuilder.CreateIndex(
                name: "IX_JobStages_JobId_Order",
                table: "JobStages",
                columns: new[] { "JobId", "Order" });

            migrationBuilder.CreateIndex(
                name: "IX_JobSteps_JobId",
                table: "JobSteps",
                column: "JobId");

            migrationBuilder.CreateIndex(
                name: "IX_JobSteps_StageId",
                table: "JobSteps",
                column: "StageId");

            migrationBuilder.CreateIndex(
                name: "IX_Photos_JobId_Subject_SubjectId",
                table: "Photos",
                columns: new[] { "JobId", "Subject", "SubjectId" });

            migrationBuilder.CreateIndex(
                name: "IX_RunChoices_JobId_RunId",
                table: "RunChoices",
                columns: new[] { "JobId", "RunId" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_SettingRows_JobId_Order",
                table: "SettingRows",
                columns: new[] { "JobId", "Order" });

            migrationBuilder.CreateIndex(
                name: "IX_SignOffs_JobId",
                table: "SignOffs",
                column: "JobId");

            migrationBuilder.CreateIndex(
                name: "EmailIndex",
                table: "StaffMembers",
                column: "NormalizedEmail");

            migrationBuilder.CreateIndex(
                name: "UserNameIndex",
                table: "StaffMembers",
                column: "NormalizedUserName",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Tablets_SecretHash",
                table: "Tablets",
                column: "SecretHash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_TimeEntries_JobId",
                table: "TimeEntries",
                column: "JobId");

            migrationBuilder.CreateIndex(
                name: "IX_TimeEntries_StaffId_StoppedAt",
                table: "TimeEntries",
                columns: new[] { "StaffId", "StoppedAt" });

            migrationBuilder.CreateIndex(
                name: "IX_Vehicles_ClientId",
                table: "Vehicles",
                column: "ClientId");

            migrationBuilder.CreateIndex(
                name: "IX_Vehicles_Plate",
                table: "Vehicles",
                column: "Plate");

            migrationBuilder.CreateIndex(
                name: "IX_Vehicles_Vin",
                table: "Vehicles",
                column: "Vin");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "ApiTokens");

            migrationBuilder.DropTable(
                name: "AspNetUserClaims");

            migrationBuilder.DropTable(
                name: "AspNetUserLogins");

            migrationBuilder.DropTable(
                name: "AspNetUserTokens");

            migrationBuilder.DropTable(
                name: "AuditEntries");

            migrationBuilder.DropTable(
                name: "Blockers");

            migrationBuilder.DropTable(
                name: "CatalogueParts");

            migrationBuilder.DropTable(
                name: "CheckIns");

            migrationBuilder.DropTable(
                name: "ClientLinks");

            migrationBuilder.DropTable(
                name: "CommandReceipts");

            migrationBuilder.DropTable(
                name: "ConditionMarks");

            migrationBuilder.DropTable(
                name: "DesignReleases");

            migrationBuilder.DropTable(
                name: "ElectricalSettings");

            migrationBuilder.DropTable(
                name: "Estimates");

            migrationBuilder.DropTable(
                name: "FactoryFunctions");

            migrationBuilder.DropTable(
                name: "HandoverNotes");

            migrationBuilder.DropTable(
                name: "HandoverReleases");

            migrationBuilder.DropTable(
                name: "JobParts");

            migrationBuilder.DropTable(
                name: "JobSteps");

            migrationBuilder.DropTable(
                name: "Photos");

            migrationBuilder.DropTable(
                name: "RunChoices");

            migrationBuilder.DropTable(
                name: "SettingRows");

            migrationBuilder.DropTable(
                name: "ShopSettings");

            migrationBuilder.DropTable(
                name: "SignOffs");

            migrationBuilder.DropTable(
                name: "StageTemplates");

            migrationBuilder.DropTable(
                name: "Tablets");

            migrationBuilder.DropTable(
                name: "TimeEntries");

            migrationBuilder.DropTable(
                name: "StaffMembers");

            migrationBuilder.DropTable(
                name: "JobStages");

            migrationBuilder.DropTable(
                name: "Jobs");

            migrationBuilder.DropTable(
                name: "Vehicles");

            migrationBuilder.DropTable(
                name: "Clients");
        }
    }
}
