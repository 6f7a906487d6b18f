#include "engine/promise/step_order.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>

using namespace endband;
using enum OperationKind;

namespace {

std::bitset<operation_count> kinds(std::initializer_list<OperationKind> list) {
  std::bitset<operation_count> set;
  for (OperationKind const kind : list) set.set(static_cast<std::size_t>(kind));
  return set;
}

bool has(std::vector<OperationKind> const& list, OperationKind kind) {
  return std::find(list.begin(), list.end(), kind) != list.end();
}

}  // namespace

TEST_CASE("what an order does not have hands on what comes before it") {
  StepLibrary const library;
  StepOrder const order(library, kinds({cut_sheets, fold_sheets, sew_sections, pack_parcel}));
  CHECK(order.before(fold_sheets) == std::vector{cut_sheets});
  CHECK(order.before(sew_sections) == std::vector{fold_sheets});  // no pressing, no piercing
  CHECK(has(order.before(pack_parcel), sew_sections));
  CHECK_FALSE(has(order.before(pack_parcel), pack_parcel));
  CHECK(order.before(cut_sheets).empty());
  CHECK(order.nearest(std::array{glue_spine, fold_sheets}) == std::vector{fold_sheets, sew_sections});
}

TEST_CASE("a workshop's own order stands beside the engine's") {
  StepLibrary library;
  Step proof;
  proof.kind = photograph;
  proof.after = {pack_parcel, photograph};
  Step lines;
  lines.kind = blind_lines;
  lines.after = {fit_clasps};
  library.steps = {lines, proof};
  StepOrder const order(library, kinds({blind_lines, fit_clasps, cover_book, lace_boards}));
  CHECK(has(order.before(blind_lines), cover_book));
  CHECK(has(order.before(blind_lines), fit_clasps));
  CHECK_FALSE(
      has(StepOrder(StepLibrary{}, kinds({blind_lines, fit_clasps})).before(blind_lines), fit_clasps));
}

TEST_CASE("a box alone is lettered when it is covered, a book before its box is measured") {
  StepLibrary const library;
  StepOrder const alone(library, kinds({order_materials, cut_box_boards, build_box, cover_box, line_box,
                                        letter_title, photograph}));
  CHECK(alone.before(cut_box_boards) == std::vector{order_materials});
  CHECK(alone.before(letter_title) == std::vector{cover_box});
  CHECK(has(alone.before(photograph), letter_title));
  StepOrder const with_book(library, kinds({final_press, cut_box_boards, build_box, cover_box, line_box,
                                            letter_title, photograph}));
  CHECK(has(with_book.before(final_press), letter_title));
  CHECK(has(with_book.before(cut_box_boards), final_press));
  CHECK_FALSE(has(with_book.before(letter_title), cover_box));
}
