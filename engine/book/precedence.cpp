// The bench's order as pairs, and circles in it.
#include "engine/book/precedence.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <stdexcept>

namespace endband {
namespace {

using enum OperationKind;

struct Pair {
  OperationKind kind, after;
};

// What is the way of a binding and what all have alike is not told apart: an operation that a book does not
// have hands on what comes before it.
// clang-format off
constexpr std::array pairs{
    // what the customer brings
    Pair{collate_block, order_materials}, Pair{collate_block, receive_custody},
    Pair{pull_block, collate_block},
    Pair{clean_leaves, pull_block},
    Pair{guard_folds, clean_leaves},
    Pair{mend_leaves, clean_leaves},
    Pair{resew_block, guard_folds}, Pair{resew_block, mend_leaves},
    Pair{other_repair, mend_leaves}, Pair{other_repair, guard_folds},
    Pair{reback_book, clean_leaves},
    // the text block
    Pair{cut_sheets, order_materials},
    Pair{cut_guards, order_materials},
    Pair{fold_sheets, cut_sheets},
    Pair{press_sections, fold_sheets}, Pair{press_sections, set_guards},
    Pair{set_guards, cut_guards}, Pair{set_guards, fold_sheets},
    Pair{pierce_stations, press_sections}, Pair{pierce_stations, guard_folds}, Pair{pierce_stations, mend_leaves},
    Pair{make_endpapers, order_materials},
    Pair{set_up_frame, order_materials},
    Pair{wax_thread, order_materials},
    Pair{sew_sections, pierce_stations}, Pair{sew_sections, make_endpapers}, Pair{sew_sections, set_up_frame},
    Pair{sew_sections, wax_thread},
    Pair{link_sections, pierce_stations}, Pair{link_sections, make_endpapers}, Pair{link_sections, wax_thread},
    Pair{link_sections, sew_boards}, Pair{link_sections, trim_edges},
    Pair{long_stitch_sections, pierce_stations}, Pair{long_stitch_sections, make_endpapers},
    Pair{long_stitch_sections, wax_thread}, Pair{long_stitch_sections, pierce_wrapper},
    Pair{long_stitch_sections, trim_edges},
    Pair{sew_pamphlet, pierce_stations}, Pair{sew_pamphlet, make_endpapers}, Pair{sew_pamphlet, wax_thread},
    Pair{sew_pamphlet, cut_wrapper}, Pair{sew_pamphlet, pierce_wrapper},
    Pair{glue_spine, sew_sections}, Pair{glue_spine, resew_block},
    Pair{trim_edges, glue_spine}, Pair{trim_edges, receive_custody}, Pair{trim_edges, sew_pamphlet},
    Pair{sprinkle_edges, trim_edges},
    Pair{gild_edges, trim_edges},
    // spine and boards
    Pair{round_spine, sprinkle_edges}, Pair{round_spine, gild_edges},
    Pair{back_spine, round_spine},
    Pair{line_panels, lace_boards}, Pair{line_panels, sew_endbands}, Pair{line_panels, stick_endbands},
    Pair{line_panels, fix_registers},
    Pair{line_spine, lace_boards}, Pair{line_spine, sew_endbands}, Pair{line_spine, stick_endbands},
    Pair{line_spine, fix_registers},
    Pair{make_hollow, line_panels}, Pair{make_hollow, line_spine},
    Pair{set_false_bands, make_hollow},
    Pair{cut_boards, order_materials},
    Pair{shape_boards, cut_boards},
    Pair{drill_lacing, shape_boards},
    Pair{sew_boards, drill_lacing}, Pair{sew_boards, cover_boards}, Pair{sew_boards, line_boards},
    Pair{sew_boards, turn_corners},
    Pair{lace_boards, drill_lacing}, Pair{lace_boards, back_spine},
    // endbands and registers
    Pair{sew_endbands, lace_boards},
    Pair{stick_endbands, back_spine},
    Pair{fix_registers, back_spine},
    // covering
    Pair{laminate_underlays, shape_boards},
    Pair{let_in_panels, turn_corners}, Pair{let_in_panels, put_on_sides},
    Pair{cut_leather, lace_boards}, Pair{cut_leather, cut_boards}, Pair{cut_leather, back_spine},
    Pair{cut_cloth, lace_boards}, Pair{cut_cloth, cut_boards}, Pair{cut_cloth, back_spine},
    Pair{pare_edges, thin_leather},
    Pair{thin_leather, cut_leather},
    Pair{dye_leather, pare_edges},
    Pair{mix_paste, order_materials},
    Pair{make_case, shape_boards}, Pair{make_case, cut_cloth}, Pair{make_case, dye_leather},
    Pair{make_case, mix_paste}, Pair{make_case, laminate_underlays},
    Pair{cover_book, set_false_bands}, Pair{cover_book, dye_leather}, Pair{cover_book, cut_cloth},
    Pair{cover_book, mix_paste}, Pair{cover_book, laminate_underlays}, Pair{cover_book, line_boards},
    Pair{cover_book, lace_boards},
    Pair{put_on_corners, cover_book}, Pair{put_on_corners, dye_leather},
    Pair{put_on_sides, put_on_corners}, Pair{put_on_sides, cut_cloth}, Pair{put_on_sides, make_case},
    Pair{cover_boards, shape_boards}, Pair{cover_boards, dye_leather}, Pair{cover_boards, cut_cloth},
    Pair{cover_boards, mix_paste}, Pair{cover_boards, laminate_underlays},
    Pair{line_boards, shape_boards}, Pair{line_boards, cover_boards},
    Pair{cut_wrapper, order_materials},
    Pair{pierce_wrapper, cut_wrapper},
    Pair{set_bands, cover_book},
    Pair{turn_corners, set_bands}, Pair{turn_corners, cover_boards}, Pair{turn_corners, make_case},
    Pair{case_in, make_case}, Pair{case_in, set_false_bands}, Pair{case_in, press_impressions},
    Pair{case_in, letter_title}, Pair{case_in, turn_corners}, Pair{case_in, put_on_sides},
    Pair{joint_endpapers, turn_corners}, Pair{joint_endpapers, put_on_sides},
    Pair{put_down_endpapers, joint_endpapers}, Pair{put_down_endpapers, dress_leather},
    Pair{put_down_endpapers, case_in},
    Pair{dress_leather, varnish_leaf}, Pair{dress_leather, letter_title}, Pair{dress_leather, press_impressions},
    Pair{dress_leather, let_in_panels}, Pair{dress_leather, cut_wrapper}, Pair{dress_leather, long_stitch_sections},
    // finishing
    Pair{blind_lines, lay_onlays},
    Pair{size_lines, blind_lines},
    Pair{lay_leaf, size_lines},
    Pair{varnish_leaf, lay_leaf},
    Pair{letter_title, blind_lines}, Pair{letter_title, draw_proof},
    Pair{set_type, draw_proof},
    Pair{press_impressions, set_type}, Pair{press_impressions, blind_lines}, Pair{press_impressions, make_case},
    Pair{lay_onlays, turn_corners}, Pair{lay_onlays, put_on_sides},
    // furniture, on the pressed book
    Pair{fit_corners, final_press},
    Pair{fit_clasps, final_press},
    Pair{fit_furniture, final_press},
    Pair{set_rivets, fit_corners}, Pair{set_rivets, fit_clasps}, Pair{set_rivets, fit_furniture},
    Pair{set_rivets, make_strap},
    Pair{make_strap, dye_leather}, Pair{make_strap, final_press},
    Pair{fit_buckle, make_strap},
    Pair{make_ties, cut_wrapper}, Pair{make_ties, final_press},
    Pair{set_stone, final_press},
    Pair{final_press, put_down_endpapers}, Pair{final_press, sew_pamphlet}, Pair{final_press, long_stitch_sections},
    Pair{final_press, link_sections}, Pair{final_press, cover_boards}, Pair{final_press, sprinkle_edges},
    Pair{final_press, gild_edges}, Pair{final_press, reback_book}, Pair{final_press, other_repair},
    // the box is measured from the closed book
    Pair{cut_box_boards, set_rivets}, Pair{cut_box_boards, fit_buckle}, Pair{cut_box_boards, make_ties},
    Pair{cut_box_boards, set_stone}, Pair{cut_box_boards, receive_custody},
    Pair{build_box, cut_box_boards},
    Pair{cover_box, build_box}, Pair{cover_box, mix_paste},
    Pair{line_box, cover_box},
    // beside the bench
    Pair{draw_proof, answer_enquiry},
    Pair{photograph, line_box}, Pair{photograph, extra_work},
    Pair{order_materials, draw_proof},
    Pair{receive_custody, answer_enquiry},
    Pair{pack_parcel, photograph},
    Pair{post_parcel, pack_parcel},
    Pair{keep_accounts, post_parcel},
    Pair{extra_work, order_materials},
};
// clang-format on

static_assert(std::is_sorted(pairs.begin(), pairs.end(),
                             [](Pair const& a, Pair const& b) { return a.kind < b.kind; }),
              "the pairs stand in the order of the operations");

struct Rows {
  std::array<OperationKind, pairs.size()> after{};
  std::array<std::size_t, operation_count + 1> begin{};  // of each operation in `after`
};
constexpr Rows rows = [] {
  Rows made;
  for (std::size_t i = 0; i < pairs.size(); ++i) made.after[i] = pairs[i].after;
  for (std::size_t kind = 0; kind <= operation_count; ++kind)
    while (made.begin[kind] < pairs.size() && static_cast<std::size_t>(pairs[made.begin[kind]].kind) < kind)
      ++made.begin[kind];
  return made;
}();

constexpr std::array wet{
    guard_folds,     mend_leaves,        reback_book,        set_guards,    make_endpapers, glue_spine,
    sprinkle_edges,  gild_edges,         line_panels,        line_spine,    make_hollow,    set_false_bands,
    stick_endbands,  fix_registers,      laminate_underlays, let_in_panels, dye_leather,    make_case,
    cover_book,      put_on_corners,     put_on_sides,       cover_boards,  line_boards,    case_in,
    joint_endpapers, put_down_endpapers, size_lines,         varnish_leaf,  lay_onlays,     fit_corners,
    set_stone,       build_box,          cover_box,          line_box};

constexpr std::array box_boards_after{order_materials, receive_custody};
constexpr std::array box_lines_after{cover_box};
constexpr std::array box_picture_after{line_box,     blind_lines,       varnish_leaf,
                                       letter_title, press_impressions, extra_work};

constexpr std::array after_trimming{trim_edges};
constexpr std::array before_rounding{round_spine, sew_endbands, stick_endbands, cut_leather, cut_cloth};
constexpr std::array after_ordering{order_materials, receive_custody};
constexpr std::array before_leather{cut_leather};
constexpr std::array after_proof{draw_proof};
constexpr std::array before_title{letter_title, press_impressions};
constexpr std::array after_pressing{final_press};
constexpr std::array before_picture{photograph, cut_box_boards, pack_parcel};
constexpr std::array before_folding{cut_sheets, fold_sheets, collate_block};

std::size_t index_of(OperationKind kind) { return static_cast<std::size_t>(kind); }

// Depth first, remembering the way: a step onto the way closes a circle.
class Circles {
 public:
  explicit Circles(std::span<std::vector<OperationKind> const> more) : more_(more) {}

