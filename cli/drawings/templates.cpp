#include "cli/drawings/templates.h"

#include "cli/drawings/stations.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

namespace endband::cli {
namespace {

using enum FigureId;

constexpr double larger = 1.75;  // measures of 4.9 mm, 14 pt
constexpr double small = 2.3;    // words: 4 mm, 11.4 pt
constexpr double strip_width = 30;
constexpr double tab = 10;     // mm that go under the piece before
constexpr double around = 26;  // mm above and below a piece: head, tail, tab
constexpr double beside = 72;  // mm at the sides of a strip: measures, names, the bar
constexpr double hole_radius = 0.6;

// What lies across the strip: a support, a band.
struct Across {
  double from = 0, to = 0;
};
struct Named {
  double at = 0;
  std::string words;
};
struct Strip {
  std::string name, title;
  double width = 0, length = 0;
  bool folded = false;
  std::vector<double> measures;  // in order
  std::vector<double> holes;
  std::vector<double> trimmed;  // where it ends once it is trimmed
  std::vector<Across> across;
  std::vector<Named> names;
};

class Piece {
 public:
  Piece(Strip const& strip, double from, double to) : strip_(strip), from_(from), to_(to) {
    drawing_.scale = larger;
    drawing_.name = strip.name;
    drawing_.title = strip.title;
  }

  Drawing drawn(std::size_t number, std::size_t count) {
    if (count > 1) drawing_.title += fmt::format(", piece {} of {}", number, count);
    if (count > 1) drawing_.name += fmt::format("-{}", number);
    for (Across const& each : strip_.across) shade(each);
    outline(number, count);
    for (double const at : strip_.trimmed) level(at, Pen::hidden);
    if (strip_.folded) add(Segment{{strip_.width / 2, from_}, {strip_.width / 2, to_}, Pen::fold});
    for (double const at : strip_.holes)
      if (has(at)) hole(at);
    for (Named const& each : strip_.names)
      if (has(each.at)) label({strip_.width + paper(1.6), each.at + paper(1)}, each.words, 2.8);
    measures();
    bar();
    drawing_.words = words(number, count);
    frame(drawing_, 0.5);
    drawing_ = enlarged(std::move(drawing_), larger);
    drawing_.true_size = true;
    return std::move(drawing_);
  }

 private:
  double paper(double mm) const { return mm * drawing_.scale; }
  bool has(double at) const { return at >= from_ && at <= to_; }
  void add(Shape shape) { drawing_.shapes.push_back(std::move(shape)); }
  void label(Point at, std::string words, double size, Anchor anchor = Anchor::start, bool upwards = false) {
    add(Text{at, std::move(words), size, anchor, upwards});
  }
  void level(double at, Pen pen) {
    if (has(at)) add(Segment{{0, at}, {strip_.width, at}, pen});
  }

  void shade(Across const& each) {
    double const from = std::max(each.from, from_), to = std::min(each.to, to_);
    if (from < to) add(Rectangle{{0, from}, strip_.width, to - from, Pen::outline, Fill::shade});
  }

  // Pierced where the cross is; the ring is found again when the paper lies on the fold.
  void hole(double at) {
    double const middle = strip_.width / 2;
    add(Segment{{middle - 5, at}, {middle + 5, at}, Pen::outline});
    add(Circle{{middle, at}, hole_radius, Pen::outline, Fill::white});
  }

  void outline(std::size_t number, std::size_t count) {
    add(Rectangle{{0, from_}, strip_.width, to_ - from_, Pen::outline, Fill::none});
    if (number > 1) {
      add(Rectangle{{0, from_ - tab}, strip_.width, tab, Pen::hidden, Fill::none});
      label({strip_.width + paper(1.6), from_ - tab / 2 + 1.3}, "tab", small);
      join(from_, number - 1);
    } else {
      label({strip_.width / 2, -paper(1.2)}, "head", small, Anchor::middle);
    }
    if (number < count)
      join(to_, number);
    else
      label({strip_.width / 2, to_ + paper(2.8)}, "tail", small, Anchor::middle);
  }

  // The same on both pieces: the letter, and the halves of a diamond on the line.
  void join(double at, std::size_t which) {
    double const middle = strip_.width / 4;
    add(Segment{{-4, at}, {strip_.width + 4, at}, Pen::accent});
    add(Path{{middle - 4, at},
             {{{middle, at - 4}, 0, true, false},
              {{middle + 4, at}, 0, true, false},
              {{middle, at + 4}, 0, true, false}},
             true,
             Pen::outline,
             Fill::none});
    label({middle + 6, at - paper(0.7)}, "join " + std::string(1, static_cast<char>('A' + (which - 1) % 26)),
          2.8);
  }

  void measures() {
    Running running{{0, 0}, true, {}, 3};
    for (double const at : strip_.measures)
      if (has(at)) running.stations.push_back(at);
    if (!running.stations.empty()) add(std::move(running));
  }

