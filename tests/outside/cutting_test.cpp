// The most that guillotine cuts get out of one sheet: small instances that others have solved and published.
// Titles and pages are given from memory; sizes and values were compared with a stored copy.
#include "engine/cutting/sheets/sheets.h"

#include <doctest/doctest.h>

#include <vector>

using namespace endband::cutting;

namespace {

struct Kind {
  std::int64_t width, height;
  std::int64_t copies = 1;
  std::int64_t value = 0;  // 0: its area
};
struct Instance {
  Sheet sheet;
  std::vector<Kind> kinds;
};

std::vector<ValuedRect> pieces(Instance const& instance, bool turns) {
  std::vector<ValuedRect> all;
  for (Kind const& kind : instance.kinds)
    all.push_back({{kind.width, kind.height, kind.copies, turns},
                   kind.value > 0 ? kind.value : kind.width * kind.height});
  return all;
}

OneSheet limited(Instance const& instance, bool turns) {
  return best_of_sheet(instance.sheet, pieces(instance, turns), 0, 0, {20'000'000, {}});
}
OneSheet unlimited(Instance const& instance, bool turns) {
  return best_of_sheet_unlimited(instance.sheet, pieces(instance, turns), 0, 0);
}

// N. Christofides and C. Whitlock, "An algorithm for two-dimensional cutting problems", Operations Research
// 25 (1977) 30-44, problems 1 and 3: width, height, copies, value. In J. E. Beasley's OR-Library as cgcut1
// and cgcut3.
Instance const cgcut1{
    {15, 10},
    {{8, 4, 2, 66}, {3, 7, 1, 35}, {8, 2, 3, 24}, {3, 4, 5, 17}, {3, 3, 2, 11}, {3, 2, 2, 8}, {2, 1, 1, 2}}};
Instance const cgcut3{
    {40, 70}, {{31, 43, 4, 500}, {30, 41, 2, 480}, {29, 39, 4, 460}, {28, 38, 4, 440}, {27, 37, 3, 420},
               {26, 36, 4, 410}, {25, 35, 3, 400}, {24, 34, 4, 380}, {33, 23, 4, 360}, {22, 32, 3, 340},
               {31, 21, 3, 320}, {29, 18, 3, 300}, {17, 27, 2, 280}, {15, 24, 2, 240}, {16, 25, 4, 260},
               {15, 24, 1, 240}, {23, 14, 4, 220}, {21, 12, 3, 180}, {19, 11, 4, 160}, {9, 17, 1, 140}}};

// J. E. Beasley, "Algorithms for unconstrained two-dimensional guillotine cutting", Journal of the
// Operational Research Society 36 (1985) 297-306; OR-Library, gcut2 and gcut4: width, height; the value is
// the area. Limited: one of each.
Instance const gcut2{{250, 250},
                     {{120, 133}, {135, 186}, {86, 75},  {103, 73},  {66, 85},   {135, 97}, {91, 175},
                      {131, 176}, {71, 176},  {153, 72}, {87, 148},  {168, 107}, {118, 90}, {140, 109},
                      {132, 159}, {152, 93},  {135, 68}, {121, 158}, {68, 94},   {155, 76}}};
Instance const gcut4{
    {250, 250},
    {{139, 103}, {166, 99},  {88, 74},   {174, 139}, {128, 109}, {175, 179}, {62, 82},   {178, 87},
     {121, 77},  {125, 97},  {73, 84},   {69, 97},   {122, 159}, {66, 69},   {111, 118}, {165, 86},
     {71, 83},   {163, 162}, {67, 132},  {121, 152}, {68, 150},  {138, 124}, {141, 105}, {183, 122},
     {171, 63},  {101, 64},  {103, 95},  {110, 107}, {184, 158}, {85, 97},   {86, 92},   {127, 155},
     {92, 147},  {106, 97},  {177, 108}, {164, 150}, {68, 84},   {62, 151},  {123, 134}, {158, 178},
     {70, 140},  {173, 117}, {147, 136}, {141, 145}, {84, 164},  {144, 141}, {92, 103},  {156, 98},
     {160, 111}, {127, 131}}};

}  // namespace

// Christofides and Whitlock: 244 and 1860. Copies unlimited, and turned: the best known values that
// github.com/fontanf/packingsolver keeps, all proved optimal.
TEST_CASE("the problems of Christofides and Whitlock") {
  CHECK(limited(cgcut1, false).value == 244);
  CHECK(limited(cgcut1, false).proved());
  CHECK(limited(cgcut1, true).value == 260);
  CHECK(unlimited(cgcut1, false).value == 249);
  CHECK(unlimited(cgcut1, true).value == 278);
  CHECK(limited(cgcut3, false).value == 1860);
  CHECK(limited(cgcut3, false).proved());
  CHECK(limited(cgcut3, true).value == 1920);
  CHECK(unlimited(cgcut3, false).value == 2240);
  CHECK(unlimited(cgcut3, true).value == 2280);
}

// Beasley: 60536 and 61698, copies unlimited. The others from github.com/fontanf/packingsolver, all proved
// optimal.
TEST_CASE("the problems of Beasley") {
  CHECK(unlimited(gcut2, false).value == 60536);
  CHECK(unlimited(gcut2, false).proved());
  CHECK(unlimited(gcut2, true).value == 60611);
  CHECK(unlimited(gcut4, false).value == 61698);
  CHECK(unlimited(gcut4, true).value == 62265);
  CHECK(limited(gcut2, false).value == 59307);
  CHECK(limited(gcut2, false).proved());
  CHECK(limited(gcut2, true).value == 60403);
  CHECK(limited(gcut4, false).value == 60942);
  CHECK(limited(gcut4, true).value == 61710);
}
