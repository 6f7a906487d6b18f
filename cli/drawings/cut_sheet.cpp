// A sheet, an offcut or what is torn off a roll, with the cuts that part it.
#include "cli/drawings/cut_marks.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace endband::cli {
namespace {

constexpr double left_of_sheet = 15;   // running measures, mm of paper
constexpr double right_of_sheet = 20;  // numbers of the cuts, and the grain
constexpr double above_sheet = 15;
constexpr double under_sheet = 9;
constexpr double off = 2;           // from the sheet to a number, mm of paper
constexpr double line_apart = 3.4;  // of two numbers

// The cuts at one place of an edge: "3, 5".
struct Numbered {
  double at = 0;
  std::string words;
};
std::vector<Numbered> numbers_along(CutUse const& use, bool across) {
  std::map<std::int64_t, std::string> places;
  for (std::size_t i = 0; i < use.steps.size(); ++i) {
    CutStep const& step = use.steps[i];
    if (step.across != across) continue;
    std::string& words = places[across ? step.y : step.x];
    words += (words.empty() ? "" : ", ") + std::to_string(i + 1);
  }
  std::vector<Numbered> all;
  for (auto const& [at, words] : places) all.push_back({cut_mm(at), words});
  return all;
}

// Places of labels that want to stand at their cuts and take `needs`: moved no more than they must, a crowd
// about its own middle (the means of neighbours that are out of order, pooled).
std::vector<double> set_apart(std::vector<Numbered> const& numbers, std::vector<double> const& needs) {
  struct Crowd {
    double sum;
    std::size_t count;
    double middle() const { return sum / static_cast<double>(count); }
  };
  std::vector<double> offs;
  std::vector<Crowd> crowds;
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    offs.push_back(i == 0 ? 0 : offs.back() + (needs[i - 1] + needs[i]) / 2);
    crowds.push_back({numbers[i].at - offs.back(), 1});
    while (crowds.size() > 1 && crowds.back().middle() < crowds[crowds.size() - 2].middle()) {
      Crowd const last = crowds.back();
      crowds.pop_back();
      crowds.back().sum += last.sum;
      crowds.back().count += last.count;
    }
  }
  std::vector<double> places;
  for (Crowd const& crowd : crowds)
    for (std::size_t i = 0; i < crowd.count; ++i) places.push_back(crowd.middle() + offs[places.size()]);
  return places;
}

void number_cuts(Sketch& sketch, CutUse const& use, bool across) {
  double const wide = cut_mm(use.width);
  double const high = cut_mm(use.height);
  auto const numbers = numbers_along(use, across);
  std::vector<double> needs;
  for (Numbered const& each : numbers)
    needs.push_back(sketch.paper(across ? line_apart : letters_width(each.words, cut_letters) + 1.2));
  auto const places = set_apart(numbers, needs);
  double const near = sketch.paper(0.5);
  double const far = sketch.paper(off + 1.5);
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    double const at = numbers[i].at;
    if (across) {
      sketch.line({wide + near, at}, {wide + far, places[i]}, Pen::thin);
      sketch.text({wide + far + sketch.paper(0.7), places[i] + sketch.paper(cut_letters / 3)},
                  numbers[i].words, Anchor::start, cut_letters);
    } else {
      sketch.line({at, high + near}, {places[i], high + far}, Pen::thin);
      sketch.text({places[i], high + far + sketch.paper(cut_letters)}, numbers[i].words, Anchor::middle,
                  cut_letters);
    }
  }
}

// From the upper left corner: where cuts are, and the end.
std::vector<double> stations(CutUse const& use, bool across) {
  std::vector<double> places;
  for (CutStep const& step : use.steps)
    if (step.across == across) places.push_back(cut_mm(across ? step.y : step.x));
  places.push_back(0);
  places.push_back(cut_mm(across ? use.height : use.width));
  std::ranges::sort(places);
  places.erase(std::unique(places.begin(), places.end()), places.end());
  return places;
}

std::string steps_in_words(CutUse const& use) {
  std::vector<std::string> words;
  for (std::size_t i = 0; i < use.steps.size(); ++i) {
    CutStep const& step = use.steps[i];
    words.push_back(fmt::format("{}. {} at {} mm of what is {} x {} mm", i + 1,
                                step.across ? "across" : "down", tenths(cut_mm(step.at)),
                                tenths(cut_mm(step.of.height)), tenths(cut_mm(step.of.width))));
  }
  return fmt::format("{}", fmt::join(words, "; "));
}

}  // namespace

Drawing draw_cut_sheet(CutUse const& use, CutNames const& names, OnPaper const& on) {
  double const wide = cut_mm(use.width);
  double const high = cut_mm(use.height);
  double const scale =
      cut_scale(use, {left_of_sheet + right_of_sheet, above_sheet + under_sheet + cut_list_height(use)}, on);
  Sketch sketch = cut_sketch(use, names, scale, on);
  for (CutLeft const& left : use.left) draw_cut_left(sketch, left);
  for (CutLaid const& laid : use.laid) {
    sketch.add(Rectangle{{cut_mm(laid.x), cut_mm(laid.y)},
                         cut_mm(laid.width),
                         cut_mm(laid.height),
                         Pen::outline,
                         Fill::white});
    draw_cut_name(sketch, laid, names, true);
  }
  for (CutStep const& step : use.steps) {
    Point const from{cut_mm(step.x), cut_mm(step.y)};
    double const length = cut_mm(step.length);
    sketch.line(from, step.across ? Point{from.x + length, from.y} : Point{from.x, from.y + length});
  }
  sketch.add(Rectangle{{0, 0}, wide, high, Pen::accent, Fill::none});
  sketch.add(Running{{0, 0}, true, stations(use, true), 4});
  sketch.add(Running{{0, 0}, false, stations(use, false), 4});
  number_cuts(sketch, use, true);
  number_cuts(sketch, use, false);
  double const grain = std::clamp(high / 2, sketch.paper(8), sketch.paper(20));
  double const beside = wide + sketch.paper(right_of_sheet - 5);
  sketch.add(GrainArrow{{beside, high / 2}, grain, true});
  sketch.text({beside + sketch.paper(3.2), high / 2}, "grain", Anchor::middle, cut_letters, true);
  auto const rows = draw_cut_list(sketch, use, names, high + sketch.paper(under_sheet + 2));
  std::string words = fmt::format("Height by width. {}.", fmt::join(rows, "; "));
  if (!use.steps.empty()) words += fmt::format(" Cuts from the upper left corner: {}.", steps_in_words(use));
  return std::move(sketch).finish(std::move(words));
}

}  // namespace endband::cli
