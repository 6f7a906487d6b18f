// All past quotes one after another, each with only what it is repriced by; and what holds today.
#pragma once

#include "db/quotes.h"
#include "engine/review/reprice.h"

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace endband::db {

// Prices, steps, rates and rules in force on a day, and the times of every version of a step. Faults: those
// of load_shop.
Read<Today> load_today(Workshop& workshop, Date on);

struct QuotesWanted {
  std::optional<Date> since = {};  // quoted on that day or later
  bool accepted = false;           // only those that were
  bool every_issue = false;        // else of each commission the newest only
};

struct PastQuote {
  std::int64_t id = 0;
  QuoteNumber number;
  std::string title, binding;
  Date on;
  FrozenQuote quote;  // light: what repriced() names
};

// By id, without those that were taken back. Tables are read side by side, each once, so memory does not grow
// with the quotes. Within one Reading, and on one thread; a quote's values need no workshop.
class QuoteStream {
 public:
  QuoteStream(Workshop& workshop, QuotesWanted const& wanted);
  ~QuoteStream();
  QuoteStream(QuoteStream const&) = delete;
  QuoteStream& operator=(QuoteStream const&) = delete;

  // The next of them, at most so many; empty: there are no more. Throws StoreError for what is damaged.
  std::vector<PastQuote> next(std::size_t most);

 private:
  struct Tables;
  std::unique_ptr<Tables> tables_;
};
// How many there are, for those who tell how far they are.
std::int64_t count_quotes(Workshop& workshop, QuotesWanted const& wanted);

}  // namespace endband::db
