// What holds between boards, spine and covering.
#include "engine/book/resolve.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>
#include <optional>

namespace endband {
namespace {

using enum FigureId;

constexpr double least_turn_in_mm = 5;
constexpr double longest_thong_mm = 10'000;

void clash(Resolving& to, std::size_t index, std::string expected) {
  Hit const& hit = to.layers[index];
  Where const where = hit ? hit.entry->where : Where{to.layers.source(), 0, 0, std::string(path_of(index))};
  std::string found = hit ? value_text(key_table::rows[index].row.type, hit.entry->value) : std::string();
  to.fault(FaultCode::contradiction, where, std::move(found), std::move(expected));
}

bool is_leather(Resolving const& to, Role role) {
  Chosen const& chosen = to.spec.chosen(role);
  return chosen.origin != Origin::none && to.catalogue.at(chosen.material).kind == MaterialKind::leather;
}

struct BoardSize {
  double height = 0, width = 0;
};

// Whatever stands as practice or is said; the square of a board is always one of them.
BoardSize board_of(Resolving const& to) {
  Figures const& given = to.spec.given;
  double const edge = given.value_or(square, 0);
  return {given.value(leaf_height) + 2 * edge, given.value(leaf_width) + edge - given.value_or(setback, 0)};
}

// A habit of thicker leather is not meant for a thinner one, which stays as it is.
void check_pared(Resolving& to) {
  Hit const& pared = to.layers[key("cover.pared")];
  if (!pared) return;
  bool const asked_for = pared.origin == Origin::said || pared.origin == Origin::model;
  if (!is_leather(to, Role::leather)) {
    if (pared.origin == Origin::said) clash(to, key("cover.pared"), "no such key: only leather is pared");
    return;
  }
  auto const bought = to.catalogue.at(to.spec.chosen(Role::leather).material).properties.caliper;
  if (!bought) return;
  double const most = static_cast<double>(bought->n) / 1'000'000;
  if (to.spec.given.value_or(leather_pared, 0) <= most) return;
  if (asked_for)
    clash(to, key("cover.pared"),
          fmt::format("at most the {:g} mm that the leather has: paring makes it thinner", most));
  else
    to.spec.given.set(leather_pared, 0, Origin::none);
}

void check_turn_in(Resolving& to) {
  double const in = to.spec.given.value_or(turn_in, least_turn_in_mm);
  if (to.parts.has(Part::boards) && in < least_turn_in_mm)
    clash(to, key("cover.turn_in"),
          fmt::format("at least {:g} mm: less does not hold on the inside of a board", least_turn_in_mm));
}

double usual_reach(Ways ways) { return ways.has(Way::quarter) ? 0.2 : ways.has(Way::half) ? 0.25 : 1.0 / 3; }

// Corners may not meet: not each other along the fore-edge, nor the covering of the spine.
void check_parts_of_cover(Resolving& to, BoardSize board) {
  Ways const ways = to.spec.ways;
  if (!ways.meet({Way::three_quarter, Way::half})) return;
  Figures const& given = to.spec.given;
  double const reach = given.value_or(spine_reach_share, usual_reach(ways)) * board.width;
  double const by_rule = ways.has(Way::corner_by_diagonal) ? std::numbers::sqrt2 * reach : reach;
  double const corner = given.value_or(corner_leather, by_rule);
  double const room = std::min(board.height / 2, board.width - reach);
  if (corner <= room) return;
  std::size_t const index = to.layers[key("cover.corner")] ? key("cover.corner") : key("cover.spine_reach");
  clash(to, index,
        fmt::format("corners of at most {:g} mm: these take {:.1f} mm along the edge", room, corner));
}

void check_mull(Resolving& to, BoardSize board) {
  Figures const& given = to.spec.given;
  if (2 * given.value_or(mull_setback, 0) >= given.value(leaf_height))
    clash(to, key("spine.mull_setback"),
          fmt::format("less than half of the height, {:g} mm", given.value(leaf_height) / 2));
  if (given.value_or(mull_reach, 0) > board.width)
    clash(to, key("spine.mull_reach"), fmt::format("at most a board's width, {:g} mm", board.width));
}

void check_false_bands(Resolving& to) {
  if (!to.parts.has(Part::false_bands)) return;
  Figures const& given = to.spec.given;
  double const height = given.value(leaf_height);
  double const taken = given.value_or(false_bands, 0) * given.value_or(false_band_width, 0);
  if (taken >= height)
    clash(to, key("false_bands.count"),
          fmt::format("bands that leave panels: these take {:g} of {:g} mm", taken, height));
}

// A thong is cut in one piece. The thickness of the closed book is not known yet; no block is thicker than
// its key allows.
void check_thong(Resolving& to) {
  if (!to.parts.has(Part::tie) || !is_leather(to, Role::tie)) return;
  Figures const& given = to.spec.given;
  double const thickest = given.value_or(block_thickness, key_table::rows[key("text.thickness")].row.most);
  double const boards =
      2 * given.value_or(board_thickness, key_table::rows[key("boards.thickness")].row.most);
  double const round = 2 * (given.value(leaf_width) + 1.5 * (thickest + boards) + 100);
  double const longest = given.value_or(tie_turns, 1) * round + given.value_or(tie_tail, 0);
  if (longest > longest_thong_mm)
    clash(to, key("tie.turns"),
          "fewer turns: a thong is cut in one piece, of at most 10 m; or a ribbon or cord");
}

}  // namespace

void check_covering(Resolving& to) {
  BoardSize const board = board_of(to);
  check_pared(to);
  check_turn_in(to);
  check_parts_of_cover(to, board);
  check_mull(to, board);
  check_false_bands(to);
  check_thong(to);
}

}  // namespace endband
