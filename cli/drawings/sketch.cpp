#include "cli/drawings/sketch.h"

#include "cli/document/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace endband::cli {
namespace {

constexpr double title_size = 4.2;
constexpr double note_size = 2.8;
constexpr double bar = 50;                 // mm of paper
constexpr std::size_t title_columns = 80;  // as wide as a page

bool fits(double width, double height, Paper around, double scale) {
  double const across = width / scale + around.width;
  double const down = height / scale + around.height;
  return (across <= page.width && down <= page.height) || (across <= page.height && down <= page.width);
}

std::string scale_words(double scale) {
  return scale < 1 ? fmt::format("{:.0f}:1", 1 / scale) : fmt::format("1:{:.0f}", scale);
}

}  // namespace

double scale_for(double width, double height, Paper around) {
  constexpr std::array<double, 7> steps{1, 2, 5, 10, 20, 50, 100};
  for (double const scale : steps)
    if (fits(width, height, around, scale)) return scale;
  return steps.back();
}

Sketch::Sketch(std::string name, std::string_view what, std::string_view of, double scale) {
  drawing_.name = std::move(name);
  drawing_.title = of.empty() ? std::string(what) : fmt::format("{}: {}", what, of);
  drawing_.scale = scale;
}

void Sketch::pointer(Point at, Point to, std::string words) {
  line(at, to, Pen::thin);
  add(Circle{at, paper(0.5), Pen::none, Fill::solid});
  bool const left = to.x < at.x;
  text({to.x + paper(left ? -0.8 : 0.8), to.y + paper(0.9)}, std::move(words),
       left ? Anchor::end : Anchor::start, 2.8);
}

Drawing Sketch::finish(std::string words, std::string own_foot) && {
  drawing_.words = std::move(words);
  frame(drawing_, 0);
  double const left = drawing_.corner.x;
  double const foot = drawing_.corner.y + drawing_.height;
  auto const title = wrap(printable(drawing_.title), title_columns);
  for (std::size_t i = 0; i < title.size(); ++i)
    text({left, drawing_.corner.y - paper(5 + title_size * 1.2 * static_cast<double>(title.size() - 1 - i))},
         title[i], Anchor::start, title_size);
  double const y = foot + paper(9);
  if (!own_foot.empty()) {
    text({left, y}, std::move(own_foot), Anchor::start, note_size);
    frame(drawing_, 3);
    return std::move(drawing_);
  }
  line({left, y}, {left + paper(bar), y}, Pen::outline);
  for (double const at : {0.0, bar / 2, bar})
    line({left + paper(at), y - paper(1)}, {left + paper(at), y + paper(1)});
  text({left, y + paper(4.5)},
       fmt::format("Scale {}. Printed at 100 %, without fitting to the page, this bar is 50 mm long.",
                   scale_words(drawing_.scale)),
       Anchor::start, note_size);
  frame(drawing_, 3);
  return std::move(drawing_);
}

bool known(Figures const& figures, std::initializer_list<FigureId> ids) {
  return std::all_of(ids.begin(), ids.end(), [&](FigureId id) { return figures.has(id); });
}

std::string so_many(double count, std::string_view one) {
  return fmt::format("{:.0f} {}{}", count, one, count == 1 ? "" : "s");
}

std::string mm_words(double mm) { return tenths(mm) + " mm"; }

}  // namespace endband::cli
