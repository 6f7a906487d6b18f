// The day a quote names: how it follows from the bench, and what a day asked for would take.
#pragma once

#include "cli/command/args.h"
#include "cli/commands/bench_planned.h"
#include "cli/document/document.h"

#include <optional>
#include <string>
#include <vector>

namespace endband::cli {

// A job that would be late if the book went first, with what it leaves.
struct GivesWay {
  std::string job, title;
  Date was, becomes, due;
  Money left, an_hour;
};
struct Promised {
  BenchPlanned planned;  // the book stands last
  Promise dates;
  std::optional<Rush> rush;             // where a day was asked for
  Ratio overtime_share;                 // what such an hour is paid over a plain one
  std::optional<Money> overtime_costs;  // of rush->overtime
  bool overtime_charged = false;
  bool needs_proof = false;         // the customer approves one before the clock starts
  std::vector<GivesWay> gives_way;  // the one that leaves most first
  int order() const { return static_cast<int>(planned.seen.orders.size()) - 1; }
};

struct DayAsked {
  std::optional<Date> by;
  bool rush = false;  // with the overtime it takes
  Where where;        // of the day
};
// --by and --rush. Faults: out_of_range for a day that is past, contradiction for a rush by no day.
Read<DayAsked> day_asked(Args const& args, Date on);

// None where nobody's hours are known; then a day asked for is refused (missing_setting). rule_refused: a
// rush that no overtime makes ready by its day. Other faults as of plan_bench.
Read<std::optional<Promised>> promise_of(db::Workshop& workshop, FrozenQuote const& quote,
                                         DayAsked const& asked, Date on);

void add_promise(Document& document, std::optional<Promised> const& promised);
Json promise_json(std::optional<Promised> const& promised);

}  // namespace endband::cli
