// The ways of making a part: of each axis (how it is sewn, on what, the shape of the spine, ...) a book has
// exactly one. Rules and parts ask for ways, never for the name of a binding.
#pragma once

#include "engine/book/figure.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string_view>

namespace endband {

enum class Axis : std::uint8_t {
  stitch,
  support,
  support_rule,
  spine_shape,
  back,
  attachment,
  joint,
  covering,
  corner_rule,
  endpaper,
  endband,
  edge,
  title,
  box
};
inline constexpr std::size_t axis_count = static_cast<std::size_t>(Axis::box) + 1;

// In the order of their axes.
enum class Way : std::uint8_t {
  // stitch
  all_along,    // every section from kettle stitch to kettle stitch
  two_on,       // two sections share one pass of the thread
  link_stitch,  // no supports: each section linked to the one below
  long_stitch,  // through the spine of the wrapper
  pamphlet,     // one section, through its fold
  // support
  raised_cords,
  recessed_cords,  // let into the folds
  tapes,
  unsupported,
  // support_rule: how much cord or tape is cut
  spine_and_slips,
  four_thicknesses,
  // spine_shape
  flat,
  rounded,  // without shoulders
  backed,   // rounded, with shoulders
  // back: what the covering lies on
  tight,
  hollow,     // a tube of paper between spine and covering
  loose,      // a stiffener in the case, not glued to the spine
  open_back,  // nothing covers the spine, or it is the wrapper itself
  // attachment of the boards
  laced,
  cased,
  sewn_on,
  no_boards,
  // joint
  tight_joint,
  groove,  // French joint: the board stands off the shoulder
  // covering
  full,
  three_quarter,
  half,
  quarter,
  each_board,  // the boards one by one, the spine bare
  wrapper,     // one limp piece, no boards
  // corner_rule of half and three-quarter
  corner_by_leg,       // along the edge as far as the spine's covering reaches
  corner_by_diagonal,  // across as far as that
  // endpaper
  single,  // folios tipped on
  made,    // two leaves of each pasted together
  sewn,    // sewn in with the sections
  leather_joint,
  // endband
  one_core,
  two_cores,
  stuck_on,
  // edge
  cut,
  uncut,
  sprinkled,
  gilt,
  // title
  by_letter,  // handle letters, one impression a letter
  by_line,    // type set in a holder, one impression a line
  by_die,     // a die made for the job
  // box
  slipcase,
  drop_spine
};
inline constexpr std::size_t way_count = static_cast<std::size_t>(Way::drop_spine) + 1;
static_assert(way_count < 64);

struct WayRow {
  Way way;
  Axis axis;
  std::string_view name;   // as a description says it: "two-on"
  std::string_view words;  // "two sections sewn together"
};
WayRow const& way_row(Way way);

struct AxisRow {
  Axis axis;
  std::string_view key;  // "sewing.stitch"
  Part part;             // the axis says nothing of a book without it
};
AxisRow const& axis_row(Axis axis);
std::optional<Way> way_named(Axis axis, std::string_view name);

// A set of ways: those of one book (one of each axis), those that a binding allows, or those that a rule is
// for (any of the named ones of each axis that it names at all).
class Ways {
 public:
  constexpr Ways() = default;
  constexpr Ways(std::initializer_list<Way> ways) {
    for (Way const way : ways) bits_ |= bit(way);
  }
  constexpr bool has(Way way) const { return (bits_ & bit(way)) != 0; }
  constexpr bool empty() const { return bits_ == 0; }
  constexpr Ways with(Ways others) const { return Ways(bits_ | others.bits_); }
  // Of each axis that `others` names, its ways take the place of these.
  constexpr Ways replaced_by(Ways others) const;
  constexpr Ways only(Axis axis) const;    // those of one axis
  std::optional<Way> of(Axis axis) const;  // the first of the axis
  // Does a book of these ways fall under `condition`?
  constexpr bool meet(Ways condition) const;
  friend constexpr bool operator==(Ways, Ways) = default;

 private:
  explicit constexpr Ways(std::uint64_t bits) : bits_(bits) {}
  static constexpr std::uint64_t bit(Way way) { return std::uint64_t{1} << static_cast<unsigned>(way); }
  std::uint64_t bits_ = 0;
};

// The first way of every axis, and one past the last: an axis is a run of ways.
inline constexpr std::array<Way, axis_count> first_ways{
    Way::all_along,   Way::raised_cords, Way::spine_and_slips, Way::flat,   Way::tight,    Way::laced,
    Way::tight_joint, Way::full,         Way::corner_by_leg,   Way::single, Way::one_core, Way::cut,
    Way::by_letter,   Way::slipcase};

constexpr Ways Ways::only(Axis axis) const {
  auto const index = static_cast<std::size_t>(axis);
  std::uint64_t const from = bit(first_ways[index]);
  std::uint64_t const below =
      index + 1 < axis_count ? bit(first_ways[index + 1]) : std::uint64_t{1} << way_count;
  return Ways(bits_ & (below - from));
}

constexpr Ways Ways::replaced_by(Ways others) const {
  Ways result = others;
  for (std::size_t i = 0; i < axis_count; ++i)
    if (auto const axis = static_cast<Axis>(i); others.only(axis).empty()) result = result.with(only(axis));
  return result;
}

constexpr bool Ways::meet(Ways condition) const {
  for (std::size_t i = 0; i < axis_count; ++i) {
    auto const axis = static_cast<Axis>(i);
    std::uint64_t const wanted = condition.only(axis).bits_;
    if (wanted != 0 && (wanted & bits_) == 0) return false;
  }
  return true;
}

}  // namespace endband
