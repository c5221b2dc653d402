using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ShopFloor.Shop.Storage.Migrations
{
    /// <inheritdoc />
    public partial class BudgetsAndSignalLinks : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "BudgetSettings",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Form = table.Column<string>(type: "TEXT", maxLength: 40000, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_BudgetSettings", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "SignalLinks",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Kind = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    ToPartId = table.Column<Guid>(type: "TEXT", nullable: false),
                    ToInput = table.Column<int>(type: "INTEGER", nullable: false),
                    Form = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_SignalLinks", x => x.Id);
                });

            migrationBuilder.CreateIndex(
                name: "IX_BudgetSettings_JobId",
                table: "BudgetSettings",
                column: "JobId",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_SignalLinks_JobId_Kind_ToPartId_ToInput",
                table: "SignalLinks",
                columns: new[] { "JobId", "Kind", "ToPartId", "ToInput" },
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "BudgetSettings");

            migrationBuilder.DropTable(
                name: "SignalLinks");
        }
    }
}
