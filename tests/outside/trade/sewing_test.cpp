// Thread and supports, against what others have published.
#include "tests/engine/book/by_rule.h"

#include <doctest/doctest.h>

using namespace endband;
using endband::tests::by_rule;
using enum FigureId;

namespace {
constexpr double inch = 25.4;
}

// Instructables, "Coptic Book Binding": height x (sections + 2), 24 in for a book of 2 x 3 in; a craft page,
// so a band about it and no more.
TEST_CASE("a link-stitched book of 3 in and six sections takes about 24 in of thread") {
  double const length = by_rule(thread_length,
                                {{leaf_height, 3 * inch},
                                 {sections, 6},
                                 {block_thickness, 6},
                                 {swell_kept, 0.5},
                                 {thread_thickness, 0.5},
                                 {kettle_setback, 12},
                                 {stations, 5}},
                                {Way::link_stitch, Way::unsupported});
  CHECK(length > 0.85 * 24 * inch);
  CHECK(length < 1.15 * 24 * inch);
}

// A craft rule, two and a half times the height: a band of two to three.
TEST_CASE("a pamphlet takes two to three times its height in thread") {
  for (double const height : {148.0, 210.0, 297.0}) {
    double const length =
        by_rule(thread_length, {{leaf_height, height}, {sections, 1}, {kettle_setback, 25}, {knot_tail, 60}},
                {Way::pamphlet, Way::unsupported});
    CHECK(length >= 2 * height);
    CHECK(length <= 3 * height);
  }
}

// J. W. Zaehnsdorf, The Art of Bookbinding, 1890, p. 23: about four times the thickness of the book; of P.
// Adam's thickness and 12 cm it is the same at 40 mm only.
TEST_CASE("four times the thickness is 160 mm of cord for 40 mm, as much as Adam's rule there") {
  auto const by_four = [](double t) {
    return by_rule(cord_each, {{block_thickness, t}, {swell, 0}, {slip_length, 60}}, {Way::four_thicknesses});
  };
  auto const by_slips = [](double t) {
    return by_rule(cord_each, {{block_thickness, t}, {swell, 0}, {slip_length, 60}}, {Way::spine_and_slips});
  };
  CHECK(by_four(40) == 160);
  CHECK(by_slips(40) == 160);
  CHECK(by_four(30) < by_slips(30));
  CHECK(by_four(50) > by_slips(50));
}
