// What holds of endbands and edges whatever the book.
#include "engine/book/making.h"
#include "tests/engine/book/made.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <cmath>

using namespace endband;
using namespace endband::tests;
using enum FigureId;

namespace {

double tenths(int low, int high) { return *rc::gen::inRange(low, high + 1) / 10.0; }

struct Any {
  Catalogue catalogue = fixtures::sample_catalogue();
  BookSpec spec = fixtures::sample_spec(catalogue);
  std::vector<MaterialId> silks;

  Any() {  // six colours
    for (int i = 0; i < 6; ++i) {
      Material silk = *catalogue.find("silk-red");
      silk.id = {1000 + i};
      silk.code = "silk-" + std::to_string(i);
      silks.push_back(silk.id);
      catalogue.materials.push_back(silk);
    }
    std::sort(catalogue.materials.begin(), catalogue.materials.end(),
              [](Material const& a, Material const& b) { return a.code < b.code; });
  }

  void draw() {
    fixtures::say(spec, {{leaf_height, tenths(1000, 4000)},
                         {leaf_width, tenths(800, 3000)},
                         {pages_wanted, *rc::gen::inRange(40, 1200)},
                         {core_thickness, tenths(10, 60)},
                         {endbands, *rc::gen::inRange(1, 3)}});
  }
  void use(std::size_t colours) {
    for (std::size_t i = 0; i < endband_silks.size(); ++i) {
      auto& chosen = spec.materials[static_cast<std::size_t>(endband_silks.at(i))];
      chosen = i < colours ? Chosen{silks[i], Origin::said, {}} : Chosen{};
    }
  }
  Structure made() const { return structure(spec, catalogue); }
};

std::int64_t taken(Structure const& book) {
  std::int64_t sum = 0;
  for (Run const& run : all(book.runs, Item::endband_silk)) sum += run.taken.n;
  return sum;
}

// Lays a run of leaf strip by strip: each strip is cut into what is still bare, and covers no more than its
// length less a lap.
bool covers(StripPlan const& plan, double side, double lap, double length, std::int64_t runs,
            double abreast) {
  std::vector<double> left(static_cast<std::size_t>(plan.strips), side - lap);
  for (std::int64_t run = 0; run < runs * static_cast<std::int64_t>(abreast); ++run)
    for (double bare = length; bare > 1e-6;) {
      double const want = std::min(bare, side - lap);
      auto const strip =
          std::find_if(left.begin(), left.end(), [&](double rest) { return rest >= want - 1e-6; });
      if (strip == left.end()) return false;
      *strip -= want;
      bare -= want;
    }
  return true;
}

}  // namespace

TEST_CASE_FIXTURE(Any, "the silks of a pattern sum to the whole, and each has its wraps' share") {
  CHECK(rc::check([this] {
    draw();
    auto const colours = *rc::gen::inRange<std::size_t>(1, 7);
    use(colours);
    spec.silk_pattern.clear();
    auto const wraps_said = *rc::gen::inRange(0, 25);
    for (int i = 0; i < wraps_said; ++i)
      spec.silk_pattern.push_back(silks[*rc::gen::inRange<std::size_t>(0, colours)]);
    Structure const book = made();
    double sum = 0;
    for (Run const& run : all(book.runs, Item::endband_silk)) {
      double const each = static_cast<double>(run.each.n) / 1000;
      sum += each;
      double share = 1.0 / static_cast<double>(colours);
      if (wraps_said > 0)
        share = static_cast<double>(
                    std::count(spec.silk_pattern.begin(), spec.silk_pattern.end(), run.material)) /
                wraps_said;
      RC_ASSERT(std::abs(each - share * book.figures.value(silk_length)) < 0.001);
    }
    RC_ASSERT(std::abs(sum - book.figures.value(silk_length)) < 0.006);
  }));
}

// Three colours may take less than two: their shorter lengths may fill needlefuls better. But what one colour
// needs is never less when it is parted among several.
TEST_CASE_FIXTURE(Any, "a colour that is parted among several never takes less silk") {
  CHECK(rc::check([this] {
    draw();
    auto const few = *rc::gen::inRange<std::size_t>(1, 4);
    use(few);
    std::int64_t const before = taken(made());
    for (std::size_t many = 2 * few; many <= 6; many += few) {
      use(many);
      RC_ASSERT(taken(made()) >= before - 6);  // micrometres of rounding, one for each colour
    }
  }));
}

TEST_CASE_FIXTURE(Any, "strips cover every millimetre of every gilt edge") {
  fixtures::include(spec, {Part::edges});
  spec.ways = spec.ways.replaced_by({Way::gilt});
  fixtures::choose(spec, Role::metal_leaf, catalogue, "leaf-gold");
  fixtures::choose(spec, Role::leaf_size, catalogue, "size");
  CHECK(rc::check([this] {
    draw();
    auto const done = *rc::gen::inRange(1, 4);
    fixtures::say(spec, {{edges_done, done}});
    Structure const book = made();
    auto const strips = all(book.strips, Item::leaf_edges);
    RC_ASSERT(strips.size() == (done > 1 ? 2U : 1U));
    double const thickness = book.figures.value(block_thickness);
    // 80 mm leaves with laps of 3 mm; a thick block takes strips side by side.
    double const abreast = thickness + 6 <= 80 ? 1 : std::ceil((thickness + 3) / 77);
    for (std::size_t i = 0; i < strips.size(); ++i) {
      bool const fore_edge = i == 1;
      double const length = book.figures.value(fore_edge ? leaf_height : leaf_width);
      std::int64_t const runs = fore_edge || done < 3 ? 1 : 2;
      StripPlan const plan{strips[i].strips, static_cast<double>(strips[i].width.n) / 1000};
      RC_ASSERT(plan.width * abreast - (abreast - 1) * 3 >= thickness + 6 - 1e-3);
      RC_ASSERT(covers(plan, 80, 3, length, runs, abreast));
    }
  }));
}
