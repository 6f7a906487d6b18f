// What the ways of a book leave no use for: a key that means nothing in it is not taken, and one that its
// description says is a mistake to be told.
#include "engine/book/resolve.h"

#include <algorithm>
#include <array>

namespace endband {
namespace {

struct OnlyFor {
  std::size_t key;
  Ways ways;  // of one axis
  std::string_view because;
};

constexpr Ways with_boards{Way::laced, Way::cased, Way::sewn_on};
constexpr Ways in_parts{Way::three_quarter, Way::half, Way::quarter};
constexpr Ways with_corners{Way::three_quarter, Way::half};
constexpr Ways over_mull{Way::hollow, Way::loose};

constexpr std::string_view no_boards = "no such key: a wrapper has no boards";
constexpr std::string_view no_mull =
    "no such key, or spine.back = \"hollow\": mull lies under a hollow or a loose back";
constexpr std::string_view no_lacing = "no such key: the boards are not laced on";
constexpr std::string_view no_sides =
    "no such key, or cover.extent = \"three-quarter\", \"half\" or \"quarter\"";
constexpr std::string_view no_corners = "no such key, or cover.extent = \"three-quarter\" or \"half\"";
constexpr Ways sewn_endbands{Way::one_core, Way::two_cores};
constexpr std::string_view no_silk =
    "no such key, or endbands.kind = \"one-core\" or \"two-cores\": a made endband is stuck on";

// clang-format off
constexpr std::array table{
    OnlyFor{key("spine.round"), {Way::rounded, Way::backed}, "no such key, or spine.shape = \"rounded\" or \"backed\": a flat spine has no round"},
    OnlyFor{key("spine.shoulder"), {Way::backed}, "no such key, or spine.shape = \"backed\": only backing makes shoulders"},
    OnlyFor{key("spine.mull"), over_mull, no_mull},
    OnlyFor{key("spine.mull_reach"), over_mull, no_mull},
    OnlyFor{key("spine.mull_setback"), over_mull, no_mull},
    OnlyFor{key("spine.hollow"), {Way::hollow}, "no such key, or spine.back = \"hollow\""},
    OnlyFor{key("spine.stiffener"), {Way::loose}, "no such key: only a case has a stiffened back"},
    OnlyFor{key("boards.material"), with_boards, no_boards},
    OnlyFor{key("boards.thickness"), with_boards, no_boards},
    OnlyFor{key("boards.lining"), with_boards, no_boards},
    OnlyFor{key("boards.setback"), with_boards, no_boards},
    OnlyFor{key("boards.lacing_adhesive"), {Way::laced}, no_lacing},
    OnlyFor{key("boards.holes_a_slip"), {Way::laced}, no_lacing},
    OnlyFor{key("cover.joint"), {Way::laced, Way::cased}, "no such key: no covering goes over a hinge"},
    OnlyFor{key("cover.sides"), in_parts, no_sides},
    OnlyFor{key("cover.side_adhesive"), in_parts, no_sides},
    OnlyFor{key("cover.spine_reach"), in_parts, no_sides},
    OnlyFor{key("cover.side_lap"), in_parts, no_sides},
    OnlyFor{key("cover.corners"), with_corners, no_corners},
    OnlyFor{key("cover.corner"), with_corners, no_corners},
    OnlyFor{key("cover.corner_rule"), with_corners, no_corners},
    OnlyFor{key("cover.flap"), {Way::wrapper}, "no such key, or cover.extent = \"wrapper\": only a wrapper has a flap"},
    OnlyFor{key("endbands.core"), sewn_endbands, no_silk},
    OnlyFor{key("endbands.silk"), sewn_endbands, no_silk},
    OnlyFor{key("endbands.pattern"), sewn_endbands, no_silk},
    OnlyFor{key("endbands.core_thickness"), sewn_endbands, no_silk},
    OnlyFor{key("endbands.core_trim"), sewn_endbands, no_silk},
    OnlyFor{key("endbands.packing"), sewn_endbands, no_silk},
    OnlyFor{key("endbands.tie_length"), sewn_endbands, no_silk},
    OnlyFor{key("endbands.second_core"), {Way::two_cores}, "no such key, or endbands.kind = \"two-cores\""},
    OnlyFor{key("endbands.made"), {Way::stuck_on}, "no such key, or endbands.kind = \"stuck-on\""},
    OnlyFor{key("edges.colour"), {Way::sprinkled}, "no such key, or edges.kind = \"sprinkled\""},
    OnlyFor{key("edges.count"), {Way::sprinkled, Way::gilt}, "no such key, or edges.kind = \"sprinkled\" or \"gilt\""},
};

// What a workshop does by habit, or is common practice, in books of these ways only; of any other it counts
// only where the description or its model says it.
constexpr std::array habits{
    OnlyFor{key("boards.setback"), {Way::groove}, {}},
    OnlyFor{key("boards.square"), with_boards, {}},
    OnlyFor{key("cover.turn_in"), with_boards, {}},
};
// clang-format on

}  // namespace

bool has_use(std::size_t key_index, Ways ways, Origin origin) {
  auto const excludes = [&](OnlyFor const& row) { return row.key == key_index && !ways.meet(row.ways); };
  if (std::any_of(table.begin(), table.end(), excludes)) return false;
  bool const asked_for = origin == Origin::said || origin == Origin::model;
  return asked_for || std::none_of(habits.begin(), habits.end(), excludes);
}

void check_use(Resolving& to) {
  if (!to.parts.has(Part::cover)) return;  // a box alone
  for (OnlyFor const& row : table) {
    Hit const& hit = to.layers[row.key];
    if (!hit || hit.origin != Origin::said || to.spec.ways.meet(row.ways)) continue;
    to.fault(FaultCode::contradiction, hit.entry->where,
             value_text(key_table::rows[row.key].row.type, hit.entry->value), std::string(row.because));
  }
}

}  // namespace endband
