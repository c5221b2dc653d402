using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ShopFloor.Shop.Storage.Migrations
{
    /// <inheritdoc />
    public partial class Offcuts : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "Offcuts",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Version = table.Column<Guid>(type: "TEXT", nullable: false),
                    Form = table.Column<string>(type: "TEXT", nullable: false),
                    FromJobId = table.Column<Guid>(type: "TEXT", nullable: true),
                    FromDesignId = table.Column<Guid>(type: "TEXT", nullable: true),
                    ForJobId = table.Column<Guid>(type: "TEXT", nullable: true),
                    ForDesignId = table.Column<Guid>(type: "TEXT", nullable: true),
                    End = table.Column<string>(type: "TEXT", maxLength: 40, nullable: false),
                    RemovedAt = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Offcuts", x => x.Id);
                });

            migrationBuilder.CreateIndex(
                name: "IX_Offcuts_ForDesignId",
                table: "Offcuts",
                column: "ForDesignId");

            migrationBuilder.CreateIndex(
                name: "IX_Offcuts_FromDesignId",
                table: "Offcuts",
                column: "FromDesignId");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "Offcuts");
        }
    }
}
