// What holds of sewing and guards in every style, whatever the size of the book.
#include "engine/book/rule.h"
#include "engine/book/style.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <cmath>
#include <vector>

using namespace endband;
using enum FigureId;

namespace {

double tenths(int low, int high) { return *rc::gen::inRange(low, high + 1) / 10.0; }

std::vector<Ways> const& all_sewings() {
  using enum Way;
  static std::vector<Ways> const sewings{
      {all_along, raised_cords},  {all_along, recessed_cords}, {all_along, tapes},
      {two_on, raised_cords},     {two_on, recessed_cords},    {two_on, tapes},
      {link_stitch, unsupported}, {long_stitch, unsupported},  {pamphlet, unsupported}};
  return sewings;
}

struct Block {
  Figures given;
  Ways ways;

  void say(FigureId id, double value) { given.set(id, value, Origin::said); }
  void draw() {
    ways = styles().front().usual.replaced_by(*rc::gen::elementOf(all_sewings()));
    ways = ways.replaced_by({*rc::gen::element(Way::single, Way::made, Way::sewn)});
    for (auto const& [id, low, high] :
         {std::tuple{leaf_height, 1000, 5000}, std::tuple{leaf_caliper, 1, 4},
          std::tuple{kettle_setback, 30, 400}, std::tuple{support_thickness, 10, 80},
          std::tuple{support_width, 60, 300}, std::tuple{stitch_allowance, 0, 300},
          std::tuple{knot_tail, 0, 900}, std::tuple{leather_bought, 5, 30}, std::tuple{needle_waste, 0, 3000},
          std::tuple{slip_length, 0, 900}})
      say(id, tenths(low, high));
    for (auto const& [id, low, high] :
         {std::tuple{pages_wanted, 4, 1600}, std::tuple{supports, 2, 8}, std::tuple{support_turns, 1, 5},
          std::tuple{stations, 2, 12}, std::tuple{folds, 1, 4}, std::tuple{holes_a_support, 1, 3},
          std::tuple{endpapers_each_end, 0, 4}})
      say(id, *rc::gen::inRange(low, high));
    if (!ways.has(Way::pamphlet)) say(sheets_per_section, *rc::gen::inRange(1, 9));
    say(thread_thickness, tenths(2, 12));
    say(swell_kept, 0.5);
    say(compression, 0.97);
    say(guard_thickness, 0);
    say(endpaper_caliper, 0.15);
    say(needle_length, 1200);
  }
  Figures made() const {
    Figures figures = given;
    apply_rules(figures, ways);
    return figures;
  }
};

// The holes one by one, as the awl makes them.
int pierced(Block const& block, Figures const& figures) {
  int count = 0;
  int pierced_sections = static_cast<int>(figures.value(sections));
  if (block.ways.has(Way::sewn))
    for (int end = 0; end < 2; ++end) pierced_sections += static_cast<int>(figures.value(endpapers_each_end));
  if (block.ways.has(Way::link_stitch)) pierced_sections += 2;
  for (int section = 0; section < pierced_sections; ++section) {
    if (block.ways.has(Way::unsupported)) {
      count += static_cast<int>(figures.value(stations));
      continue;
    }
    count += 2;  // kettle stitches
    for (int support = 0; support < static_cast<int>(figures.value(supports)); ++support)
      count += static_cast<int>(figures.value(holes_a_support));
  }
  return count;
}

}  // namespace

TEST_CASE_FIXTURE(Block, "a taller book or one of more pages takes no less thread, needlefuls or swell") {
  CHECK(rc::check([this] {
    draw();
    Figures const small = made();
    FigureId const grown = *rc::gen::element(leaf_height, pages_wanted);
    say(grown, given.value(grown) + *rc::gen::inRange(1, 200));
    Figures const large = made();
    for (FigureId const id : {thread_length, thread_taken, needlefuls, swell, spine_width, holes, sections})
      RC_ASSERT(large.value(id) >= small.value(id) - 1e-9);
    if (grown == leaf_height) RC_ASSERT(large.value(thread_length) > small.value(thread_length));
  }));
}

TEST_CASE_FIXTURE(Block, "two on never takes more thread than all along, nor swells more") {
  CHECK(rc::check([this] {
    draw();
    ways = ways.replaced_by(
        {Way::all_along, *rc::gen::element(Way::raised_cords, Way::recessed_cords, Way::tapes)});
    say(sheets_per_section, *rc::gen::inRange(1, 9));
    Figures const along = made();
    ways = ways.replaced_by({Way::two_on});
    Figures const two = made();
    for (FigureId const id : {thread_length, thread_taken, needlefuls, swell, thread_passes})
      RC_ASSERT(two.value(id) <= along.value(id) + 1e-9);
    RC_ASSERT(2 * two.value(thread_passes) >= along.value(thread_passes));
    RC_ASSERT(two.value(holes) == along.value(holes));
  }));
}

TEST_CASE_FIXTURE(Block, "the holes are those that are pierced one by one") {
  CHECK(rc::check([this] {
    draw();
    Figures const figures = made();
    RC_ASSERT(figures.value(holes) == pierced(*this, figures));
  }));
}

TEST_CASE_FIXTURE(Block, "the needlefuls hold the thread, and one fewer would not") {
  CHECK(rc::check([this] {
    draw();
    Figures const figures = made();
    double const of_one = figures.value(needle_length) - figures.value(needle_waste);
    double const count = figures.value(needlefuls);
    RC_ASSERT(count * of_one >= figures.value(thread_length) - 1e-9);
    RC_ASSERT((count - 1) * of_one < figures.value(thread_length));
    RC_ASSERT(std::abs(figures.value(thread_taken) - figures.value(thread_length) -
                       count * figures.value(needle_waste)) < 1e-6);
  }));
}

TEST_CASE_FIXTURE(Block, "only what is sewn on something takes supports") {
  CHECK(rc::check([this] {
    draw();
    Figures const figures = made();
    RC_ASSERT(figures.has(cord_each) == !ways.has(Way::unsupported));
    if (figures.has(cord_each)) RC_ASSERT(figures.value(cord_each) >= figures.value(spine_width));
  }));
}

TEST_CASE_FIXTURE(Block, "guards are as thick as what is mounted, and less than one guard more") {
  CHECK(rc::check([this] {
    draw();
    given.set(guard_thickness, 0, Origin::none);
    say(mounted_thickness, tenths(1, 60));
    say(guard_caliper, tenths(1, 5));
    Figures const figures = made();
    double const of_leaf = figures.value(guards_a_leaf) * figures.value(guard_caliper);
    RC_ASSERT(of_leaf >= figures.value(mounted_thickness) - 1e-6);
    RC_ASSERT(of_leaf < figures.value(mounted_thickness) + figures.value(guard_caliper));
    RC_ASSERT(figures.value(guards) == figures.value(leaves) * figures.value(guards_a_leaf));
  }));
}
