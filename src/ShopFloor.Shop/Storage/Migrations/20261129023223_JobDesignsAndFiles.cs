using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ShopFloor.Shop.Storage.Migrations
{
    /// <inheritdoc />
    public partial class JobDesignsAndFiles : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "Measures",
                table: "Vehicles",
                type: "TEXT",
                nullable: false,
                defaultValueSql: "'{}'");

            migrationBuilder.AddColumn<string>(
                name: "Position",
                table: "JobParts",
                type: "TEXT",
                nullable: false,
                defaultValueSql: "'{}'");

            migrationBuilder.CreateTable(
                name: "JobDesigns",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Kind = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    FormJson = table.Column<string>(type: "TEXT", maxLength: 2000000, nullable: false),
                    RemovedAt = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_JobDesigns", x => x.Id);
                    table.ForeignKey(
                        name: "FK_JobDesigns_Jobs_JobId",
                        column: x => x.JobId,
                        principalTable: "Jobs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "JobFiles",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    JobId = table.Column<Guid>(type: "TEXT", nullable: false),
                    Kind = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    FileName = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Sha256 = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    Bytes = table.Column<long>(type: "INTEGER", nullable: false),
                    AddedBy = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    AddedAt = table.Column<DateTime>(type: "TEXT", nullable: false),
                    RemovedAt = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_JobFiles", x => x.Id);
                    table.ForeignKey(
                        name: "FK_JobFiles_Jobs_JobId",
                        column: x => x.JobId,
                        principalTable: "Jobs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "JobFileContents",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Compressed = table.Column<byte[]>(type: "BLOB", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_JobFileContents", x => x.Id);
                    table.ForeignKey(
                        name: "FK_JobFileContents_JobFiles_Id",
                        column: x => x.Id,
                        principalTable: "JobFiles",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_JobDesigns_JobId_Kind",
                table: "JobDesigns",
                columns: new[] { "JobId", "Kind" });

            migrationBuilder.CreateIndex(
                name: "IX_JobFiles_JobId_Kind",
                table: "JobFiles",
                columns: new[] { "JobId", "Kind" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "JobDesigns");

            migrationBuilder.DropTable(
                name: "JobFileContents");

            migrationBuilder.DropTable(
                name: "JobFiles");

            migrationBuilder.DropColumn(
                name: "Measures",
                table: "Vehicles");

            migrationBuilder.DropColumn(
                name: "Position",
                table: "JobParts");
        }
    }
}
