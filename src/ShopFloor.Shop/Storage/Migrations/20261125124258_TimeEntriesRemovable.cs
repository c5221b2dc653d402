using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace ShopFloor.Shop.Storage.Migrations
{
    /// <inheritdoc />
    public partial class TimeEntriesRemovable : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            // Dropped in place: the provider would rebuild both tables with foreign keys off, outside the migration's transaction.
            migrationBuilder.Sql("""ALTER TABLE "Vehicles" DROP COLUMN "RemovedAt";""");
            migrationBuilder.Sql("""ALTER TABLE "Clients" DROP COLUMN "RemovedAt";""");

            migrationBuilder.AddColumn<DateTime>(
                name: "RemovedAt",
                table: "TimeEntries",
                type: "TEXT",
                nullable: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql("""ALTER TABLE "TimeEntries" DROP COLUMN "RemovedAt";""");

            migrationBuilder.AddColumn<DateTime>(
                name: "RemovedAt",
                table: "Vehicles",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<DateTime>(
                name: "RemovedAt",
                table: "Clients",
                type: "TEXT",
                nullable: true);
        }
    }
}
