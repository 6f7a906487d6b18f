// Past commissions as their maker writes them down from a notebook: TOML, read by the reader of descriptions.
#pragma once

#include "engine/book/operation.h"
#include "engine/description/description.h"
#include "engine/money/money.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace endband {

struct PastCustomer {
  std::string code, name, email;
};

// Of a step, of a part of the book, or of all quoted work that is not named: a time, or a share of what was
// quoted.
struct PastHours {
  std::optional<OperationKind> operation;
  std::optional<Part> part;
  bool rest = false;
  std::variant<Duration, Ratio> taken;
};
struct PastSpoiled {
  std::string material, amount;  // "text-wove-90", "2 sheets": read with the material
};
struct PastSale {  // what the sale really took
  std::optional<Money> fees, carriage, exchange, returned, tax;
};

struct PastCommission {
  std::string book;  // the description's file
  Date on;           // it was quoted; prices, times and settings are of that day
  std::optional<std::string> customer, through;
  std::optional<Ratio> margin;    // the goal,
  std::optional<Money> price;     // or what was asked, as the buyer saw it
  std::optional<Ratio> discount;  // and its reason
  std::string because;
  std::optional<Date> accepted, finished;  // neither: it came to nothing
  std::vector<PastHours> hours;
  std::vector<PastSpoiled> spoiled;
  PastSale sale;
  Where where;  // of its heading
  Where book_at, customer_at, through_at, on_at, accepted_at, finished_at, hours_at, spoiled_at;
};
struct PastText {
  std::vector<PastCustomer> customers;
  std::vector<PastCommission> commissions;  // as they stand in the text
};

std::span<KeyRow const> past_keys();

// All faults at once, each with its line: unknown keys, a step that there is none of, hours of a book that
// came to nothing, days in no order ... `shop`: the workshop's currency. At most 100 commissions.
Read<PastText> read_past(std::string_view text, std::string const& source, Currency shop);

// A commented text to start from, right as it stands.
std::string_view past_example();

}  // namespace endband
