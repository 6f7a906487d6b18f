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

std::string scale_words(double scale) {
  return scale < 1 ? fmt::format("{:.0f}:1", 1 / scale) : fmt::format("1:{:.0f}", scale);
}

}  // namespace

bool OnPaper::holds(double width, double height, Paper around, double scale) const {
  double const across = width / scale + around.width;
  double const down = height / scale + around.height;
  double const wide = room.width / letters;
  double const high = room.height / letters;
  return (across <= wide && down <= high) || (turned && across <= high && down <= wide);
}

double scale_for(double width, double height, Paper around, OnPaper const& on) {
  constexpr std::array<double, 7> steps{1, 2, 5, 10, 20, 50, 100};
  for (double const scale : steps)
    if (on.holds(width, height, around, scale * on.letters)) return scale * on.letters;
  return steps.back() * on.letters;
}

Sketch::Sketch(std::string name, std::string_view what, std::string_view of, double scale, OnPaper const& on)
    : on_(on) {
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

std::size_t Sketch::columns(double size, double aside) const {
  return static_cast<std::size_t>((on_.room.width / on_.letters - aside) / (0.52 * size));
}

std::size_t Sketch::note(Point at, std::string const& words, double apart) {
  auto const lines = wrap(words, columns(note_size, 22));
  for (std::size_t i = 0; i < lines.size(); ++i)
    text({at.x, at.y + paper(apart * static_cast<double>(i))}, lines[i], Anchor::start, note_size);
  return lines.size();
}

Drawing Sketch::finish(std::string words, std::string own_foot) && {
  drawing_.words = std::move(words);
  frame(drawing_, 0);
  double const left = drawing_.corner.x;
  double const foot = drawing_.corner.y + drawing_.height;
  auto const title = wrap(printable(drawing_.title), std::min(title_columns, columns(title_size, 7)));
  for (std::size_t i = 0; i < title.size(); ++i)
    text({left, drawing_.corner.y - paper(5 + title_size * 1.2 * static_cast<double>(title.size() - 1 - i))},
         title[i], Anchor::start, title_size);
  double const y = foot + paper(9);
  if (!own_foot.empty()) {
    text({left, y}, std::move(own_foot), Anchor::start, note_size);
    frame(drawing_, 3);
    return enlarged(std::move(drawing_), on_.letters);
  }
  double const real = drawing_.scale / on_.letters;
  line({left, y}, {left + bar * real, y}, Pen::outline);
  for (double const at : {0.0, bar / 2, bar})
    line({left + at * real, y - paper(1)}, {left + at * real, y + paper(1)});
  note({left, y + paper(4.5)},
       fmt::format("Scale {}. Printed at 100 %, without fitting to the page, this bar is 50 mm long.",
                   scale_words(real)));
  frame(drawing_, 3);
  return enlarged(std::move(drawing_), on_.letters);
}

Drawing enlarged(Drawing drawing, double times) {
  if (times == 1) return drawing;
  std::vector<Shape> shapes;
  for (Mark mark : marks_of(drawing)) {
    if (auto* const words = std::get_if<Text>(&mark)) words->size *= times;
    std::visit([&](auto const& shape) { shapes.emplace_back(shape); }, mark);
  }
  drawing.shapes = std::move(shapes);
  drawing.scale /= times;
  return drawing;
}

bool known(Figures const& figures, std::initializer_list<FigureId> ids) {
  return std::all_of(ids.begin(), ids.end(), [&](FigureId id) { return figures.has(id); });
}

std::string so_many(double count, std::string_view one) {
  return fmt::format("{:.0f} {}{}", count, one, count == 1 ? "" : "s");
}

std::string mm_words(double mm) { return tenths(mm) + " mm"; }

}  // namespace endband::cli
