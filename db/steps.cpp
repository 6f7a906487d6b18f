#include "db/steps.h"

#include "db/bench_words.h"
#include "db/rows.h"
#include "engine/book/precedence.h"

#include <algorithm>

namespace endband::db {

template <>
struct Row<Step> {
  static constexpr std::string_view table = "step_version";
  static constexpr std::string_view columns =
      "operation, set_up_low_s, set_up_likely_s, set_up_high_s, each_low_s, each_likely_s, each_high_s, "
      "wait_low_s, "
      "wait_high_s, caution, place";
  static void fields(auto const& io, auto& s) {
    io(s.kind, s.set_up.low, s.set_up.likely, s.set_up.high, s.each.low, s.each.likely, s.each.high,
       s.wait_low, s.wait_high, s.caution, s.place);
  }
};

namespace {

std::vector<std::string> names_of(std::vector<OperationKind> const& kinds) {
  std::vector<std::string> names;
  for (OperationKind const kind : kinds) names.emplace_back(word(kind));
  return names;
}

std::vector<OperationKind> kinds_in(std::string_view text) {
  std::vector<OperationKind> kinds;
  for (std::string const& name : codes_in(text)) kinds.push_back(from_word<OperationKind>(name));
  return kinds;
}

}  // namespace

void set_step(Writing& writing, Step const& step, Date valid_from) {
  static std::string const sql =
      insert_text(Row<Step>::table, "valid_from, entry, who, after", Row<Step>::columns);
  Statement insert(writing.workshop().connection(), sql);
  insert.bind(valid_from, writing.entry(), codes_text(step.who), codes_text(names_of(step.after)));
  Row<Step>::fields(Bind{insert}, step);
  insert.run();
}

StepLibrary load_steps(Workshop& workshop, Date on) {
  static std::string const sql =
      "SELECT id, who, after, " + std::string(Row<Step>::columns) +
      " FROM step_version WHERE valid_from <= ? ORDER BY operation, valid_from, id";
  Statement select(workshop.connection(), sql);
  select.bind(on);
  StepLibrary library;
  while (select.step()) {
    Step step;
    std::string who, after;
    select.read(step.version, who, after);
    Row<Step>::fields(Take{select}, step);
    step.who = codes_in(who);
    step.after = kinds_in(after);
    if (!library.steps.empty() && library.steps.back().kind == step.kind) library.steps.pop_back();
    library.steps.push_back(std::move(step));
  }
  std::sort(library.steps.begin(), library.steps.end(),
            [](Step const& a, Step const& b) { return a.kind < b.kind; });
  return library;
}

std::vector<Date> step_days(Workshop& workshop, Date from) {
  Statement select(workshop.connection(),
                   "SELECT DISTINCT valid_from FROM step_version WHERE valid_from > ? ORDER BY 1");
  select.bind(from);
  std::vector<Date> days{from};
  while (select.step()) days.push_back(select.value<Date>());
  return days;
}

std::vector<OperationKind> circle_of_steps(Workshop& workshop, Date on) {
  return circle_of(load_steps(workshop, on));
}

std::vector<StepTimes> load_step_times(Workshop& workshop) {
  Statement select(workshop.connection(),
                   "SELECT id, set_up_low_s, set_up_likely_s, set_up_high_s, each_low_s, each_likely_s, "
                   "each_high_s FROM step_version ORDER BY id");
  std::vector<StepTimes> times;
  while (select.step()) {
    std::int64_t version = 0;
    Spread3 set_up, each;
    select.read(version, set_up.low, set_up.likely, set_up.high, each.low, each.likely, each.high);
    times.push_back({version, mean_of(set_up), mean_of(each)});
  }
  return times;
}

}  // namespace endband::db
