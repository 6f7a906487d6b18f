#include "db/frozen_bill.h"

#include "db/material_rows.h"

namespace endband::db {

// --- the uses of each line of the bill

void check_dimensions(Bill const& bill) {  // a row has the dimension of its line once
  for (BillLine const& line : bill.lines)
    for (Amount amount :
         {line.spoil, line.cutting_loss, line.kept, line.pack_remainder, line.opened, line.charged})
      if (amount.dimension != line.net.dimension) throw std::logic_error("a bill line in two dimensions");
}

void restore_dimensions(Bill& bill) {
  for (BillLine& line : bill.lines)
    for (Amount* amount :
         {&line.spoil, &line.cutting_loss, &line.kept, &line.pack_remainder, &line.opened, &line.charged})
      amount->dimension = line.net.dimension;
}

void save_uses(Connection& connection, std::int64_t quote, Bill const& bill) {
  static std::string const sql = insert_text(Row<Use>::table, "quote, bill, position", Row<Use>::columns);
  Statement insert(connection, sql);
  for (std::int64_t line = 0; BillLine const& of_line : bill.lines) {
    for (std::int64_t position = 0; Use const& use : of_line.uses) {
      insert.bind(quote, line, position++);
      Row<Use>::fields(Bind{insert}, use);
      insert.run();
    }
    ++line;
  }
}

void load_uses(Connection& connection, std::int64_t quote, Bill& bill) {
  static std::string const sql = "SELECT bill, " + std::string(Row<Use>::columns) +
                                 " FROM quote_use WHERE quote = ? ORDER BY bill, position";
  Statement select(connection, sql);
  select.bind(quote);
  while (select.step()) {
    std::vector<Use>& uses = bill.lines.at(static_cast<std::size_t>(select.value<std::int64_t>())).uses;
    read_row<Use>(select, uses.emplace_back());
  }
}

void seal_uses(Sealer& sealer, Bill const& bill) {
  Seal seal(sealer.currency);
  for (std::int64_t line = 0; BillLine const& of_line : bill.lines) {
    for (Use const& use : of_line.uses) {
      seal.take(line);
      Row<Use>::fields(Bind{seal}, use);
    }
    ++line;
  }
  sealer.keep(Row<Use>::table, seal);
}

// --- materials: the versions that were used are immutable, so their ids say all

namespace {
constexpr std::string_view material_table = "quote_material";
}  // namespace

void save_materials(Connection& connection, std::int64_t quote, std::vector<Material> const& materials) {
  Statement insert(
      connection,
      "INSERT INTO quote_material (quote, position, material_version, price_version) VALUES (?, ?, ?, ?)");
  for (std::int64_t position = 0; Material const& material : materials) {
    std::int64_t const price = material.price ? material.price->version : 0;
    insert.bind(quote, position++, material.version, ZeroIsNull{price}).run();
  }
}

std::vector<Material> load_materials(Connection& connection, std::int64_t quote) {
  static std::string const sql =
      "SELECT " + material_columns +
      " FROM quote_material q JOIN material_version v ON v.id = q.material_version "
      "JOIN material m ON m.id = v.material "
      "LEFT JOIN price_version p ON p.id = q.price_version "
      "WHERE q.quote = ? ORDER BY q.position";
  Statement select(connection, sql);
  select.bind(quote);
  std::vector<Material> materials;
  while (select.step()) materials.push_back(read_material(select));
  return materials;
}

void seal_materials(Sealer& sealer, std::vector<Material> const& materials) {
  Seal seal(sealer.currency);
  for (Material const& material : materials) {
    seal.take(material.id, material.code, material.version);
    Row<Material>::fields(Bind{seal}, material);
    if (!material.price) continue;
    seal.take(material.price->version);
    Row<PackPrice>::fields(Bind{seal}, *material.price);
  }
  sealer.keep(material_table, seal);
}

}  // namespace endband::db
