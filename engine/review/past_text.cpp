#include "engine/review/past_text.h"

#include "engine/book/structure.h"
#include "engine/pricing/terms.h"

#include <algorithm>
#include <array>
#include <cstddef>

namespace endband {
namespace {

using enum ValueType;

constexpr double most_money = 10'000'000;
constexpr double most_words = 4000;

// clang-format off
constexpr std::array rows{
    term("endband", count, 1, 1, "the form of the text; the first line of every one"),
    term("customers[].code", code, 0, 0, "by which commissions name the customer"),
    term("customers[].name", words, 1, 100, "the customer's name"),
    term("customers[].email", words, 1, 200, "an address to write to"),
    term("commissions[].book", words, 1, 400, "the description of the book: a file beside this one"),
    term("commissions[].on", date, 0, 0, "the day it was quoted; prices, times and settings are of that day"),
    term("commissions[].customer", code, 0, 0, "who asked; for the shelf unless said"),
    term("commissions[].through", code, 0, 0, "the outlet it was sold through; the workshop itself unless said"),
    term("commissions[].margin", share, 0, 0.99, "the goal; the workshop's unless said"),
    term("commissions[].price", money, 0, most_money, "what was asked, as the buyer saw it, instead of a goal"),
    term("commissions[].discount", share, 0, 1, "given away of it"),
    term("commissions[].because", words, 1, 200, "why it was given away"),
    term("commissions[].accepted", date, 0, 0, "the day the customer took it; it came to nothing unless said"),
    term("commissions[].finished", date, 0, 0, "the day it was finished; still open unless said"),
    term("commissions[].hours", words, 1, most_words, "what was worked: \"sew-sections 3 h 10 min; cover 110 %; rest 100 %\""),
    term("commissions[].spoiled", words, 1, most_words, "spoiled beyond what was quoted: \"text-wove-90 2 sheets; mull-fine 0.2 m\""),
    term("commissions[].fees", money, 0, most_money, "what the outlet really took"),
    term("commissions[].carriage", money, 0, most_money, "what sending it really cost"),
    term("commissions[].exchange", money, 0, most_money, "what changing the money really took"),
    term("commissions[].returned", money, 0, most_money, "what its coming back cost"),
    term("commissions[].tax", money, 0, most_money, "the tax that was really paid over"),
};
// clang-format on

constexpr std::string_view example = R"(endband = 1
# Books that are made and sold already, from a notebook. Each description is a file beside this one.

[[customers]]               # only those that the workshop does not know
code = "old-friend"
name = "An Old Friend"
email = "friend@example.org"

[[commissions]]
book = "psalter.toml"
on = 2026-02-03             # quoted; prices, times and settings are of that day
customer = "old-friend"
price = "640.00"            # as the buyer saw it; or margin = "18 %"; or the workshop's own goal
accepted = 2026-02-06       # without it the quote came to nothing
finished = 2026-03-02       # without it the job is still open
hours = "sew-sections 5 h 10 min; cover 110 %; rest 100 %"   # a share is of what was quoted
spoiled = "text-wove-90 2 sheets"                               # beyond what was quoted
)";

std::string_view trimmed(std::string_view text) {
  std::size_t const first = text.find_first_not_of(" \t\n\r");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\n\r") - first + 1);
}

// "a; b": what stands between semicolons.
std::vector<std::string_view> parted(std::string_view text) {
  std::vector<std::string_view> parts;
  while (!text.empty()) {
    std::size_t const end = std::min(text.find(';'), text.size());
    if (std::string_view const part = trimmed(text.substr(0, end)); !part.empty()) parts.push_back(part);
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return parts;
}

// "sew-sections 3 h 10 min" -> its first word, and the rest.
struct Pair {
  std::string_view name, rest;
};
Pair pair_of(std::string_view part) {
  std::size_t const end = std::min(part.find_first_of(" \t"), part.size());
  return {part.substr(0, end), trimmed(part.substr(end))};
}

std::string part_code(Part part) {
  std::string code(part_name(part));
  std::replace(code.begin(), code.end(), ' ', '-');
  return code;
}

constexpr std::size_t parts = static_cast<std::size_t>(Part::repairs) + 1;

std::optional<Part> part_coded(std::string_view code) {
  for (std::size_t i = 0; i < parts; ++i)
    if (part_code(static_cast<Part>(i)) == code) return static_cast<Part>(i);
  return std::nullopt;
}

std::vector<std::string> near_work(std::string_view name) {
  std::vector<std::string> codes{"rest"};
  for (OperationRow const& row : operation_table()) codes.emplace_back(row.name);
  for (std::size_t i = 0; i < parts; ++i) codes.push_back(part_code(static_cast<Part>(i)));
  std::vector<std::string_view> const views(codes.begin(), codes.end());
  return nearest(name, views);
}

class PastReader {
 public:
  PastReader(Terms& terms, Currency shop) : terms_(terms), shop_(shop) {}

  PastText read() {
    PastText text;
    for (int row = 0; row < terms_.rows("customers"); ++row) text.customers.push_back(customer(row));
    for (int row = 0; row < terms_.rows("commissions"); ++row) text.commissions.push_back(commission(row));
    if (text.commissions.empty() && !terms_.said("commissions"))
      terms_.fault_found(FaultCode::missing_key, "commissions", {}, "[[commissions]], one or more");
    return text;
  }

 private:
  Terms& terms_;
  Currency shop_;

  PastCustomer customer(int row) {
    for (std::string_view const path : {"customers[].code", "customers[].name"}) terms_.need(path, row);
    return {terms_.words({"customers[].code", row}), terms_.words({"customers[].name", row}),
            terms_.words({"customers[].email", row})};
  }

  PastCommission commission(int row) {
    auto const key = [&](std::string_view path) { return Key(path, row); };
    auto const word = [&](std::string_view path) { return terms_.get<std::string>(key(path)); };
    auto const money = [&](std::string_view path) { return terms_.money(key(path), shop_); };
    terms_.need("commissions[].book", row);
    terms_.need("commissions[].on", row);
    PastCommission of;
    of.where = terms_.place(key("commissions[]"));
    of.book_at = terms_.place(key("commissions[].book"));
    of.customer_at = terms_.place(key("commissions[].customer"));
    of.through_at = terms_.place(key("commissions[].through"));
    of.on_at = terms_.place(key("commissions[].on"));
    of.accepted_at = terms_.place(key("commissions[].accepted"));
    of.finished_at = terms_.place(key("commissions[].finished"));
    of.hours_at = terms_.place(key("commissions[].hours"));
    of.spoiled_at = terms_.place(key("commissions[].spoiled"));
    of.book = terms_.words(key("commissions[].book"));
    of.on = terms_.get<Date>(key("commissions[].on")).value_or(Date{});
    of.customer = word("commissions[].customer");
    of.through = word("commissions[].through");
    of.margin = terms_.get<Ratio>(key("commissions[].margin"));
    of.price = money("commissions[].price");
    of.discount = terms_.get<Ratio>(key("commissions[].discount"));
    of.because = terms_.words(key("commissions[].because"));
    of.accepted = terms_.get<Date>(key("commissions[].accepted"));
    of.finished = terms_.get<Date>(key("commissions[].finished"));
    of.sale = {money("commissions[].fees"), money("commissions[].carriage"), money("commissions[].exchange"),
               money("commissions[].returned"), money("commissions[].tax")};
    of.hours = hours(key("commissions[].hours"));
    of.spoiled = spoiled(key("commissions[].spoiled"));
    check(of, row);
    return of;
  }

  void check(PastCommission const& of, int row) {
    auto const key = [&](std::string_view path) { return Key(path, row); };
    if (of.price && of.margin)
      terms_.fault(FaultCode::contradiction, key("commissions[].margin"), "a price or a margin, not both");
    if (of.discount && of.because.empty())
      terms_.fault(FaultCode::missing_key, key("commissions[].discount"),
                   "because = ..., its reason, beside it");
    if (!terms_.said(key("commissions[].discount")))
      terms_.refuse_key(key("commissions[].because"), "discount = ... beside it");
    if (!of.accepted)
      for (std::string_view const path :
           {"commissions[].finished", "commissions[].hours", "commissions[].spoiled", "commissions[].fees",
            "commissions[].carriage", "commissions[].exchange", "commissions[].returned",
            "commissions[].tax"})
        terms_.refuse_key(key(path), "accepted = ..., the day the customer took it");
    if (of.accepted && *of.accepted < of.on)
      terms_.fault(FaultCode::contradiction, key("commissions[].accepted"),
                   "no day before " + date_text(of.on) + ", on which it was quoted");
    if (of.accepted && of.finished && *of.finished < *of.accepted)
      terms_.fault(FaultCode::contradiction, key("commissions[].finished"),
                   "no day before " + date_text(*of.accepted) + ", on which it was accepted");
    if (of.finished && of.hours.empty() && !terms_.said(key("commissions[].hours")))
      terms_.fault_found(FaultCode::missing_key, key("commissions[].hours"), {},
                         "hours = ..., at least \"rest 100 %\": a finished book took some");
  }

  std::vector<PastHours> hours(Key const& key) {
    std::vector<PastHours> hours;
    std::string const text = terms_.words(key);  // which the parts are views of
    for (std::string_view const part : parted(text)) {
      Pair const pair = pair_of(part);
      PastHours of;
      of.rest = pair.name == "rest";
      of.operation = operation_named(pair.name);
      if (of.operation == OperationKind::extra_work) of.operation.reset();
      if (!of.operation) of.part = part_coded(pair.name);
      bool const known = of.rest || of.operation || of.part;
      if (!known)
        terms_.fault_found(FaultCode::bad_value, key, std::string(part),
                           "a step, such as sew-sections, a part, such as sewing, or rest; then how much",
                           near_work(pair.name));
      bool const twice = std::any_of(hours.begin(), hours.end(), [&](PastHours const& one) {
        return one.operation == of.operation && one.part == of.part && one.rest == of.rest;
      });
      if (known && twice)
        terms_.fault_found(FaultCode::contradiction, key, std::string(part), "each step or part once");
      if (known && !twice && read_taken(key, part, pair.rest, of)) hours.push_back(of);
    }
    return hours;
  }

  // A time, or a share of what was quoted.
  bool read_taken(Key const& key, std::string_view part, std::string_view text, PastHours& of) {
    if (text.ends_with('%')) {
      auto const share = read_ratio(text);
      if (share && *share >= Ratio(0) && *share <= Ratio(100)) {
        of.taken = *share;
        return true;
      }
    } else if (!of.rest) {
      if (auto const time = read_duration(text); time && time->n >= 0) {
        of.taken = *time;
        return true;
      }
    }
    terms_.fault_found(FaultCode::bad_value, key, std::string(part),
                       of.rest ? "rest and a share of what was quoted, such as \"rest 100 %\""
                               : "a time such as 3 h 10 min, or a share of what was quoted such as 110 %");
    return false;
  }

  std::vector<PastSpoiled> spoiled(Key const& key) {
    std::vector<PastSpoiled> spoiled;
    std::string const text = terms_.words(key);
    for (std::string_view const part : parted(text)) {
      Pair const pair = pair_of(part);
      if (pair.rest.empty())
        terms_.fault_found(FaultCode::bad_value, key, std::string(part),
                           "a material and how much of it, such as \"text-wove-90 2 sheets\"");
      else
        spoiled.push_back({std::string(pair.name), std::string(pair.rest)});
    }
    return spoiled;
  }
};

}  // namespace

std::span<KeyRow const> past_keys() { return rows; }

std::string_view past_example() { return example; }

Read<PastText> read_past(std::string_view text, std::string const& source, Currency shop) {
  Terms terms(text, source, past_keys());
  if (!terms.readable()) return terms.refused();
  PastText past = PastReader(terms, shop).read();
  return terms.result(std::move(past));
}

}  // namespace endband
