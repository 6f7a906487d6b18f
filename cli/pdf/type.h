// Letters for pages: EB Garamond with numbers that stand in columns, laid out by Pango. All lengths are
// points of 1/72 inch.
#pragma once

#include <cairo.h>
#include <pango/pangocairo.h>

#include <memory>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace endband::cli::pdf {

constexpr double mm(double length) { return length * 72 / 25.4; }

struct Unref {
  void operator()(void* object) const { g_object_unref(object); }
};
template <class T>
using Held = std::unique_ptr<T, Unref>;

enum class Weight : bool { plain, bold };

struct Colour {
  double red = 0, green = 0, blue = 0;
};
inline constexpr Colour ink{0x1b / 255.0, 0x1b / 255.0, 0x1b / 255.0};   // 17:1 on white
inline constexpr Colour grey{0x59 / 255.0, 0x59 / 255.0, 0x59 / 255.0};  // 7:1 on white (WCAG 2.2: 4.5:1)

struct Style {
  double size = 11;
  Weight weight = Weight::plain;
  Colour colour = ink;
};

// A text set in lines of at most a width. The width of what runs from right to left ends at the right.
class Lines {
 public:
  explicit Lines(Held<PangoLayout> layout, Style const& style, double width);

  std::size_t count() const { return count_; }
  double height() const { return line_height_ * static_cast<double>(count_); }
  double line_height() const { return line_height_; }
  double widest() const;
  double width_of(std::size_t line) const;
  // One line whose top is at y.
  void draw(cairo_t* on, std::size_t line, double x, double y) const;
  void draw_all(cairo_t* on, double x, double y) const;

 private:
  Held<PangoLayout> layout_;
  Style style_;
  double width_;
  double line_height_;
  std::size_t count_;
};

class Type {
 public:
  Type();

  // No wider than `width`; < 0: as wide as it comes, one line for each of its own.
  Lines set(std::string_view text, Style const& style, double width = -1);
  // Words of a drawing: no space between their lines, and their own foot.
  double width_of(std::string_view text, Style const& style);
  double longest_word(std::string_view text, Style const& style);
  void draw_on_foot(cairo_t* on, std::string_view text, Style const& style, double x, double y,
                    double anchor);

  std::string without_letters() const;  // the characters that came out as boxes so far, once each
  std::string typeface() const;         // what stands for the typeface that was asked for; empty: it is there

 private:
  Held<PangoLayout> layout(std::string_view text, Style const& style);
  void look_for_boxes(PangoLayout* layout);

  Held<PangoContext> context_;
  std::set<char32_t> boxes_;
};

}  // namespace endband::cli::pdf
