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

std::string capital(std::string words) {
  if (!words.empty() && words.front() >= 'a' && words.front() <= 'z')
    words.front() = static_cast<char>(words.front() - 'a' + 'A');
  return words;
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
  std::string size;
  if (quote.pages > 0) size = fmt::format("{} pages in {} sections", quote.pages, quote.sections);
  if (size.empty() && quote.sections > 0) size = fmt::format("{} sections", quote.sections);
  if (quote.ways.has(Way::pamphlet) && quote.pages > 0) size = fmt::format("{} pages", quote.pages);
  if (quote.copies > 1 && !size.empty()) size = "each " + size;
  return joined(
      {size, listed(words_of(quote, {Role::text_paper})), listed(words_of(quote, {Role::endpaper}))});
}

// "sewn on five raised cords", "sewn two on, on three tapes", "sewn with link stitches"
std::string sewing(BuyerQuote const& quote) {
  auto const stitch = quote.ways.of(Axis::stitch);
  auto const support = quote.ways.of(Axis::support);
  if (!stitch) return "";
  std::string how(*stitch == Way::all_along ? "sewn" : way_row(*stitch).words);
  if (!support || *support == Way::unsupported || quote.supports == 0) return how;
  if (*stitch == Way::two_on) how += ",";
  std::string_view const what = *support == Way::tapes            ? "tape"
                                : *support == Way::recessed_cords ? "recessed cord"
                                                                  : "raised cord";
  return fmt::format("{} on {} {}{}", how, number_word(quote.supports), what, quote.supports == 1 ? "" : "s");
}

// "in full green goatskin", "in half green goatskin with sides of marbled paper"
std::string covering(BuyerQuote const& quote) {
  std::string const* const cover = words_of(quote, Role::leather);
  std::string const what = cover == nullptr ? "the material agreed" : *cover;
  std::string const sides = after(" with sides of ", words_of(quote, {Role::sides}));
  switch (quote.ways.of(Axis::covering).value_or(Way::full)) {
    case Way::three_quarter: return "in three-quarter " + what + sides;
    case Way::half: return "in half " + what + sides;
    case Way::quarter: return "in quarter " + what + sides;
    case Way::each_board: return "each board covered in " + what + ", the spine bare";
    case Way::wrapper: return "in a wrapper of " + what;
    default: return "in full " + what;
  }
}

std::string boards(BuyerQuote const& quote) {
  std::string const* const board = words_of(quote, Role::board);
  return board == nullptr || quote.ways.has(Way::no_boards) ? "" : " over " + *board;
}

std::string binding(BuyerQuote const& quote) {
  return joined({sewing(quote), covering(quote) + boards(quote),
                 quote.ways.has(Way::cased) ? "hung in its case" : "",
                 listed(words_of(quote, {Role::leather_dye}))});
}

std::string box(BuyerQuote const& quote) {
  bool const drop_spine = quote.ways.has(Way::drop_spine);
  return joined({std::string(drop_spine ? "drop-spine box of two trays in a case" : "slipcase") +
                     after(", covered in ", words_of(quote, {Role::box_cloth})),
                 after("lined with ", words_of(quote, {Role::box_lining}))});
}

// "2 x brass corners": a count that stands by itself, whatever the number of the words.
std::string some_of(std::int64_t n, std::string_view plain, std::string const* words) {
  if (n == 0) return "";
  std::string_view what = words == nullptr ? plain : std::string_view(*words);
  if (what.starts_with("a ")) what.remove_prefix(2);
  return fmt::format("{} x {}", n, what);
}

std::string endbands(BuyerQuote const& quote) {
  bool const stuck_on = quote.ways.has(Way::stuck_on);
  std::string bands = stuck_on ? "endbands stuck on" : "endbands sewn by hand";
  std::string const silk =
      after("endbands sewn in ",
            words_of(quote, {Role::endband_silk_1, Role::endband_silk_2, Role::endband_silk_3,
                             Role::endband_silk_4, Role::endband_silk_5, Role::endband_silk_6}));
  if (!stuck_on && !silk.empty()) bands = silk;
  return joined({bands, some_of(quote.registers, "registers", words_of(quote, Role::ribbon))});
}

std::string finishing(BuyerQuote const& quote) {
  std::string const leaf = after("with ", words_of(quote, {Role::metal_leaf}));
  return leaf.empty() ? "tooled blind by hand" : "tooled by hand, " + leaf;
}

std::string furniture(BuyerQuote const& quote) {
  std::string const text = joined({some_of(quote.corners, "corners", words_of(quote, Role::corner)),
                                   some_of(quote.clasps, "clasps", words_of(quote, Role::clasp)),
                                   after("strap of ", words_of(quote, {Role::strap_leather, Role::buckle})),
                                   after("tied with ", words_of(quote, {Role::tie}))});
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
    case Component::box: return box(quote);
    case Component::repairs:
    case Component::extras:
    case Component::outside_work: return "";
  }
  return "";
}

std::int64_t whole_mm(Length length) { return mul_div(length.n, 1, 1000, Rounding::half_away); }

}  // namespace

std::string binding_words(BuyerQuote const& quote) {
  bool const several = quote.copies > 1;
  auto const many = [&](std::string_view things) {
    return capital(number_word(quote.copies)) + " " + std::string(things);
  };
  if (quote.box_alone)
    return fmt::format("{}ade by hand, for a book of about {} x {} x {} mm: {}.",
                       several ? many("boxes, each m") : "M", whole_mm(quote.height), whole_mm(quote.width),
                       whole_mm(quote.thickness), "a " + box(quote));
  if (!quote.volumes.empty())
    return fmt::format("{} of {} volume{}, bound by hand, {}.", several ? many("sets") : "A set",
                       number_word(static_cast<std::int64_t>(quote.volumes.size())),
                       quote.volumes.size() == 1 ? "" : "s", binding(quote));
  return fmt::format("{}ound by hand, {}. Closed {} measures about {} x {} x {} mm.",
                     several ? many("copies, b") : "B", binding(quote), several ? "each" : "it",
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
