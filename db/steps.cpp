#include "db/steps.h"

#include "db/rows.h"

#include <algorithm>

namespace endband::db {

template <>
struct Row<Step> {
  static constexpr std::string_view table = "step_version";
  static constexpr std::string_view columns =
      "operation, set_up_low_s, set_up_likely_s, set_up_high_s, each_low_s, each_likely_s, each_high_s, "
      "wait_low_s, "
      "wait_high_s, caution";
  static void fields(auto const& io, auto& s) {
    io(s.kind, s.set_up.low, s.set_up.likely, s.set_up.high, s.each.low, s.each.likely, s.each.high,
       s.wait_low, s.wait_high, s.caution);
  }
};

void set_step(Writing& writing, Step const& step, Date valid_from) {
  static std::string const sql = insert_text(Row<Step>::table, "valid_from, entry", Row<Step>::columns);
  Statement insert(writing.workshop().connection(), sql);
  insert.bind(valid_from, writing.entry());
  Row<Step>::fields(Bind{insert}, step);
  insert.run();
}

StepLibrary load_steps(Workshop& workshop, Date on) {
  static std::string const sql =
      "SELECT id, " + std::string(Row<Step>::columns) +
      " FROM step_version WHERE valid_from <= ? ORDER BY operation, valid_from, id";
  Statement select(workshop.connection(), sql);
  select.bind(on);
  StepLibrary library;
  while (select.step()) {
    Step step;
    select.read(step.version);
    Row<Step>::fields(Take{select}, step);
    if (!library.steps.empty() && library.steps.back().kind == step.kind) library.steps.pop_back();
    library.steps.push_back(std::move(step));
  }
  std::sort(library.steps.begin(), library.steps.end(),
            [](Step const& a, Step const& b) { return a.kind < b.kind; });
  return library;
}

}  // namespace endband::db
