#include "cli/drawings/cut_marks.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace endband::cli {
namespace {

constexpr double around_list = 29;     // title, scale and the gaps, mm of paper
constexpr double row = 3.6;            // of two lines of a name, mm of paper
constexpr double small_letters = 2.1;  // of what would else not be said
constexpr double least_letters = 1.8;  // of a number that has little room

// Words in lines about a middle; `upwards` they stand side by side, read from the right of the paper.
void draw_lines(Sketch& sketch, Point middle, std::vector<std::string> const& lines, bool upwards,
                double size) {
  double const first = -row * static_cast<double>(lines.size() - 1) / 2;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    double const off = sketch.paper(first + row * static_cast<double>(i) + size / 3);
    sketch.text(upwards ? Point{middle.x + off, middle.y} : Point{middle.x, middle.y + off}, lines[i],
                Anchor::middle, size, upwards);
  }
}

// Do the lines go into `along` x `across` mm of paper?
bool go_in(std::vector<std::string> const& lines, double along, double across, double size) {
  double longest = 0;
  for (std::string const& line : lines) longest = std::max(longest, letters_width(line, size));
  double const deep = size * 1.2 + row * static_cast<double>(lines.size() - 1);
  return longest + 2 <= along && deep + 0.6 <= across;
}

}  // namespace

double cut_mm(std::int64_t um) { return static_cast<double>(um) / 1000; }

double cut_scale(CutUse const& use, Paper around, OnPaper const& on) {
  constexpr std::array<double, 12> steps{1, 2, 3, 4, 5, 6, 8, 10, 15, 20, 50, 100};
  double const wide = cut_mm(use.width);
  double const high = cut_mm(use.height);
  for (double const scale : steps)
    if (on.holds(wide, high, around, scale * on.letters)) return scale * on.letters;
  return steps.back() * on.letters;
}

Sketch cut_sketch(CutUse const& use, CutNames const& names, double scale, OnPaper const& on) {
  std::string what = fmt::format("Cut {}, {}", use.number, names.stock);
  if (use.times > 1) what += fmt::format(", x {}", use.times);
  return Sketch(fmt::format("cut-{}", use.number), what, names.of, scale, on);
}

void draw_cut_name(Sketch& sketch, CutLaid const& laid, CutNames const& names, bool upwards) {
  auto const at = static_cast<std::size_t>(laid.piece);
  double const wide = cut_mm(laid.width);
  double const high = cut_mm(laid.height);
  double const along = (upwards ? high : wide) / sketch.paper(1);
  double const across = (upwards ? wide : high) / sketch.paper(1);
  Point const middle{cut_mm(laid.x) + wide / 2, cut_mm(laid.y) + high / 2};
  std::string const number = std::to_string(laid.piece + 1);
  std::string const name = fmt::format("{}. {}", number, names.pieces.at(at));
  std::string const& size = names.sizes.at(at);
  std::array<std::vector<std::string>, 4> const ways{
      std::vector<std::string>{name + ", " + size}, std::vector<std::string>{name, size},
      std::vector<std::string>{name}, std::vector<std::string>{number + ". " + size}};
  for (auto const& lines : ways)
    if (laid.angle == 0 && go_in(lines, along, across, cut_letters))
      return draw_lines(sketch, middle, lines, upwards, cut_letters);
  double const least = std::min(along, across);
  double const letters = std::clamp(least - 0.8, least_letters, cut_letters);
  draw_lines(sketch, middle, {number}, false, letters);
}

void draw_cut_left(Sketch& sketch, CutLeft const& left) {
  double const wide = cut_mm(left.width);
  double const high = cut_mm(left.height);
  sketch.add(Rectangle{{cut_mm(left.x), cut_mm(left.y)}, wide, high, Pen::outline, Fill::shade});
  std::string const size = fmt::format("{} x {} mm", tenths(high), tenths(wide));
  std::array<std::vector<std::string>, 3> const ways{std::vector<std::string>{"left over: " + size},
                                                     std::vector<std::string>{"left over:", size},
                                                     std::vector<std::string>{size}};
  double const paper = sketch.paper(1);
  Point const middle{cut_mm(left.x) + wide / 2, cut_mm(left.y) + high / 2};
  bool const tall = high > 2 * wide;
  for (double const letters : {cut_letters, small_letters})
    for (bool const upwards : {tall, !tall})
      for (auto const& lines : ways)
        if (go_in(lines, (upwards ? high : wide) / paper, (upwards ? wide : high) / paper, letters))
          return draw_lines(sketch, middle, lines, upwards, letters);
}

std::vector<std::string> draw_cut_list(Sketch& sketch, CutUse const& use, CutNames const& names,
                                       double foot) {
  std::vector<std::string> rows;
  for (auto const& [piece, count] : use.counts) {
    auto const at = static_cast<std::size_t>(piece);
    rows.push_back(
        fmt::format("{}. {}, {} of {}", piece + 1, names.pieces.at(at), count, names.sizes.at(at)));
  }
  for (std::size_t i = 0; i < rows.size(); ++i)
    sketch.text({0, foot + sketch.paper(cut_list_row * static_cast<double>(i + 1))}, rows[i], Anchor::start,
                cut_letters);
  return rows;
}

double cut_list_height(CutUse const& use) {
  return around_list + cut_list_row * static_cast<double>(use.counts.size());
}

std::optional<Drawing> draw_cut(CutUse const& use, CutNames const& names, OnPaper const& on) {
  switch (use.goods) {
    case CutGoods::sheet:
    case CutGoods::roll: return draw_cut_sheet(use, names, on);
    case CutGoods::skin: return draw_cut_skin(use, names, on);
    case CutGoods::length:
    case CutGoods::by_the_metre: break;
  }
  return std::nullopt;
}

}  // namespace endband::cli
