// The places of a book that one material fills, and what may stand there.
#include "engine/book/spec.h"

#include <array>

namespace endband {
namespace {

using enum MaterialKind;

constexpr std::array papers{paper};
constexpr std::array guard_papers{paper, card};
constexpr std::array joints{leather, cloth};
constexpr std::array mulls{linen, cloth};
constexpr std::array stiffeners{card, board};
constexpr std::array band_stuff{leather, card, board, cord};
constexpr std::array covers{leather, cloth, paper, card};
constexpr std::array side_covers{leather, cloth, paper};
constexpr std::array made_endbands{endband};
constexpr std::array tie_stuff{leather, ribbon, cord};
constexpr std::array linings_of_boxes{paper, cloth, leather};
constexpr std::array threads{thread};
constexpr std::array waxes{wax};
constexpr std::array cords{cord};
constexpr std::array glues{adhesive, paste_powder};
constexpr std::array strong_glues{adhesive, paste_powder, epoxy};
constexpr std::array linings{linen, cloth, leather};
constexpr std::array boards{board, wood_board};
constexpr std::array leathers{leather};
constexpr std::array pastes{paste_powder, adhesive};
constexpr std::array dyes{dye};
constexpr std::array dressings{dressing, wax};
constexpr std::array cores{core, cord};
constexpr std::array silks{silk, thread};
constexpr std::array ribbons{ribbon};
constexpr std::array metal_leaves{metal_leaf};
constexpr std::array sizes{gilding_size};
constexpr std::array varnishes{varnish};
constexpr std::array corners{corner};
constexpr std::array setting_glues{epoxy, adhesive};
constexpr std::array clasps{clasp};
constexpr std::array rivets{rivet};
constexpr std::array buckles{buckle};
constexpr std::array stones{stone};
constexpr std::array cartons{carton};
constexpr std::array paddings{packing};

// clang-format off
constexpr std::array rows{
    RoleRow{Role::text_paper, "text.paper", Part::text_block, papers, {}},
    RoleRow{Role::guard_paper, "guards.paper", Part::guards, guard_papers, Role::text_paper},
    RoleRow{Role::endpaper, "endpapers.paper", Part::endpapers, papers, Role::text_paper},
    RoleRow{Role::joint_leather, "endpapers.joint", Part::endpapers, joints, Role::leather},
    RoleRow{Role::thread, "sewing.thread", Part::sewing, threads, {}},
    RoleRow{Role::thread_wax, "sewing.wax", Part::sewing, waxes, {}},
    RoleRow{Role::cord, "sewing.cord", Part::sewing, cords, {}},
    RoleRow{Role::tape, "sewing.tape", Part::sewing, cords, {}},
    RoleRow{Role::spine_adhesive, "spine.adhesive", Part::spine, glues, {}},
    RoleRow{Role::spine_lining, "spine.lining", Part::spine, linings, {}},
    RoleRow{Role::spine_paper, "spine.paper", Part::spine, papers, {}},
    RoleRow{Role::mull, "spine.mull", Part::spine, mulls, {}},
    RoleRow{Role::hollow_paper, "spine.hollow", Part::spine, papers, Role::spine_paper},
    RoleRow{Role::stiffener, "spine.stiffener", Part::spine, stiffeners, {}},
    RoleRow{Role::false_band, "false_bands.material", Part::false_bands, band_stuff, {}},
    RoleRow{Role::board, "boards.material", Part::boards, boards, {}},
    RoleRow{Role::board_lining, "boards.lining", Part::boards, side_covers, {}},
    RoleRow{Role::lacing_adhesive, "boards.lacing_adhesive", Part::boards, strong_glues, Role::spine_adhesive},
    RoleRow{Role::leather, "leather", Part::cover, covers, {}},
    RoleRow{Role::sides, "cover.sides", Part::cover, side_covers, {}},
    RoleRow{Role::corner_covering, "cover.corners", Part::cover, side_covers, Role::leather},
    RoleRow{Role::side_adhesive, "cover.side_adhesive", Part::cover, glues, Role::cover_paste},
    RoleRow{Role::cover_paste, "cover.paste", Part::cover, pastes, {}},
    RoleRow{Role::leather_dye, "cover.dye", Part::cover, dyes, {}},
    RoleRow{Role::leather_dressing, "cover.dressing", Part::cover, dressings, {}},
    RoleRow{Role::endband_core, "endbands.core", Part::endbands, cores, {}},
    RoleRow{Role::second_core, "endbands.second_core", Part::endbands, cores, Role::endband_core},
    RoleRow{Role::endband_silk_1, "endbands.silk", Part::endbands, silks, {}},
    RoleRow{Role::endband_silk_2, "endbands.silk", Part::endbands, silks, {}},
    RoleRow{Role::endband_silk_3, "endbands.silk", Part::endbands, silks, {}},
    RoleRow{Role::endband_silk_4, "endbands.silk", Part::endbands, silks, {}},
    RoleRow{Role::endband_silk_5, "endbands.silk", Part::endbands, silks, {}},
    RoleRow{Role::endband_silk_6, "endbands.silk", Part::endbands, silks, {}},
    RoleRow{Role::made_endband, "endbands.made", Part::endbands, made_endbands, {}},
    RoleRow{Role::endband_adhesive, "endbands.adhesive", Part::endbands, glues, Role::spine_adhesive},
    RoleRow{Role::ribbon, "registers.ribbon", Part::registers, ribbons, {}},
    RoleRow{Role::underlay_adhesive, "underlay.adhesive", Part::underlays, strong_glues, Role::cover_paste},
    RoleRow{Role::metal_leaf, "finishing.leaf", Part::lines, metal_leaves, {}},
    RoleRow{Role::leaf_size, "finishing.size", Part::lines, sizes, {}},
    RoleRow{Role::leaf_varnish, "finishing.varnish", Part::lines, varnishes, {}},
    RoleRow{Role::edge_colour, "edges.colour", Part::edges, dyes, {}},
    RoleRow{Role::inset_adhesive, "inset.adhesive", Part::insets, strong_glues, Role::cover_paste},
    RoleRow{Role::corner, "corners.material", Part::corners, corners, {}},
    RoleRow{Role::corner_adhesive, "corners.adhesive", Part::corners, setting_glues, {}},
    RoleRow{Role::clasp, "clasps.material", Part::clasps, clasps, {}},
    RoleRow{Role::rivet, "rivets.material", Part::whole_book, rivets, {}},
    RoleRow{Role::strap_leather, "strap.leather", Part::strap, leathers, Role::leather},
    RoleRow{Role::buckle, "strap.buckle", Part::strap, buckles, {}},
    RoleRow{Role::stone, "stone.material", Part::stone, stones, {}},
    RoleRow{Role::stone_adhesive, "stone.adhesive", Part::stone, setting_glues, {}},
    RoleRow{Role::tie, "tie.material", Part::tie, tie_stuff, {}},
    RoleRow{Role::box_board, "box.board", Part::box, boards, Role::board},
    RoleRow{Role::box_cloth, "box.cloth", Part::box, side_covers, {}},
    RoleRow{Role::box_lining, "box.lining", Part::box, linings_of_boxes, {}},
    RoleRow{Role::box_adhesive, "box.adhesive", Part::box, glues, Role::spine_adhesive},
    RoleRow{Role::pastedown_adhesive, "endpapers.adhesive", Part::endpapers, pastes, Role::cover_paste},
    RoleRow{Role::carton, "packing.carton", Part::packing, cartons, {}},
    RoleRow{Role::padding, "packing.padding", Part::packing, paddings, {}},
};
// clang-format on

constexpr bool rows_follow_their_roles() {
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (static_cast<std::size_t>(rows[i].role) != i) return false;
  return rows.size() == role_count;
}
static_assert(rows_follow_their_roles());

}  // namespace

RoleRow const& role_row(Role role) { return rows.at(static_cast<std::size_t>(role)); }

}  // namespace endband
