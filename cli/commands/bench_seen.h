// All that is on the bench: the open jobs with what was recorded of them, and a book that is asked about.
#pragma once

#include "cli/document/document.h"
#include "db/jobs.h"
#include "engine/promise/promise.h"

#include <optional>
#include <string>
#include <vector>

namespace endband::cli {

struct BenchSeen {
  Bench bench;
  StepLibrary steps;
  std::vector<BenchOrder> orders;   // open jobs by number; the book asked about stands last
  std::vector<std::string> titles;  // of the orders
  std::vector<std::string>
      unknown_leads;  // codes of goods that are short and of which nobody said how long they take to come
  bool anybody() const { return !bench.people.empty(); }
};
// A quote that is not saved yet, or not accepted; `due`: the day it is asked for.
struct BookAsked {
  FrozenQuote const& quote;
  std::string name;
  std::optional<Date> due;
};
// The day a job is to be sent: the one asked for; else the one named, later by as many days as the order came
// later and a gate was held. None where no day was named.
std::optional<Date> due_of(db::Workshop& workshop, db::JobHeader const& job, FrozenQuote const& agreed,
                           Date on);

// Goods that the shelf does not have are taken to be ordered today: no order is written down anywhere.
BenchSeen see_bench(db::Workshop& workshop, std::optional<BookAsked> const& asked, Date on);

// One note for all of them.
void add_unknown_leads(Document& document, BenchSeen const& seen);

}  // namespace endband::cli
