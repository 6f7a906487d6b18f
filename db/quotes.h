// Quotes: frozen, never updated; every stage's result as rows of whole numbers. A commission has one number,
// year and count ("26-014"); its quotes are issues a, b, c of it.
#pragma once

#include "db/workshop.h"
#include "engine/commission/commission.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace endband::db {

struct QuoteNumber {
  int year = 0;   // 2026
  int count = 0;  // 14
  char issue = 'a';
};
std::string number_text(QuoteNumber number);  // "26-014a"

// "26-014a", "26-014", "14b", "14": the year of two digits, the count, the issue, as far as they were said.
struct AskedNumber {
  std::optional<int> year_of_century;
  int count = 0;
  std::optional<char> issue;
};
std::optional<AskedNumber> read_number(std::string_view text);

struct QuoteHeader {
  std::int64_t id = 0;
  QuoteNumber number;
  std::string customer;  // code
  std::string customer_name;
  std::string title, binding;
  Date on, valid_until;
  Money total, left;
  int rules = 0;
};

// Gives the next free number of the year of quote.on. Numbers are never used again.
Read<QuoteHeader> save_quote(Writing& writing, std::string_view customer, Date valid_until,
                             FrozenQuote const& quote);
std::vector<QuoteHeader> list_quotes(Workshop& workshop, std::optional<std::string> customer,
                                     int last);  // newest first
// "26-014a", "26-014" (its latest issue), "14" while one year only has it. Faults: unknown_code with near
// numbers.
Read<QuoteHeader> find_quote(Workshop& workshop, std::string_view number);
// A quote that stands, of the same day, customer (empty: nobody) and description, written before this entry.
std::optional<QuoteHeader> same_quote(Writing& writing, std::string_view customer, FrozenQuote const& quote);
QuoteHeader load_header(Workshop& workshop, std::int64_t id);
FrozenQuote load_quote(Workshop& workshop, std::int64_t id);

}  // namespace endband::db
