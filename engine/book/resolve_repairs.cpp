// Repairs of what the customer brings, and what is left with the workshop.
#include "engine/book/resolve_table.h"

#include <fmt/format.h>

#include <array>
#include <stdexcept>

namespace endband {
namespace {

struct KindRow {
  RepairKind kind;
  std::string_view name;  // as repairs[].kind says it
};
constexpr std::array kinds{
    KindRow{RepairKind::collate, "collate"}, KindRow{RepairKind::pull, "pull"},
    KindRow{RepairKind::clean, "clean"},     KindRow{RepairKind::guard, "guard"},
    KindRow{RepairKind::mend, "mend"},       KindRow{RepairKind::resew, "resew"},
    KindRow{RepairKind::reback, "reback"},   KindRow{RepairKind::other, "other"},
};

RepairKind kind_of(std::string_view name) {
  for (KindRow const& row : kinds)
    if (row.name == name) return row.kind;
  throw std::logic_error("a choice that is no repair: " + std::string(name));
}

class Repairs {
 public:
  explicit Repairs(Resolving& to) : to_(to), table_(to, "repairs") {}

  void read() {
    for (std::size_t i = 0; i < table_.size(); ++i) {
      if (!table_.complete(i, {key("repairs[].kind")})) continue;
      Repair repair;
      repair.kind = kind_of(words(table_[i], key("repairs[].kind")));
      repair.where = table_[i].where;
      if (int const count = whole(table_[i], key("repairs[].count"), 0); count > 0) repair.count = count;
      if (read_work(i, repair) && check_count(i, repair)) to_.spec.repairs.push_back(std::move(repair));
    }
    check_block();
    check_sewing();
  }

 private:
  // Only what has no step of its own says what it is and how long it takes.
  bool read_work(std::size_t i, Repair& repair) {
    if (repair.kind != RepairKind::other) {
      for (std::size_t const index : {key("repairs[].words"), key("repairs[].time")})
        table_.refuse_key(i, index, "kind = \"other\", or no such key: its step has its times");
      return true;
    }
    if (!table_.complete(i, {key("repairs[].words"), key("repairs[].time")})) return false;
    Times const times = std::get<Times>(table_[i].find(key("repairs[].time"))->value);
    repair.words = words(table_[i], key("repairs[].words"));
    repair.low = times.low;
    repair.likely = times.likely;
    repair.high = times.high;
    return true;
  }

  bool check_count(std::size_t i, Repair const& repair) {
    constexpr std::size_t count = key("repairs[].count");
    switch (repair.kind) {
      case RepairKind::mend: return table_.complete(i, {count});
      case RepairKind::collate:
      case RepairKind::clean:
      case RepairKind::guard: return repair.count || know_leaves();
      case RepairKind::resew: table_.refuse_key(i, count, "no count: all its sections are sewn"); break;
      case RepairKind::reback: table_.refuse_key(i, count, "no count: a book has one back"); break;
      case RepairKind::pull:
      case RepairKind::other: break;
    }
    return true;
  }

  // Without a count, all of its leaves are meant.
  bool know_leaves() {
    if (to_.layers[key("pages")]) return true;
    to_.fault(FaultCode::missing_key, {to_.layers.source(), 0, 0, "pages"}, {},
              "pages = 300, counted, or a count of leaves in [[repairs]]");
    return false;
  }

  void check_block() {
    if (to_.spec.repairs.empty() || to_.layers.flag(key("text.given"))) return;
    to_.fault(FaultCode::contradiction, to_.spec.repairs.front().where, "[[repairs]]",
              "given = true in [text]: only what the customer brings is repaired");
  }

  void check_sewing() {
    bool const kept = !to_.parts.has(Part::sewing);
    for (Repair const& repair : to_.spec.repairs)
      if (kept && (repair.kind == RepairKind::resew || repair.kind == RepairKind::pull))
        to_.fault(FaultCode::contradiction, repair.where,
                  repair.kind == RepairKind::pull ? "kind = \"pull\"" : "kind = \"resew\"",
                  "no such repair, or no \"sewing\" in without: its sewing is kept");
  }

  Resolving& to_;
  Table table_;
};

void resolve_ceiling(Resolving& to) {
  Hit const& hit = to.layers[key("repair.ceiling")];
  if (!hit) return;
  if (to.spec.repairs.empty()) {
    if (hit.origin == Origin::said)
      to.fault(FaultCode::contradiction, hit.entry->where, value_text(ValueType::share, hit.entry->value),
               "[[repairs]], or no such key");
    return;
  }
  to.spec.repair_ceiling = std::get<Ratio>(hit.entry->value);
}

void resolve_custody(Resolving& to) {
  Table table(to, "custody");
  for (std::size_t i = 0; i < table.size(); ++i)
    if (table.complete(i, {key("custody[].what")}))
      to.spec.custody.push_back({words(table[i], key("custody[].what")),
                                 words(table[i], key("custody[].condition")),
                                 words(table[i], key("custody[].declared_value")), table[i].where});
}

}  // namespace

void resolve_repairs(Resolving& to) {
  if (to.parts.has(Part::repairs)) Repairs(to).read();
  resolve_ceiling(to);
  resolve_custody(to);
}

}  // namespace endband
