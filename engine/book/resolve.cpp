// Layers of descriptions and the catalogue of the day to one book.
#include "engine/book/resolve.h"

#include "engine/book/resolve_block.h"
#include "engine/book/resolve_ways.h"

#include <algorithm>
#include <set>
#include <tuple>

namespace endband {
namespace {

std::string words_of(Layers const& layers, std::size_t index) {
  Hit const& hit = layers[index];
  return hit ? std::get<std::string>(hit.entry->value) : std::string();
}

// Faults that stand in a text come first, by line; then what nobody said.
auto in_order(Fault const& fault) {
  return std::tuple(fault.where.line == 0, std::string_view(fault.where.source), fault.where.line,
                    fault.where.column);
}

// One code may serve several roles: what is wrong with it is told once.
bool same_fault(Fault const& a, Fault const& b) {
  return a.code == b.code && a.where.line == b.where.line && a.where.column == b.where.column &&
         a.where.field == b.where.field && a.where.source == b.where.source && a.found == b.found &&
         a.expected == b.expected;
}

void supplied_by_customer(Resolving& to) {
  Hit const& hit = to.layers[key("customer_supplies")];
  if (!hit) return;
  for (std::string const& code : std::get<std::vector<std::string>>(hit.entry->value)) {
    Material const* const material = to.find(code, {}, hit.entry->where);
    if (material == nullptr) continue;
    auto const& chosen = to.spec.materials;
    auto const is_it = [&](MaterialId id) { return id == material->id; };
    bool const used =
        std::any_of(chosen.begin(), chosen.end(),
                    [&](Chosen const& c) { return c.origin != Origin::none && is_it(c.material); }) ||
        std::any_of(to.spec.underlays.begin(), to.spec.underlays.end(),
                    [&](Underlay const& u) { return is_it(u.card); }) ||
        std::any_of(to.spec.insets.begin(), to.spec.insets.end(),
                    [&](Inset const& i) { return is_it(i.material); }) ||
        std::any_of(to.spec.furniture.begin(), to.spec.furniture.end(),
                    [&](Furniture const& f) { return is_it(f.material); }) ||
        std::any_of(to.spec.extra_materials.begin(), to.spec.extra_materials.end(),
                    [&](ExtraMaterial const& e) { return is_it(e.material); });
    if (used)
      to.spec.customer_supplies.push_back(material->id);
    else
      to.fault(FaultCode::contradiction, hit.entry->where, code, "a material that this book uses");
  }
}

}  // namespace

void Resolving::fault(FaultCode code, Where where, std::string found, std::string expected,
                      std::vector<std::string> near) {
  faults.push_back({code, std::move(where), std::move(found), std::move(expected), std::move(near)});
}

double number_of(ValueType type, Value const& value) {
  if (auto const* ratio = std::get_if<Ratio>(&value))
    return static_cast<double>(ratio->num()) / static_cast<double>(ratio->den());
  if (auto const* flag = std::get_if<bool>(&value)) return *flag ? 1 : 0;
  double const whole = static_cast<double>(std::get<std::int64_t>(value));
  switch (type) {
    case ValueType::length:
    case ValueType::mass: return whole / 1000;
    case ValueType::thickness: return whole / 1'000'000;
    default: return whole;
  }
}

std::vector<std::string> codes_named(std::span<Layer const> given) {
  std::vector<Layer> const whole = with_practice(given);
  Layers layers(whole);
  std::vector<Fault> faults;  // told by resolve
  Style const& style = style_of(given);
  Ways const ways = resolve_ways(layers, style, faults);
  settle_block(layers, ways, faults);
  settle_alternatives(layers, faults);
  Parts const parts(layers, style, ways, faults);
  std::set<std::string, std::less<>> codes;
  for (std::size_t i = 0; i < role_count; ++i) {
    Role const role = static_cast<Role>(i);
    if (wanted(role, layers, parts) == MaterialWanted::no) continue;
    if (Named const name = named(role, layers); name.origin != Origin::none) codes.emplace(name.code);
  }
  auto const of_rows = [&](std::string_view table, std::size_t index) {
    for (Row const& row : layers.rows(table).rows)
      if (Entry const* const entry = row.find(index)) codes.insert(std::get<std::string>(entry->value));
  };
  if (parts.has(Part::underlays)) of_rows("underlays", key("underlays[].card"));
  of_rows("insets", key("insets[].material"));
  of_rows("furniture", key("furniture[].material"));
  if (Hit const& hit = layers[key("endbands.pattern")])
    for (std::string const& code : std::get<std::vector<std::string>>(hit.entry->value)) codes.insert(code);
  of_rows("extra_materials", key("extra_materials[].material"));
  if (Hit const& hit = layers[key("customer_supplies")])
    for (std::string const& code : std::get<std::vector<std::string>>(hit.entry->value)) codes.insert(code);
  return {codes.begin(), codes.end()};
}

Read<BookSpec> resolve(std::span<Layer const> given, Catalogue const& catalogue) {
  std::vector<Fault> faults;
  std::vector<Layer> const whole = with_practice(given);
  Layers layers(whole);
  Style const& style = style_of(given);
  Ways const ways = resolve_ways(layers, style, faults);
  settle_block(layers, ways, faults);
  settle_alternatives(layers, faults);
  Parts const parts(layers, style, ways, faults);

  BookSpec spec;
  spec.title = words_of(layers, key("title"));
  spec.binding = style.name;
  spec.ways = ways;
  spec.present = parts.present();
  Resolving to{layers, parts, catalogue, spec, faults};
  resolve_materials(to);
  resolve_figures(to);
  check_use(to);
  resolve_lists(to);
  resolve_repairs(to);
  resolve_endbands(to);
  resolve_finishing(to);
  resolve_outside(to);
  resolve_order(to);
  supplied_by_customer(to);
  if (faults.empty()) check_together(to);
  if (faults.empty()) check_insets(to);
  if (faults.empty()) check_volumes(to);
  if (faults.empty()) return spec;
  std::stable_sort(faults.begin(), faults.end(),
                   [](Fault const& a, Fault const& b) { return in_order(a) < in_order(b); });
  faults.erase(std::unique(faults.begin(), faults.end(), same_fault), faults.end());
  return tl::unexpected(std::move(faults));
}

}  // namespace endband
