#include "engine/book/precedence.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <set>
#include <vector>

using namespace endband;
using enum OperationKind;

namespace {

using After = std::vector<std::vector<OperationKind>>;

// All that must be done before an operation in a book that has everything.
std::set<OperationKind> all_before(OperationKind kind) {
  std::set<OperationKind> found;
  std::vector<OperationKind> open{kind};
  while (!open.empty()) {
    OperationKind const next = open.back();
    open.pop_back();
    for (OperationKind const before : comes_after(next))
      if (found.insert(before).second) open.push_back(before);
  }
  return found;
}

}  // namespace

TEST_CASE("the bench's order has no circle") { CHECK(circle_in(After(operation_count)).empty()); }

TEST_CASE(
    "everything but the first enquiry comes after something, and the parcel after everything but its way") {
  std::set<OperationKind> const before_parcel = all_before(pack_parcel);
  for (OperationRow const& row : operation_table()) {
    CAPTURE(row.name);
    CHECK(comes_after(row.kind).empty() == (row.kind == answer_enquiry));
    bool const later = row.kind == pack_parcel || row.kind == post_parcel || row.kind == keep_accounts;
    CHECK(before_parcel.contains(row.kind) != later);
  }
}

TEST_CASE("nor has that of a box alone a circle") {
  std::vector<int> state(operation_count);  // 1: on the way, 2: done
  auto const visit = [&](auto const& self, OperationKind kind) -> void {
    int& mine = state[static_cast<std::size_t>(kind)];
    CHECK(mine != 1);
    if (mine != 0) return;
    mine = 1;
    for (OperationKind const before : comes_after_in_a_box_alone(kind)) self(self, before);
    mine = 2;
  };
  for (OperationRow const& row : operation_table()) visit(visit, row.kind);
}

// Common practice, no source.
TEST_CASE("what a binder would never turn round stands in order") {
  struct Order {
    OperationKind first, then;
  };
  for (Order const& order : {Order{fold_sheets, sew_sections},    Order{press_sections, pierce_stations},
                             Order{set_up_frame, sew_sections},   Order{sew_sections, glue_spine},
                             Order{glue_spine, trim_edges},       Order{trim_edges, gild_edges},
                             Order{gild_edges, round_spine},      Order{round_spine, back_spine},
                             Order{back_spine, lace_boards},      Order{lace_boards, sew_endbands},
                             Order{sew_endbands, line_panels},    Order{line_panels, cover_book},
                             Order{thin_leather, pare_edges},     Order{pare_edges, dye_leather},
                             Order{dye_leather, cover_book},      Order{cover_book, turn_corners},
                             Order{turn_corners, blind_lines},    Order{size_lines, lay_leaf},
                             Order{lay_leaf, varnish_leaf},       Order{draw_proof, letter_title},
                             Order{make_case, press_impressions}, Order{press_impressions, case_in},
                             Order{case_in, put_down_endpapers},  Order{put_down_endpapers, final_press},
                             Order{final_press, fit_clasps},      Order{fit_clasps, set_rivets},
                             Order{set_rivets, cut_box_boards},   Order{build_box, cover_box},
                             Order{cover_box, line_box},          Order{line_box, photograph},
                             Order{cover_boards, link_sections},  Order{pierce_wrapper, long_stitch_sections},
                             Order{clean_leaves, guard_folds},    Order{guard_folds, pierce_stations},
                             Order{sew_pamphlet, trim_edges},     Order{trim_edges, link_sections},
                             Order{cover_boards, line_boards},    Order{cover_boards, turn_corners},
                             Order{turn_corners, sew_boards},     Order{make_case, turn_corners},
                             Order{turn_corners, case_in},        Order{cut_wrapper, dress_leather}}) {
    OperationKind const first = order.first, then = order.then;
    CAPTURE(operation_row(first).name);
    CAPTURE(operation_row(then).name);
    CHECK(all_before(then).contains(first));
    CHECK_FALSE(all_before(first).contains(then));
  }
}

TEST_CASE("a circle is told step by step, whichever step closes it") {
  After more(operation_count);
  more[static_cast<std::size_t>(round_spine)] = {line_panels};
  std::vector<OperationKind> const circle = circle_in(more);
  REQUIRE(circle.size() >= 2);
  auto const follows = [&](OperationKind kind, OperationKind before) {
    auto const own = comes_after(kind);
    auto const& added = more[static_cast<std::size_t>(kind)];
    return std::find(own.begin(), own.end(), before) != own.end() ||
           std::find(added.begin(), added.end(), before) != added.end();
  };
  for (std::size_t i = 0; i < circle.size(); ++i)
    CHECK(follows(circle[i], circle[(i + circle.size() - 1) % circle.size()]));
  CHECK(std::find(circle.begin(), circle.end(), round_spine) != circle.end());
  CHECK(std::find(circle.begin(), circle.end(), line_panels) != circle.end());

  After itself(operation_count);
  itself[static_cast<std::size_t>(glue_spine)] = {glue_spine};
  CHECK(circle_in(itself) == std::vector{glue_spine});
  CHECK_THROWS_AS(circle_in(After(3)), std::logic_error);
}

TEST_CASE("work by other hands stands between steps of the bench") {
  for (OutsideKind const kind : {OutsideKind::edge_gilding, OutsideKind::splitting, OutsideKind::die,
                                 OutsideKind::stone_setting, OutsideKind::printing, OutsideKind::other}) {
    CAPTURE(outside_kind_name(kind));
    OutsideOrder const order = outside_order(kind);
    REQUIRE_FALSE(order.after.empty());
    REQUIRE_FALSE(order.before.empty());
    for (OperationKind const before : order.after)
      for (OperationKind const then : order.before) CHECK_FALSE(all_before(before).contains(then));
  }
}

TEST_CASE("glue, paste, size and varnish must set, a fold and a stitch need not") {
  for (OperationKind const wet : {glue_spine, cover_book, varnish_leaf, put_down_endpapers, line_box})
    CHECK(must_set(wet));
  for (OperationKind const dry : {fold_sheets, sew_sections, cut_boards, answer_enquiry})
    CHECK_FALSE(must_set(dry));
}
