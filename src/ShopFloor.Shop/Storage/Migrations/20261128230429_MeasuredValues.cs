using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ShopFloor.Shop.Storage.Migrations
{
    /// <inheritdoc />
    public partial class MeasuredValues : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<bool>(
                name: "IsCommissioning",
                table: "JobStages",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            migrationBuilder.CreateTable(
                name: "MeasuredValues",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    PointId = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    PointName = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Unit = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Value = table.Column<double>(type: "REAL", nullable: false),
                    Predicted = table.Column<double>(type: "REAL", nullable: true),
                    Lowest = table.Column<double>(type: "REAL", nullable: true),
                    Highest = table.Column<double>(type: "REAL", nullable: true),
                    ById = table.Column<Guid>(type: "TEXT", nullable: true),
                    By = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    At = table.Column<DateTime>(type: "TEXT", nullable: false),
                    WithdrawnAt = table.Column<DateTime>(type: "TEXT", nullable: true),
                    WithdrawnBy = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_MeasuredValues", x => x.Id);
                    table.ForeignKey(
                        name: "FK_MeasuredValues_Jobs_JobId",
                        column: x => x.JobId,
                        principalTable: "Jobs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_MeasuredValues_JobId_PointId",
                table: "MeasuredValues",
                columns: new[] { "JobId", "PointId" });

            // Stages of shops from before carry the usual name; from now on a mark says it.
            migrationBuilder.Sql("UPDATE JobStages SET IsCommissioning = 1 WHERE Name = 'Commissioning'");
            migrationBuilder.Sql(
                """
                UPDATE StageTemplates SET Stages = (
                    SELECT json_group_array(json(CASE WHEN json_extract(value, '$.name') = 'Commissioning' THEN json_set(value, '$.isCommissioning', json('true')) ELSE value END))
                    FROM json_each(StageTemplates.Stages))
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "MeasuredValues");

            migrationBuilder.DropColumn(
                name: "IsCommissioning",
                table: "JobStages");
        }
    }
}
