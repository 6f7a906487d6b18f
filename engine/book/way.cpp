// The names of the ways and the keys that choose them.
#include "engine/book/way.h"

#include <array>
#include <bit>

namespace endband {
namespace {

using enum Way;

// clang-format off
constexpr std::array way_rows{
    WayRow{all_along, Axis::stitch, "all-along", "sewn all along"},
    WayRow{two_on, Axis::stitch, "two-on", "sewn two on"},
    WayRow{link_stitch, Axis::stitch, "link-stitch", "sewn with link stitches"},
    WayRow{long_stitch, Axis::stitch, "long-stitch", "sewn through the wrapper with long stitches"},
    WayRow{pamphlet, Axis::stitch, "pamphlet", "sewn through the fold"},
    WayRow{raised_cords, Axis::support, "raised-cords", "on raised cords"},
    WayRow{recessed_cords, Axis::support, "recessed-cords", "on recessed cords"},
    WayRow{tapes, Axis::support, "tapes", "on tapes"},
    WayRow{unsupported, Axis::support, "nothing", "without supports"},
    WayRow{spine_and_slips, Axis::support_rule, "spine-and-slips", "the spine and two slips"},
    WayRow{four_thicknesses, Axis::support_rule, "four-thicknesses", "four times the thickness of the block"},
    WayRow{flat, Axis::spine_shape, "flat", "flat spine"},
    WayRow{rounded, Axis::spine_shape, "rounded", "rounded spine"},
    WayRow{backed, Axis::spine_shape, "backed", "rounded and backed spine"},
    WayRow{tight, Axis::back, "tight", "tight back"},
    WayRow{hollow, Axis::back, "hollow", "hollow back"},
    WayRow{loose, Axis::back, "loose", "loose back of a case"},
    WayRow{open_back, Axis::back, "open", "bare spine"},
    WayRow{laced, Axis::attachment, "laced", "boards laced on"},
    WayRow{cased, Axis::attachment, "cased", "boards in a case"},
    WayRow{sewn_on, Axis::attachment, "sewn", "boards sewn on"},
    WayRow{no_boards, Axis::attachment, "none", "no boards"},
    WayRow{tight_joint, Axis::joint, "tight", "tight joint"},
    WayRow{groove, Axis::joint, "groove", "French groove"},
    WayRow{full, Axis::covering, "full", "full"},
    WayRow{three_quarter, Axis::covering, "three-quarter", "three-quarter"},
    WayRow{half, Axis::covering, "half", "half"},
    WayRow{quarter, Axis::covering, "quarter", "quarter"},
    WayRow{each_board, Axis::covering, "each-board", "each board by itself"},
    WayRow{wrapper, Axis::covering, "wrapper", "wrapper"},
    WayRow{corner_by_leg, Axis::corner_rule, "leg", "corners as long as the spine reaches"},
    WayRow{corner_by_diagonal, Axis::corner_rule, "diagonal", "corners as deep as the spine reaches"},
    WayRow{single, Axis::endpaper, "single", "single endpapers"},
    WayRow{made, Axis::endpaper, "made", "made endpapers"},
    WayRow{sewn, Axis::endpaper, "sewn", "sewn endpapers"},
    WayRow{leather_joint, Axis::endpaper, "leather-joint", "endpapers with a leather joint"},
    WayRow{one_core, Axis::endband, "one-core", "sewn on one core"},
    WayRow{two_cores, Axis::endband, "two-cores", "sewn on two cores"},
    WayRow{stuck_on, Axis::endband, "stuck-on", "stuck on"},
    WayRow{cut, Axis::edge, "cut", "cut edges"},
    WayRow{uncut, Axis::edge, "uncut", "uncut edges"},
    WayRow{sprinkled, Axis::edge, "sprinkled", "sprinkled edges"},
    WayRow{gilt, Axis::edge, "gilt", "gilt edges"},
    WayRow{by_letter, Axis::title, "letters", "letter by letter"},
    WayRow{by_line, Axis::title, "line", "line by line from set type"},
    WayRow{by_die, Axis::title, "die", "with a die"},
    WayRow{slipcase, Axis::box, "slipcase", "slipcase"},
    WayRow{drop_spine, Axis::box, "drop-spine", "drop-spine box"},
};

constexpr std::array axis_rows{
    AxisRow{Axis::stitch, "sewing.stitch", Part::sewing},
    AxisRow{Axis::support, "sewing.on", Part::sewing},
    AxisRow{Axis::support_rule, "sewing.support_rule", Part::sewing},
    AxisRow{Axis::spine_shape, "spine.shape", Part::spine},
    AxisRow{Axis::back, "spine.back", Part::spine},
    AxisRow{Axis::attachment, "boards.attached", Part::boards},
    AxisRow{Axis::joint, "boards.joint", Part::boards},
    AxisRow{Axis::covering, "cover.extent", Part::cover},
    AxisRow{Axis::corner_rule, "cover.corner_rule", Part::cover},
    AxisRow{Axis::endpaper, "endpapers.kind", Part::endpapers},
    AxisRow{Axis::endband, "endbands.kind", Part::endbands},
    AxisRow{Axis::edge, "edges.kind", Part::edges},
    AxisRow{Axis::title, "lettering.way", Part::lettering},
    AxisRow{Axis::box, "box.kind", Part::box},
};
// clang-format on

constexpr bool rows_follow_their_enums() {
  for (std::size_t i = 0; i < way_rows.size(); ++i)
    if (static_cast<std::size_t>(way_rows[i].way) != i ||
        way_rows[i].way < first_ways[static_cast<std::size_t>(way_rows[i].axis)] ||
        (i > 0 && way_rows[i].axis != way_rows[i - 1].axis &&
         first_ways[static_cast<std::size_t>(way_rows[i].axis)] != way_rows[i].way))
      return false;
  for (std::size_t i = 0; i < axis_rows.size(); ++i)
    if (static_cast<std::size_t>(axis_rows[i].axis) != i) return false;
  return way_rows.size() == way_count && axis_rows.size() == axis_count;
}
static_assert(rows_follow_their_enums());

}  // namespace

WayRow const& way_row(Way way) { return way_rows.at(static_cast<std::size_t>(way)); }
AxisRow const& axis_row(Axis axis) { return axis_rows.at(static_cast<std::size_t>(axis)); }

std::optional<Way> way_named(Axis axis, std::string_view name) {
  for (WayRow const& row : way_rows)
    if (row.axis == axis && row.name == name) return row.way;
  return std::nullopt;
}

std::optional<Way> Ways::of(Axis axis) const {
  std::uint64_t const own = only(axis).bits_;
  if (own == 0) return std::nullopt;
  return static_cast<Way>(std::countr_zero(own));
}

}  // namespace endband
