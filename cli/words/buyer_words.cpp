#include "cli/words/buyer_words.h"

#include "cli/words/values.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <initializer_list>

namespace endband::cli {
namespace {

std::string const* words_of(BuyerQuote const& quote, Role role) {
  for (BuyerMaterial const& material : quote.materials)
    if (material.role == role) return &material.words;
  return nullptr;
}

// The words of several roles, each once, those without words left out.
std::vector<std::string> words_of(BuyerQuote const& quote, std::initializer_list<Role> roles) {
  std::vector<std::string> words;
  for (Role role : roles) {
    std::string const* const found = words_of(quote, role);
    if (found != nullptr && std::find(words.begin(), words.end(), *found) == words.end())
      words.push_back(*found);
  }
  return words;
}

// Small counts are written out, as in a letter.
std::string number_word(std::int64_t n) {
  static constexpr std::array<std::string_view, 13> numbers{"no",   "one",    "two",   "three", "four",
                                                            "five", "six",    "seven", "eight", "nine",
                                                            "ten",  "eleven", "twelve"};
  return n >= 0 && n < 13 ? std::string(numbers[static_cast<std::size_t>(n)]) : std::to_string(n);
}

std::string joined(std::vector<std::string> const& parts) {
  std::string text;
  for (std::string const& part : parts)
    if (!part.empty()) text += (text.empty() ? "" : "; ") + part;
  return text;
}

std::string after(std::string_view lead, std::vector<std::string> const& words) {
  return words.empty() ? std::string() : std::string(lead) + listed(words);
}

std::string text_block(BuyerQuote const& quote) {
  std::string const size = fmt::format("{} pages in {} sections", quote.pages, quote.sections);
  return joined(
      {size, listed(words_of(quote, {Role::text_paper})), listed(words_of(quote, {Role::endpaper}))});
}

std::string binding(BuyerQuote const& quote) {
  std::string const* const leather = words_of(quote, Role::leather);
  std::string const* const board = words_of(quote, Role::board);
  std::string full = "in full leather";
  if (leather != nullptr) full = "in full " + *leather;
  if (board != nullptr) full += " over " + *board;
  return joined(
      {fmt::format("sewn on {} raised cord{}", number_word(quote.bands), quote.bands == 1 ? "" : "s"), full,
       listed(words_of(quote, {Role::leather_dye}))});
}

// "2 x brass corners": a count that stands by itself, whatever the number of the words.
std::string some_of(std::int64_t n, std::string_view plain, std::string const* words) {
  if (n == 0) return "";
  std::string_view what = words == nullptr ? plain : std::string_view(*words);
  if (what.starts_with("a ")) what.remove_prefix(2);
  return fmt::format("{} x {}", n, what);
}

std::string endbands(BuyerQuote const& quote) {
  std::string const silk =
      after("endbands sewn in ", words_of(quote, {Role::endband_silk_1, Role::endband_silk_2}));
  return joined({silk.empty() ? "endbands sewn by hand" : silk,
                 some_of(quote.registers, "registers", words_of(quote, Role::ribbon))});
}

std::string finishing(BuyerQuote const& quote) {
  std::string const leaf = after("with ", words_of(quote, {Role::metal_leaf}));
  return leaf.empty() ? "tooled blind by hand" : "tooled by hand, " + leaf;
}

std::string furniture(BuyerQuote const& quote) {
  std::string const text = joined({some_of(quote.corners, "corners", words_of(quote, Role::corner)),
                                   some_of(quote.clasps, "clasps", words_of(quote, Role::clasp)),
                                   after("strap of ", words_of(quote, {Role::strap_leather, Role::buckle}))});
  return text.empty() ? "fitted by hand" : text;
}

std::string_view title_of(Component component) {
  switch (component) {
    case Component::text_block: return "Text block and sewing";
    case Component::binding: return "Binding";
    case Component::endbands_and_registers: return "Endbands and registers";
    case Component::finishing: return "Finishing";
    case Component::furniture: return "Furniture";
    case Component::stone_setting: return "Stone";
    case Component::box: return "Box";
    case Component::repairs: return "Repairs";
    case Component::extras: return "Extras as agreed";
    case Component::outside_work: return "Work by other hands";
  }
  return "";
}

std::string details_of(BuyerQuote const& quote, Component component) {
  switch (component) {
    case Component::text_block: return text_block(quote);
    case Component::binding: return binding(quote);
    case Component::endbands_and_registers: return endbands(quote);
    case Component::finishing: return finishing(quote);
    case Component::furniture: return furniture(quote);
    case Component::stone_setting: {
      std::string const words = listed(words_of(quote, {Role::stone}));
      return words.empty() ? "set by hand" : words + ", set by hand";
    }
    case Component::box:
    case Component::repairs:
    case Component::extras:
    case Component::outside_work: return "";
  }
  return "";
}

std::int64_t whole_mm(Length length) { return mul_div(length.n, 1, 1000, Rounding::half_away); }

}  // namespace

std::string binding_words(BuyerQuote const& quote) {
  return fmt::format("Bound by hand, {}. Closed it measures about {} x {} x {} mm.", binding(quote),
                     whole_mm(quote.height), whole_mm(quote.width), whole_mm(quote.thickness));
}

std::string component_words(BuyerQuote const& quote, Component component) {
  std::string const details = details_of(quote, component);
  return details.empty() ? std::string(title_of(component))
                         : fmt::format("{}: {}", title_of(component), details);
}

std::vector<std::string> notice_words(BuyerQuote const& quote) {
  std::vector<std::string> notices;
  for (WarningCode code : quote.notices) {
    if (code == WarningCode::leaf_tarnishes)
      notices.emplace_back("The metal leaf is not gold: it is varnished, and darkens in time all the same.");
    if (code == WarningCode::restricted_material)
      notices.emplace_back("One of the materials needs papers when the book is sent across some borders.");
    if (code == WarningCode::customer_piece_cannot_be_replaced)
      notices.emplace_back("What you supply is handled with care, but cannot be replaced.");
  }
  return notices;
}

}  // namespace endband::cli
