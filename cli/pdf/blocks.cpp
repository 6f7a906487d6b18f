#include "cli/document/notice.h"
#include "cli/pdf/flow.h"
#include "cli/pdf/picture.h"
#include "cli/pdf/rows.h"

#include <algorithm>
#include <utility>
#include <variant>

namespace endband::cli::pdf {
namespace {

constexpr double apart = mm(3);         // paragraph to paragraph
constexpr double caption_size = 9.5;    // as small as anything gets
constexpr double hand_height = mm(15);  // room for a signature
constexpr double bench_size = 12, letter_size = 11;

class Flow {
 public:
  Flow(Type& type, Document const& document, Room room)
      : type_(type),
        room_(room),
        size_(document.bench ? bench_size : letter_size),
        soft_(document.bench ? ink : grey),
        bench_(document.bench) {}
  std::vector<Piece> take() { return std::move(pieces_); }

  void mark(std::string const& words) {
    auto const lines = held(words, {size_, Weight::bold, ink}, room_.width - mm(6));
    Piece piece{0, lines->height() + mm(3)};
    piece.draw = [lines, width = room_.width, height = piece.height](cairo_t* on, double x, double y) {
      cairo_set_source_rgb(on, ink.red, ink.green, ink.blue);
      cairo_set_line_width(on, mm(0.5));
      cairo_set_dash(on, nullptr, 0, 0);
      cairo_rectangle(on, x, y, width, height);
      cairo_stroke(on);
      lines->draw_all(on, x + mm(3), y + mm(1.5));
    };
    add(std::move(piece));
  }

  void operator()(Heading const& heading) {
    bool const first = heading.level == 1;
    double const size = first ? 19 : heading.level == 2 ? size_ + 2.5 : size_ + 0.5;
    auto const lines = held(heading.text, {size, first ? Weight::plain : Weight::bold, ink}, room_.width);
    Piece piece{first ? mm(7) : mm(5.5), lines->height() + (first ? mm(2) : 0), true};
    piece.draw = [lines](cairo_t* on, double x, double y) { lines->draw_all(on, x, y); };
    add(std::move(piece));
  }

  void operator()(Paragraph const& paragraph) { text(paragraph.text, {size_, Weight::plain, ink}, 0); }
  void operator()(Verbatim const& verbatim) {
    if (!verbatim.text.empty()) text(without_last_break(verbatim.text), {size_, Weight::plain, ink}, 0);
  }

  // What to type next is of no use on paper.
  void operator()(Notice const& notice) {
    if (notice.kind == NoticeKind::next) return;
    auto const lines = held(std::string(notice_label(notice.kind)) + notice.text, {size_, Weight::plain, ink},
                            room_.width - mm(4));
    Piece piece{apart, lines->height()};
    piece.draw = [lines](cairo_t* on, double x, double y) {
      cairo_set_source_rgb(on, soft_rule, soft_rule, soft_rule);
      cairo_rectangle(on, x, y, mm(0.8), lines->height());
      cairo_fill(on);
      lines->draw_all(on, x + mm(4), y);
    };
    add(std::move(piece));
  }

  void operator()(KeyValues const& values) {
    double label = 0;
    for (auto const& row : values.rows)
      label = std::max(label, type_.width_of(row.first, {size_, Weight::plain, soft_}));
    label = std::min(label + mm(6), room_.width / 2);
    bool first = true;
    for (auto const& [key, value] : values.rows) {
      auto const left = held(key, {size_, Weight::plain, soft_}, label - mm(3));
      auto const right = held(value, {size_, Weight::plain, ink}, room_.width - label);
      Piece piece{first ? apart : mm(1), std::max(left->height(), right->height())};
      piece.draw = [left, right, label](cairo_t* on, double x, double y) {
        left->draw_all(on, x, y);
        right->draw_all(on, x + label, y);
      };
      add(std::move(piece));
      first = false;
    }
  }

  void operator()(Table const& table) {
    if (table.rows.empty()) return;
    for (Piece& piece : table_pieces(type_, on_paper(table), room_.width, size_ + (bench_ ? 1 : 0)))
      add(std::move(piece));
  }

  void operator()(SignHere const& sign) {
    auto const count = static_cast<double>(sign.labels.size());
    double const width = (room_.width - mm(6) * (count - 1)) / std::max(1.0, count);
    std::vector<std::shared_ptr<Lines const>> labels;
    double height = 0;
    for (std::string const& label : sign.labels) {
      labels.push_back(held(label, {caption_size, Weight::plain, soft_}, width));
      height = std::max(height, labels.back()->height());
    }
    Piece piece{apart, hand_height + mm(1) + height};
    piece.draw = [labels, width](cairo_t* on, double x, double y) {
      for (auto const& label : labels) {
        rule(on, x, y + hand_height, width, mm(0.2), 0);
        label->draw_all(on, x, y + hand_height + mm(1));
        x += width + mm(6);
      }
    };
    add(std::move(piece));
  }

  void operator()(Drawing const& drawing) {
    bool const captioned = !drawing.titled && !bench_;
    auto const caption = held(drawing.title, {caption_size, Weight::plain, soft_}, room_.width);
    double const below = captioned ? mm(1.5) + caption->height() : 0;
    double const shrunk = drawing.true_size ? 1 : shrunk_to(drawing, {room_.width, room_.height - below});
    Size const size = size_of(drawing, shrunk);
    Piece piece{apart, size.height + below};
    piece.draw = [type = &type_, black = bench_, drawing, caption, captioned, size, shrunk](
                     cairo_t* on, double x, double y) {
      pdf::draw(on, *type, drawing, {x, y}, shrunk, black);
      if (captioned) caption->draw_all(on, x, y + size.height + mm(1.5));
    };
    add(std::move(piece));
  }

  void operator()(PageBreak const&) { new_page_ = true; }

 private:
  static constexpr double soft_rule = 0x76 / 255.0;

  std::shared_ptr<Lines const> held(std::string_view words, Style const& style, double width) {
    return std::make_shared<Lines const>(type_.set(words, style, width));
  }

  static std::string_view without_last_break(std::string_view words) {
    while (words.ends_with('\n')) words.remove_suffix(1);
    return words;
  }

  // Lines that may go to two pages, but never one of them alone.
  void text(std::string_view words, Style const& style, double left) {
    auto const lines = held(words, style, room_.width - left);
    for (std::size_t line = 0; line < lines->count(); ++line) {
      Piece piece{line == 0 ? apart : 0, lines->line_height()};
      piece.with_next = line + 1 < lines->count() && (line == 0 || line + 2 == lines->count());
      piece.draw = [lines, line, left](cairo_t* on, double x, double y) {
        lines->draw(on, line, x + left, y);
      };
      add(std::move(piece));
    }
  }

  void add(Piece piece) {
    piece.new_page = piece.new_page || std::exchange(new_page_, false);
    pieces_.push_back(std::move(piece));
  }

  Type& type_;
  Room room_;
  double size_;
  Colour soft_;
  bool bench_;
  bool new_page_ = false;
  std::vector<Piece> pieces_;
};

}  // namespace

std::vector<Piece> pieces_of(Type& type, Document const& document, std::string const& mark, Room room) {
  Flow flow(type, document, room);
  if (!mark.empty()) flow.mark(mark);
  for (Block const& block : document.blocks) std::visit(flow, block);
  return flow.take();
}

}  // namespace endband::cli::pdf
