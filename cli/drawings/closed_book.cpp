#include "cli/drawings/closed_book.h"

#include "engine/measure/measure.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

constexpr double tallest = 52, widest = 110;  // mm of the paper
constexpr double apart = 0.12;                // of the width, between spine and front
constexpr std::int64_t fore_edge_corners = 4;
constexpr double band_line = 1.2;    // from a band to the line beside it, mm; common practice, no source
constexpr double least_apart = 0.8;  // of two lines that shall be seen as two, mm of the paper

double mm(Length length) { return static_cast<double>(length.n) / 1000; }

struct Book {
  double height, width, thickness;
};

void add_spine(Drawing& drawing, Book const& book, BuyerQuote const& quote, bool lined) {
  drawing.shapes.emplace_back(Rectangle{{0, 0}, book.thickness, book.height, Pen::outline, Fill::white});
  if (!quote.ways.has(Way::raised_cords)) return;
  double const gap = book.height / static_cast<double>(quote.supports + 1);
  double const off = std::max(band_line, least_apart * drawing.scale);
  for (std::int64_t band = 1; band <= quote.supports; ++band) {
    double const y = gap * static_cast<double>(band), half = std::min(2.0, gap / 6);
    drawing.shapes.emplace_back(
        Rectangle{{0, y - half}, book.thickness, 2 * half, Pen::outline, Fill::shade});
    for (double const beside : {-half - off, half + off})
      if (lined)
        drawing.shapes.emplace_back(Segment{{0, y + beside}, {book.thickness, y + beside}, Pen::thin});
  }
}

// In half and quarter bindings the spine's covering reaches over a part of the board.
void add_covering(Drawing& drawing, Book const& book, double left, Ways ways) {
  bool const half = ways.has(Way::half) || ways.has(Way::three_quarter);
  if (!half && !ways.has(Way::quarter)) return;
  double const reach = left + book.width / 4, right = left + book.width;
  drawing.shapes.emplace_back(Segment{{reach, 0}, {reach, book.height}, Pen::thin});
  if (!half) return;
  double const leg = book.width / 5;
  drawing.shapes.emplace_back(Segment{{right - leg, 0}, {right, leg}, Pen::thin});
  drawing.shapes.emplace_back(Segment{{right - leg, book.height}, {right, book.height - leg}, Pen::thin});
}

void add_corner(Drawing& drawing, Point at, double to_x, double to_y) {
  Path corner{at,
              {{{at.x + to_x, at.y}, 0, true, false}, {{at.x, at.y + to_y}, 0, true, false}},
              true,
              Pen::outline,
              Fill::hatch};
  drawing.shapes.emplace_back(std::move(corner));
}

void add_fittings(Drawing& drawing, Book const& book, double left, BuyerQuote const& quote) {
  double const leg = std::min(25.0, book.width / 6), right = left + book.width;
  if (quote.corners >= fore_edge_corners) {
    add_corner(drawing, {right, 0}, -leg, leg);
    add_corner(drawing, {right, book.height}, -leg, -leg);
  }
  if (quote.corners >= 2 * fore_edge_corners) {
    add_corner(drawing, {left, 0}, leg, leg);
    add_corner(drawing, {left, book.height}, leg, -leg);
  }
  for (std::int64_t clasp = 1; clasp <= quote.clasps; ++clasp) {
    double const y = book.height * static_cast<double>(clasp) / static_cast<double>(quote.clasps + 1),
                 half = 5;
    drawing.shapes.emplace_back(Rectangle{{right - 18, y - half}, 20, 2 * half, Pen::outline, Fill::hatch});
  }
}

// By its middle: the two edges of a line would run into one at this scale.
void add_frames(Drawing& drawing, Book const& book, double left, OnCover const& cover) {
  for (OnCover::Frame const& frame : cover.frames) {
    double const inset = frame.inset + frame.width / 2;
    drawing.shapes.emplace_back(Rectangle{
        {left + inset, inset}, book.width - 2 * inset, book.height - 2 * inset, Pen::thin, Fill::none});
  }
}

void add_straps(Drawing& drawing, Book const& book, double left, OnCover const& cover) {
  double const reach = std::min(cover.strap_reach, book.width), right = left + book.width;
  for (std::int64_t strap = 1; strap <= cover.straps; ++strap) {
    double const top = book.height * static_cast<double>(strap) / static_cast<double>(cover.straps + 1) -
                       cover.strap_width / 2;
    drawing.shapes.emplace_back(
        Rectangle{{right - reach, top}, reach, cover.strap_width, Pen::outline, Fill::shade});
    double const buckle = cover.strap_width / 2;
    drawing.shapes.emplace_back(Rectangle{
        {right - reach, top - buckle / 4}, buckle, cover.strap_width + buckle / 2, Pen::outline, Fill::none});
  }
}

std::string in_words(Book const& book, BuyerQuote const& quote, OnCover const& cover) {
  std::string text = fmt::format("Closed it is {} mm high, {} mm wide and {} mm thick.", tenths(book.height),
                                 tenths(book.width), tenths(book.thickness));
  if (quote.ways.has(Way::raised_cords))
    text += fmt::format(" {} raised bands across the spine.", quote.supports);
  if (!cover.frames.empty())
    text += fmt::format(" {} frame{} of lines on the front.", cover.frames.size(),
                        cover.frames.size() == 1 ? "" : "s");
  if (cover.straps > 0)
    text += fmt::format(" {} strap{} over the fore edge.", cover.straps, cover.straps == 1 ? "" : "s");
  return text;
}

}  // namespace

std::optional<Drawing> draw_closed_book(BuyerQuote const& quote, OnCover const& cover) {
  Book const book{mm(quote.height), mm(quote.width), mm(quote.thickness)};
  bool const one = !quote.box_alone && quote.volumes.empty();
  if (!one || book.height <= 0 || book.width <= 0 || book.thickness <= 0) return std::nullopt;
  Drawing drawing;
  drawing.title = "Spine and front, closed";
  drawing.words = in_words(book, quote, cover);
  drawing.name = "closed";
  double const left = book.thickness + apart * book.width;
  drawing.scale = std::max(book.height / tallest, (left + book.width) / widest);
  add_spine(drawing, book, quote, cover.lined_bands);
  drawing.shapes.emplace_back(Rectangle{{left, 0}, book.width, book.height, Pen::outline, Fill::white});
  add_covering(drawing, book, left, quote.ways);
  add_frames(drawing, book, left, cover);
  add_fittings(drawing, book, left, quote);
  add_straps(drawing, book, left, cover);
  // Above: what is too narrow for its words has them beside it, where the front's measure would lie below.
  drawing.shapes.emplace_back(DimensionLine{{0, 0}, {book.thickness, 0}, -7, ""});
  drawing.shapes.emplace_back(DimensionLine{{left, book.height}, {left + book.width, book.height}, 7, ""});
  drawing.shapes.emplace_back(DimensionLine{{left + book.width, 0}, {left + book.width, book.height}, 7, ""});
  frame(drawing, 3);
  return drawing;
}

}  // namespace endband::cli
