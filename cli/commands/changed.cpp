#include "cli/commands/changed.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

namespace endband::cli {
namespace {

struct DeedWords {
  std::string_view name, done, would;
};
DeedWords words_of(Deed deed) {
  switch (deed) {
    case Deed::added: return {"added", "Added", "Would add"};
    case Deed::changed: return {"changed", "Changed", "Would change"};
    case Deed::priced: return {"priced", "Priced", "Would price"};
    case Deed::set: return {"set", "Set", "Would set"};
  }
  return {};
}

std::string const* value_of(Fields const& fields, std::string const& name) {
  for (auto const& [field, value] : fields)
    if (field == name && !value.empty()) return &value;
  return nullptr;
}

std::string arrow(Change const& change) {
  if (!change.from) return change.to.value_or("");
  return *change.from + " -> " + change.to.value_or("(none)");
}

}  // namespace

std::vector<Change> changes_between(Fields const& before, Fields const& after) {
  std::vector<Change> changes;
  for (auto const& [field, value] : after) {
    std::string const* old = value_of(before, field);
    std::optional<std::string> const from = old == nullptr ? std::nullopt : std::optional(*old);
    std::optional<std::string> const to = value.empty() ? std::nullopt : std::optional(value);
    if (from != to) changes.push_back({field, from, to});
  }
  return changes;
}

std::vector<Change> all_changes_between(Fields const& before, Fields after) {
  for (auto const& row : before) {
    bool const still =
        std::any_of(after.begin(), after.end(), [&](auto const& each) { return each.first == row.first; });
    if (!still) after.emplace_back(row.first, "");
  }
  return changes_between(before, after);
}

Json to_json(Changed const& changed) {
  auto const change_json = [](Change const& change) {
    return Json(Json::Object{{"field", change.field}, {"from", change.from}, {"to", change.to}});
  };
  return Json::Object{{"dry_run", changed.dry_run},
                      {"deed", words_of(changed.deed).name},
                      {"noun", changed.noun},
                      {"code", changed.code},
                      {"in_force_from", changed.from ? Json(date_text(*changed.from)) : Json()},
                      {"changes", json_array(changed.changes, change_json)}};
}

Document to_document(Changed const& changed) {
  Document document;
  std::string const name = changed.noun + (changed.code.empty() ? "" : " " + changed.code);
  if (changed.changes.empty()) {
    document.paragraph(fmt::format("Nothing to change: {} is already so.", name));
    return document;
  }
  auto const words = words_of(changed.deed);
  document.paragraph(fmt::format("{} {}{}{}", changed.dry_run ? words.would : words.done, name,
                                 changed.from ? ", in force from " + date_text(*changed.from) : "",
                                 changed.dry_run ? ". Nothing is saved." : "."));
  KeyValues rows;
  for (Change const& change : changed.changes) rows.rows.emplace_back("  " + change.field, arrow(change));
  document.add(std::move(rows));
  if (!changed.dry_run && !changed.next.empty()) document.next(changed.next);
  return document;
}

}  // namespace endband::cli