  void bar() {
    double const x = strip_.width + paper(16);
    double const end = from_ + template_bar;
    add(Segment{{x, from_}, {x, end}, Pen::outline});
    for (double const at : {from_, from_ + template_bar / 2, end})
      add(Segment{{x - paper(1), at}, {x + paper(1), at}, Pen::thin});
    double const middle = from_ + template_bar / 2;
    label({x + paper(4), middle}, "Print at 100 %, actual size;", small, Anchor::middle, true);
    label({x + paper(7), middle}, "measure this bar: 100 mm.", small, Anchor::middle, true);
  }

  std::string words(std::size_t number, std::size_t count) const {
    std::vector<std::string> places;
    for (double const at : strip_.measures)
      if (has(at)) places.push_back(tenths(at));
    std::string words = fmt::format("A strip {} long, at its true size; measures from its upper end: {} mm.",
                                    mm_words(strip_.length), listed(places));
    if (count > 1)
      words += fmt::format(" This is piece {} of {}, from {} to {} mm.", number, count, tenths(from_),
                           tenths(to_));
    return words;
  }

  Strip const& strip_;
  double from_, to_;
  Drawing drawing_;
};

std::vector<Drawing> in_pieces(Strip const& strip, Paper room) {
  std::vector<double> const ends = parted(strip.length, room.height - around, strip.measures);
  std::vector<Drawing> pieces;
  for (std::size_t i = 0; i + 1 < ends.size(); ++i)
    pieces.push_back(Piece(strip, ends[i], ends[i + 1]).drawn(i + 1, ends.size() - 1));
  return pieces;
}

std::string titled(std::string_view what, BookSpec const& book) {
  return book.title.empty() ? std::string(what) : fmt::format("{}: {}", what, book.title);
}

}  // namespace

std::vector<double> parted(double length, double most, std::vector<double> const& places) {
  constexpr double least_gap = 8;  // a mark in a narrower one would stand in the way
  auto const count = std::max(1, static_cast<int>(std::ceil(length / most - 1e-9)));
  std::vector<double> ends{0};
  for (int i = 1; i < count; ++i) {
    double const from = ends.back();
    int const left = count - i;
    double const aim = from + (length - from) / (left + 1);
    double best = aim;
    double nearest = length;
    for (std::size_t k = 0; k + 1 < places.size(); ++k) {
      double const middle = (places[k] + places[k + 1]) / 2;
      bool const may =
          places[k + 1] - places[k] >= least_gap && middle <= from + most && middle >= length - left * most;
      if (!may || middle <= from || std::abs(middle - aim) >= nearest) continue;
      nearest = std::abs(middle - aim);
      best = middle;
    }
    ends.push_back(best);
  }
  ends.push_back(length);
  return ends;
}

std::vector<Drawing> sewing_templates(BookSpec const& book, Structure const& structure, Paper room) {
  Figures const& figures = structure.figures;
  auto const stations = stations_of(book, figures);
  if (stations.empty()) return {};
  double const trim = figures.value_or(head_tail_trim, 0);
  Strip strip;
  strip.name = "sewing-template";
  strip.title = titled("Sewing stations", book);
  strip.width = strip_width;
  strip.length = figures.value(leaf_height) + 2 * trim;
  strip.folded = true;
  if (trim > 0) strip.trimmed = {trim, strip.length - trim};
  for (double const at : holes_of(stations, figures)) strip.holes.push_back(at + trim);
  int number = 0;
  for (Station const& station : stations) {
    double const at = station.at + trim;
    if (station.width > 0) strip.across.push_back({at - station.width / 2, at + station.width / 2});
    strip.names.push_back({at, station.kind == StationKind::kettle ? "K" : std::to_string(++number)});
  }
  strip.measures = strip.holes;
  strip.measures.insert(strip.measures.begin(), 0);
  strip.measures.push_back(strip.length);
  return in_pieces(strip, room);
}

std::vector<Drawing> spine_templates(BookSpec const& book, Structure const& structure, Paper room) {
  Figures const& figures = structure.figures;
  if (!book.has(Part::spine) || !known(figures, {bands, panel_height, band_width, leaf_height, arc}))
    return {};
  int const count = static_cast<int>(figures.value(bands));
  double const panel = figures.value(panel_height), band = figures.value(band_width);
  if (count < 1 || !(panel > 0)) return {};
  Strip strip;
  strip.name = "spine-template";
  strip.title = titled("Bands and panels", book);
  strip.width = std::min(figures.value(arc), room.width - beside);
  strip.length = figures.value(leaf_height);
  strip.measures = {0};
  for (int i = 0; i <= count; ++i) {
    double const from = i * (panel + band);
    strip.names.push_back({from + panel / 2, fmt::format("panel {}", i + 1)});
    if (i == count) break;
    strip.across.push_back({from + panel, from + panel + band});
    strip.measures.push_back(from + panel);
    strip.measures.push_back(from + panel + band);
  }
  strip.measures.push_back(strip.length);
  return in_pieces(strip, room);
}

}  // namespace endband::cli
