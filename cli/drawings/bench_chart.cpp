#include "cli/drawings/bench_chart.h"

#include "cli/drawings/sketch.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>

namespace endband::cli {
namespace {

constexpr double chart_width = 150;  // mm of paper for all days
constexpr double names_width = 30;
constexpr double row_height = 8, bar_height = 4.4;
constexpr double letters = 2.8;
constexpr schedule::Time day_s = 86'400;

std::string_view day_name(Date date) {
  constexpr std::array<std::string_view, 7> names{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
  return names[std::chrono::weekday(date).iso_encoding() - 1];
}

bool is_monday(Date date) { return std::chrono::weekday(date) == std::chrono::Monday; }

unsigned day_of_month(Date date) { return static_cast<unsigned>(std::chrono::year_month_day(date).day()); }

class ChartSketch {
 public:
  explicit ChartSketch(BenchChart const& chart)
      : chart_(chart),
        a_day_(chart_width / chart.days),
        sketch_("bench", "The bench", fmt::format("from {}", date_text(chart.on)), 1) {}

  Drawing draw() && {
    double const high = row_height * static_cast<double>(chart_.rows.size());
    for (schedule::Open const& open : chart_.open) draw_open(open, high);
    for (int day = 0; day <= chart_.days; ++day) draw_day(day, high);
    for (std::size_t i = 0; i < chart_.rows.size(); ++i)
      draw_row(chart_.rows[i], row_height * static_cast<double>(i));
    draw_key(high + 7);
    return std::move(sketch_).finish(words(),
                                     fmt::format("A day is {} mm wide, day and night.", tenths(a_day_)));
  }

 private:
  double at(schedule::Time time) const {
    double const days = static_cast<double>(time) / static_cast<double>(day_s);
    return std::clamp(days, 0.0, static_cast<double>(chart_.days)) * a_day_;
  }

  void draw_open(schedule::Open const& open, double high) {
    double const from = at(open.begin), to = at(open.end);
    if (to > from) sketch_.add(Rectangle{{from, 0}, to - from, high, Pen::none, Fill::shade});
  }

  void draw_day(int day, double high) {
    double const x = a_day_ * day;
    Date const date = chart_.on + std::chrono::days(day);
    bool const week = is_monday(date) || day == 0 || day == chart_.days;
    sketch_.line({x, week ? -5.0 : -1.5}, {x, week ? high : 0.0}, Pen::thin);
    if (day == chart_.days) return;
    bool const room = a_day_ >= 9;
    if (room)
      sketch_.text({x + a_day_ / 2, -1.8}, fmt::format("{} {}", day_name(date), day_of_month(date)),
                   Anchor::middle, letters);
    else if (is_monday(date) || day == 0)
      sketch_.text({x + 0.8, -1.8}, date_text(date).substr(5), Anchor::start, letters);
  }

  void draw_row(ChartRow const& row, double top) {
    double const middle = top + row_height / 2;
    sketch_.text({-names_width, middle + 1}, row.name, Anchor::start, letters);
    for (ChartBar const& bar : row.bars) draw_bar(bar, middle);
    if (row.ready && *row.ready < chart_.days * day_s) {
      double const x = at(*row.ready);
      sketch_.add(Path{{x, middle - 1.9},
                       {{{x + 1.3, middle}}, {{x, middle + 1.9}}, {{x - 1.3, middle}}},
                       true,
                       Pen::accent,
                       Fill::white});
    }
    if (row.due && *row.due >= chart_.on && *row.due < chart_.on + std::chrono::days(chart_.days)) {
      double const x = at(((*row.due - chart_.on).count() + 1) * day_s);
      sketch_.line({x, top + 0.6}, {x, top + row_height - 0.6}, Pen::accent);
    }
  }

  void draw_bar(ChartBar const& bar, double middle) {
    double const from = at(bar.begin), to = at(bar.end);
    if (to <= from) return;
    double const high = bar.kind == BarKind::hands ? bar_height : bar_height / 2.5;
    Fill const fill = bar.kind == BarKind::hands   ? Fill::solid
                      : bar.kind == BarKind::waits ? Fill::white
                                                   : Fill::hatch;
    sketch_.add(Rectangle{{from, middle - high / 2}, to - from, high, Pen::thin, fill});
  }

  void draw_key(double y) {
    double x = 0;
    auto const words = [&](std::string const& text) {
      sketch_.text({x, y + 1}, text, Anchor::start, letters);
      x += letters_width(text, letters) + 5;
    };
    auto const bar = [&](BarKind kind, std::string text) {
      double const high = kind == BarKind::hands ? bar_height : bar_height / 2.5;
      Fill const fill = kind == BarKind::hands   ? Fill::solid
                        : kind == BarKind::waits ? Fill::white
                                                 : Fill::hatch;
      sketch_.add(Rectangle{{x, y - high / 2}, 7, high, Pen::thin, fill});
      x += 8.5;
      words(std::move(text));
    };
    bar(BarKind::hands, "hands at it");
    bar(BarKind::waits, "presses, dries");
    bar(BarKind::others, "on its way, or with others");
    sketch_.add(Path{{x + 1.8, y - 2.6},
                     {{{x + 3.6, y}}, {{x + 1.8, y + 2.6}}, {{x, y}}},
                     true,
                     Pen::accent,
                     Fill::white});
    x += 5;
    words("ready");
    sketch_.line({x + 0.5, y - 2.6}, {x + 0.5, y + 2.6}, Pen::accent);
    x += 2.5;
    words("due");
    sketch_.add(Rectangle{{x, y - 2}, 7, 4, Pen::none, Fill::shade});
    x += 8.5;
    words("somebody works");
  }

  std::string words() const {
    std::string all;
    for (ChartRow const& row : chart_.rows) {
      all += fmt::format("{}{}", all.empty() ? "" : "; ", row.name);
      if (row.ready)
        all += fmt::format(" ready on {}", date_text(chart_.on + std::chrono::days(*row.ready / day_s)));
      if (row.due) all += fmt::format(", due on {}", date_text(*row.due));
    }
    return all + ".";
  }

  BenchChart const& chart_;
  double a_day_;
  Sketch sketch_;
};

}  // namespace

Drawing draw_bench_chart(BenchChart const& chart) { return ChartSketch(chart).draw(); }

}  // namespace endband::cli