  std::vector<OperationKind> first() {
    for (std::size_t kind = 0; kind < operation_count && circle_.empty(); ++kind)
      visit(static_cast<OperationKind>(kind));
    return circle_;
  }

 private:
  enum class Seen : std::uint8_t { no, on_the_way, done };

  void visit(OperationKind kind) {
    Seen& seen = seen_[index_of(kind)];
    if (seen == Seen::done || !circle_.empty()) return;
    if (seen == Seen::on_the_way) return close(kind);
    seen = Seen::on_the_way;
    way_.push_back(kind);
    for (OperationKind const before : comes_after(kind)) visit(before);
    for (OperationKind const before : more_[index_of(kind)]) visit(before);
    way_.pop_back();
    seen = Seen::done;
  }

  // The way goes backwards through time: what comes before stands last in it.
  void close(OperationKind kind) {
    circle_.assign(std::find(way_.begin(), way_.end(), kind), way_.end());
    std::reverse(circle_.begin(), circle_.end());
  }

  std::span<std::vector<OperationKind> const> more_;
  std::array<Seen, operation_count> seen_{};
  std::vector<OperationKind> way_, circle_;
};

}  // namespace

std::span<OperationKind const> comes_after(OperationKind kind) {
  std::size_t const begin = rows.begin.at(index_of(kind)), end = rows.begin.at(index_of(kind) + 1);
  return std::span(rows.after).subspan(begin, end - begin);
}

std::span<OperationKind const> comes_after_in_a_box_alone(OperationKind kind) {
  if (kind == cut_box_boards) return box_boards_after;
  if (kind == blind_lines) return box_lines_after;
  if (kind == photograph) return box_picture_after;
  return comes_after(kind);
}

OutsideOrder outside_order(OutsideKind kind) {
  switch (kind) {
    case OutsideKind::edge_gilding: return {after_trimming, before_rounding};
    case OutsideKind::splitting: return {after_ordering, before_leather};
    case OutsideKind::die: return {after_proof, before_title};
    case OutsideKind::stone_setting: return {after_pressing, before_picture};
    case OutsideKind::printing: return {after_ordering, before_folding};
    case OutsideKind::other: break;
  }
  return {after_ordering, before_picture};
}

bool must_set(OperationKind kind) { return std::find(wet.begin(), wet.end(), kind) != wet.end(); }

std::vector<OperationKind> circle_in(std::span<std::vector<OperationKind> const> after) {
  if (after.size() != operation_count) throw std::logic_error("circle_in: a row for each operation");
  return Circles(after).first();
}

}  // namespace endband
