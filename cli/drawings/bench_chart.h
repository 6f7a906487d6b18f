// What is on the bench over time: each order a row, to scale, when hands are at it and when it waits. Drawn,
// and as text.
#pragma once

#include "cli/document/drawing.h"
#include "engine/measure/measure.h"
#include "engine/schedule/project.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace endband::cli {

enum class BarKind : std::uint8_t {
  hands,
  waits,   // presses, dries
  others,  // goods on their way, work by other hands
};
struct ChartBar {
  schedule::Time begin = 0, end = 0;  // seconds from midnight of the first day
  BarKind kind = BarKind::hands;
};
struct ChartRow {
  std::string name;
  std::vector<ChartBar> bars;
  std::optional<schedule::Time> ready;  // it can be sent
  std::optional<Date> due;
};
struct BenchChart {
  Date on;
  int days = 7;
  std::vector<ChartRow> rows;
  std::vector<schedule::Open> open;  // somebody works; in order, none overlap
};

Drawing draw_bench_chart(BenchChart const& chart);
// Lines no wider than `width` columns; each column is the same number of hours, which the last line names.
std::string bench_chart_text(BenchChart const& chart, std::size_t width);

}  // namespace endband::cli
