// Work by another's hands, as a description says it: [[outside]].
#include "engine/book/resolve_table.h"

#include <algorithm>
#include <array>
#include <span>
#include <utility>

namespace endband {
namespace {

// In the order of their enums.
constexpr std::array<std::string_view, 6> kind_names{"edge-gilding",  "splitting", "die",
                                                     "stone-setting", "printing",  "other"};
constexpr std::array<std::string_view, 4> by_names{"whole", "piece", "dm2", "skin"};

template <class E>
E choice_of(Row const& row, std::size_t index, std::span<std::string_view const> names, E otherwise) {
  auto const said = std::find(names.begin(), names.end(), words(row, index));
  return said == names.end() ? otherwise : static_cast<E>(said - names.begin());
}

Ratio share(Row const& row, std::size_t index) {
  Entry const* const entry = row.find(index);
  return entry == nullptr ? Ratio(0) : std::get<Ratio>(entry->value);
}

bool flag(Row const& row, std::size_t index, bool otherwise) {
  Entry const* const entry = row.find(index);
  return entry == nullptr ? otherwise : std::get<bool>(entry->value);
}

class Outside {
 public:
  Outside(Resolving& to, Table& table, std::size_t place)
      : to_(to), table_(table), place_(place), row_(table[place]) {}

  OutsideWork read() && {
    work_.words = words(row_, key("outside[].words"));
    work_.price = words(row_, key("outside[].price"));
    work_.kind = choice_of(row_, key("outside[].kind"), kind_names, OutsideKind::other);
    work_.by = choice_of(row_, key("outside[].by"), by_names, OutsideBy::whole);
    work_.supplier = words(row_, key("outside[].supplier"));
    work_.least_charge = words(row_, key("outside[].least_charge"));
    work_.carriage = words(row_, key("outside[].carriage"));
    work_.redo = share(row_, key("outside[].redo"));
    work_.each_copy = flag(row_, key("outside[].each_copy"), work_.kind != OutsideKind::die);
    work_.at_cost = flag(row_, key("outside[].at_cost"), true);
    if (Entry const* const lead = row_.find(key("outside[].lead")))
      work_.lead = Duration{std::get<std::int64_t>(lead->value)};
    work_.where = row_.where;
    read_count();
    read_area();
    check_skins();
    return std::move(work_);
  }

 private:
  void read_count() {
    if (work_.by != OutsideBy::piece)
      table_.refuse_key(place_, key("outside[].count"), "by = \"piece\", or no count");
    work_.count = whole(row_, key("outside[].count"), 1);
  }

  void read_area() {
    if (work_.by != OutsideBy::dm2)
      return table_.refuse_key(place_, key("outside[].area"), "by = \"dm2\", or no area");
    if (Entry const* const area = row_.find(key("outside[].area"))) return take_area(*area);
    bool const of_edges = work_.kind == OutsideKind::edge_gilding && to_.parts.has(Part::edges);
    bool const of_leather = work_.kind == OutsideKind::splitting && cover() != nullptr;
    if (!of_edges && !of_leather) table_.complete(place_, {key("outside[].area")});
  }

  void take_area(Entry const& entry) {
    Amount const area = std::get<Amount>(entry.value);
    if (area.dimension == Dimension::area) {
      work_.area = Area{area.n};
      return;
    }
    to_.fault(FaultCode::wrong_unit, entry.where, value_text(ValueType::amount, entry.value),
              "an area, such as \"12 dm2\"");
  }

  // A price by the skin is for those that the cover opens.
  void check_skins() {
    if (work_.by != OutsideBy::skin) return;
    if (Material const* const leather = cover(); leather == nullptr || leather->sold_by != SoldBy::skin)
      to_.fault(FaultCode::contradiction, row_.find(key("outside[].by"))->where, "skin",
                "a book that is covered in leather sold by the skin, or by = \"whole\"");
    if (!work_.each_copy)
      table_.refuse_key(place_, key("outside[].each_copy"), "true: every skin that is opened is paid for");
  }

  Material const* cover() const {
    Chosen const& chosen = to_.spec.chosen(Role::leather);
    return chosen.origin == Origin::none ? nullptr : &to_.catalogue.at(chosen.material);
  }

  Resolving& to_;
  Table& table_;
  std::size_t place_;
  Row const& row_;
  OutsideWork work_;
};

}  // namespace

std::string_view outside_kind_name(OutsideKind kind) { return kind_names.at(static_cast<std::size_t>(kind)); }
std::string_view outside_by_name(OutsideBy by) { return by_names.at(static_cast<std::size_t>(by)); }

void resolve_outside(Resolving& to) {
  Table table(to, "outside");
  for (std::size_t i = 0; i < table.size(); ++i)
    if (table.complete(i, {key("outside[].words"), key("outside[].price")}))
      to.spec.outside.push_back(Outside(to, table, i).read());
}

}  // namespace endband
