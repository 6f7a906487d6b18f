// Sheet sizes and what follows from them.
#include "engine/measure/measure.h"

#include <doctest/doctest.h>

#include <array>
#include <string_view>

using endband::Length;
using endband::Ratio;
using endband::SheetSize;

namespace {

SheetSize named(std::string_view name) { return endband::read_sheet_size(name).value(); }

struct Row {
  std::string_view name;
  std::int64_t short_mm, long_mm;
};

// ISO 216 and ISO 217, trimmed sizes in millimetres, as their tables print them (Wikipedia, "ISO 216", "ISO
// 217"; papersizes.org, "A paper sizes").
constexpr std::array table{
    Row{"A0", 841, 1189},  Row{"A1", 594, 841},   Row{"A2", 420, 594},   Row{"A3", 297, 420},
    Row{"A4", 210, 297},   Row{"A5", 148, 210},   Row{"A6", 105, 148},   Row{"A7", 74, 105},
    Row{"A8", 52, 74},     Row{"A9", 37, 52},     Row{"A10", 26, 37},    Row{"B0", 1000, 1414},
    Row{"B1", 707, 1000},  Row{"B2", 500, 707},   Row{"B3", 353, 500},   Row{"B4", 250, 353},
    Row{"B5", 176, 250},   Row{"B6", 125, 176},   Row{"B7", 88, 125},    Row{"B8", 62, 88},
    Row{"B9", 44, 62},     Row{"B10", 31, 44},    Row{"RA0", 860, 1220}, Row{"RA1", 610, 860},
    Row{"RA2", 430, 610},  Row{"RA3", 305, 430},  Row{"RA4", 215, 305},  Row{"SRA0", 900, 1280},
    Row{"SRA1", 640, 900}, Row{"SRA2", 450, 640}, Row{"SRA3", 320, 450}, Row{"SRA4", 225, 320},
};

}  // namespace

TEST_CASE("the sheets of ISO 216 and ISO 217 have their sizes") {
  for (Row const& row : table) {
    SheetSize const printed{Length{row.short_mm * 1000}, Length{row.long_mm * 1000}};
    CHECK_MESSAGE(named(row.name) == printed, row.name);
  }
}

// ISO 216: a sheet folded once is the next of its series; half a millimetre is dropped (297 / 2 = 148).
TEST_CASE("an A3 folded once is an A4, and an A4 an A5") {
  CHECK(named("A3").second.n / 2 == named("A4").first.n);
  CHECK(named("A4").second.n / 2'000 * 1'000 == named("A5").first.n);
  CHECK(named("A5").second == named("A4").first);
}

// Wikipedia, "ISO 216": 0.999949 m2.
TEST_CASE("an A0 is a square metre, but for the rounding of its sides") {
  CHECK(endband::area(named("A0").first, named("A0").second) == endband::read_area("0.999949 m2").value());
}

// Grammage is mass by area (ISO 536): 500 sheets of A4 at 80 g/m2 weigh 2494.8 g, one 4.9896 g. The 5.000 g
// often printed are a sixteenth of a square metre, which an A4 is not.
TEST_CASE("a ream of A4 weighs what its area and grammage make") {
  Ratio const m2 = Ratio(endband::area(named("A4").first, named("A4").second).n, 1'000'000'000'000);
  CHECK(m2 * Ratio(80) == Ratio(49'896, 10'000));
  CHECK(m2 * Ratio(80) * Ratio(500) == Ratio(24'948, 10));
  CHECK(Ratio(80, 16) == Ratio(5));
}

// Arts and Crafts Magazine, "Articles on Book Binding" part 3 (chestofbooks.com): crown 20 x 15 in, royal
// 25 x 20 in; octavo by halving the longer side three times.
TEST_CASE("crown and royal octavo") {
  auto const octavo = [](std::string_view sheet) {
    SheetSize size = named(sheet);
    for (int fold = 0; fold < 3; ++fold) {
      Length& longer = size.first > size.second ? size.first : size.second;
      longer.n /= 2;
    }
    return size;
  };
  CHECK(octavo("20 x 15 in") == named("5 x 7 1/2 in"));
  CHECK(octavo("25 x 20 in") == named("6 1/4 x 10 in"));
}
