// How the rows of the table of rules are written: a rule names its inputs once, and its function takes just
// those, as plain numbers in the same order. Private to engine/book.
#pragma once

#include "engine/book/rule.h"

#include <array>
#include <cstddef>
#include <span>
#include <string_view>
#include <type_traits>
#include <utility>

namespace endband {

template <FigureId... Ids>
struct From {
  static constexpr std::array<FigureId, sizeof...(Ids)> ids{Ids...};
};

template <FigureId... Inputs, class Function>
constexpr Rule rule(FigureId gives, From<Inputs...>, std::string_view formula, Function,
                    std::string_view source) {
  static_assert(std::is_empty_v<Function>, "a rule sees only its inputs");
  return {gives,
          {},
          formula,
          From<Inputs...>::ids,
          [](double const* in) {
            return [in]<std::size_t... I>(std::index_sequence<I...>) {
              (void)in;  // a rule may have no inputs
              return static_cast<double>(Function{}(in[I]...));
            }
            (std::make_index_sequence<sizeof...(Inputs)>{});
          },
          source};
}

// A rule that only books of these ways have.
constexpr Rule when(Ways ways, Rule rule) {
  rule.when = ways;
  return rule;
}

// What stands as the source of a rule that nobody prints.
inline constexpr std::string_view geometry = "geometry";
inline constexpr std::string_view common_practice = "common practice, no source";
inline constexpr std::string_view by_definition = "definition";

// The groups of the table, in this order.
std::span<Rule const> rules_of_text();
std::span<Rule const> rules_of_sewing();
std::span<Rule const> rules_of_spine();
std::span<Rule const> rules_of_boards_and_cover();
std::span<Rule const> rules_of_covering_in_parts();
std::span<Rule const> rules_of_endbands_and_registers();
std::span<Rule const> rules_of_edges();
std::span<Rule const> rules_of_lettering();
std::span<Rule const> rules_of_fittings();
std::span<Rule const> rules_of_whole_book();
std::span<Rule const> rules_of_box();
std::span<Rule const> rules_of_parcel();

}  // namespace endband
