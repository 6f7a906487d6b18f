#include "db/materials.h"

#include "db/codes.h"
#include "db/material_rows.h"
#include "db/statement.h"

#include <algorithm>
#include <stdexcept>
#include <utility>

namespace endband::db {
namespace {

Where at(std::string_view command, std::string_view field) {
  return {std::string(command), 0, 0, std::string(field)};
}

std::optional<MaterialId> id_of(Connection& connection, std::string_view code) {
  Statement select(connection, "SELECT id FROM material WHERE code = ?");
  if (!select.bind(code).step()) return std::nullopt;
  return select.value<MaterialId>();
}

Fault unknown(Workshop& workshop, std::string_view code, Where where) {
  if (auto const from = known_from(workshop, code))
    return {FaultCode::unknown_material, std::move(where), std::string(code), known_from_text(*from), {}};
  return {FaultCode::unknown_material, std::move(where), std::string(code), "a material of the workshop",
          near_codes(code, material_codes(workshop))};
}

void insert_version(Writing& writing, MaterialId id, Material material, Date valid_from) {
  static std::string const sql =
      insert_text(Row<Material>::table, "material, valid_from, entry", Row<Material>::columns);
  material.least_spoil.dimension = dimension_of(material.sold_by);  // nothing at all has any dimension
  Statement insert(writing.workshop().connection(), sql);
  insert.bind(id, valid_from, writing.entry());
  Row<Material>::fields(Bind{insert}, std::as_const(material));
  insert.run();
}

// ?1 is the day. In force is the latest valid_from, then the latest id.
std::string in_force_text(std::string_view condition) {
  return "SELECT " + material_columns +
         " FROM material m JOIN material_version v ON v.id = (SELECT id FROM material_version WHERE material "
         "= m.id "
         "AND valid_from <= ?1 ORDER BY valid_from DESC, id DESC LIMIT 1) "
         "LEFT JOIN price_version p ON p.id = (SELECT id FROM price_version WHERE material = m.id "
         "AND valid_from <= ?1 ORDER BY valid_from DESC, id DESC LIMIT 1) " +
         std::string(condition);
}

std::optional<Material> material_on(Connection& connection, std::string_view code, Date on) {
  static std::string const sql = in_force_text("WHERE m.code = ?2");
  Statement select(connection, sql);
  if (!select.bind(on, code).step()) return std::nullopt;
  return read_material(select);
}

// A price in the workshop's own money is what was said; another was converted once, by the rate as said.
std::vector<Fault> check_said(PackPrice const& price, Currency currency) {
  if (price.price.currency != currency)
    return {{FaultCode::currency_mismatch,
             at("material price", "price"),
             std::string(price.price.currency.code()),
             std::string(currency.code()),
             {}}};
  if (price.said.currency == currency && price.said != price.price)
    return {{FaultCode::contradiction,
             at("material price", "price"),
             money_text(price.said),
             money_text(price.price),
             {}}};
  return {};
}

}  // namespace

Read<MaterialId> add_material(Writing& writing, Material const& material, Date valid_from) {
  std::vector<Fault> faults = check_material(material, at("material add", ""));
  if (auto fault = check_code(material.code, at("material add", "code"))) faults.push_back(*std::move(fault));
  Connection& connection = writing.workshop().connection();
  if (faults.empty() && id_of(connection, material.code))
    faults.push_back(
        {FaultCode::already_exists, at("material add", "code"), material.code, "a code that is free", {}});
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  Statement insert(connection, "INSERT INTO material (code, entry) VALUES (?, ?)");
  MaterialId const id{insert.bind(material.code, writing.entry()).insert()};
  insert_version(writing, id, material, valid_from);
  return id;
}

Read<MaterialId> change_material(Writing& writing, Material const& material, Date valid_from) {
  Where const where = at("material change", "code");
  Workshop& workshop = writing.workshop();
  std::optional<MaterialId> const id = id_of(workshop.connection(), material.code);
  if (!id) return refuse(unknown(workshop, material.code, where));
  std::vector<Fault> faults = check_material(material, at("material change", ""));
  // Its packs are counted in the dimension that it is sold by.
  Statement sold(workshop.connection(), "SELECT sold_by FROM material_version WHERE material = ? LIMIT 1");
  sold.bind(*id).step();
  SoldBy const sold_by = sold.value<SoldBy>();
  if (dimension_of(sold_by) != dimension_of(material.sold_by))
    faults.push_back({FaultCode::rule_refused,
                      at("material change", "sold-by"),
                      std::string(sold_by_name(material.sold_by)),
                      std::string(sold_by_name(sold_by)) + ", as its prices are, or a new code",
                      {}});
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  insert_version(writing, *id, material, valid_from);
  return *id;
}

Read<std::int64_t> add_price(Writing& writing, std::string_view code, PackPrice const& price) {
  Workshop& workshop = writing.workshop();
  std::optional<Material> material = material_on(workshop.connection(), code, price.valid_from);
  if (!material) return refuse(unknown(workshop, code, at("material price", "code")));
  material->price = price;
  std::vector<Fault> faults = check_said(price, workshop.currency());
  if (faults.empty()) faults = check_material(*material, at("material price", ""));
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  static std::string const sql =
      insert_text(Row<PackPrice>::table, "material, entry", Row<PackPrice>::columns);
  Statement insert(workshop.connection(), sql);
  insert.bind(material->id, writing.entry());
  Row<PackPrice>::fields(Bind{insert}, price);
  return insert.insert();
}

Read<Catalogue> load_catalogue(Workshop& workshop, std::span<std::string const> codes, Date on,
                               BuyingRules const& buying) {
  std::vector<std::string_view> wanted(codes.begin(), codes.end());
  std::sort(wanted.begin(), wanted.end());
  wanted.erase(std::unique(wanted.begin(), wanted.end()), wanted.end());
  Catalogue catalogue{on, buying, {}};
  std::vector<Fault> faults;
  for (std::string_view code : wanted) {
    if (std::optional<Material> material = material_on(workshop.connection(), code, on))
      catalogue.materials.push_back(*std::move(material));
    else
      faults.push_back(unknown(workshop, code, {}));
  }
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return catalogue;
}

std::vector<Material> list_materials(Workshop& workshop, Date on, std::optional<MaterialKind> kind) {
  static std::string const sql = in_force_text("WHERE ?2 IS NULL OR v.kind = ?2 ORDER BY m.code");
  Statement select(workshop.connection(), sql);
  select.bind(on, kind);
  std::vector<Material> materials;
  while (select.step()) materials.push_back(read_material(select));
  return materials;
}

Read<Material> find_material(Workshop& workshop, std::string_view code, Date on) {
  if (std::optional<Material> material = material_on(workshop.connection(), code, on))
    return *std::move(material);
  return refuse(unknown(workshop, code, {}));
}

std::optional<Date> known_from(Workshop& workshop, std::string_view code) {
  Statement select(workshop.connection(),
                   "SELECT min(v.valid_from) FROM material m JOIN material_version v ON v.material = m.id "
                   "WHERE m.code = ?");
  select.bind(code).step();
  return select.value<std::optional<Date>>();
}

std::string known_from_text(Date first) {
  return "a day from " + date_text(first) + " on, when it is first known";
}

Material known_material(Workshop& workshop, MaterialId id, Date on) {
  Statement select(workshop.connection(), "SELECT code FROM material WHERE id = ?");
  if (!select.bind(id).step()) throw std::logic_error("no such material");
  auto const code = select.value<std::string>();
  return *material_on(workshop.connection(), code, std::max(on, known_from(workshop, code).value()));
}

std::vector<PackPrice> price_history(Workshop& workshop, std::string_view code) {
  static std::string const sql = "SELECT p.id, " + columns_of("p", Row<PackPrice>::columns) +
                                 " FROM price_version p JOIN material m ON m.id = p.material "
                                 "WHERE m.code = ? ORDER BY p.valid_from, p.id";
  Statement select(workshop.connection(), sql);
  select.bind(code);
  std::vector<PackPrice> prices;
  while (select.step()) {
    PackPrice& price = prices.emplace_back();
    select.read(price.version);
    Row<PackPrice>::fields(Take{select}, price);
  }
  return prices;
}

std::vector<std::string> material_codes(Workshop& workshop) {
  Statement select(workshop.connection(), "SELECT code FROM material ORDER BY code");
  std::vector<std::string> codes;
  while (select.step()) codes.push_back(select.value<std::string>());
  return codes;
}

}  // namespace endband::db
