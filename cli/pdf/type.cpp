#include "cli/pdf/type.h"

#include "cli/document/text.h"

#include <algorithm>
#include <array>

namespace endband::cli::pdf {
namespace {

constexpr char family[] = "EB Garamond 12, EB Garamond, DejaVu Serif";
constexpr double leading = 1.32;  // line to line, of the letters' size
constexpr double foot = 0.76;     // from the top of the letters to the line they stand on

double points(int pango_units) { return static_cast<double>(pango_units) / PANGO_SCALE; }
int pango_units(double length) { return static_cast<int>(length * PANGO_SCALE); }

struct FontFree {
  void operator()(PangoFontDescription* font) const { pango_font_description_free(font); }
};
using Font = std::unique_ptr<PangoFontDescription, FontFree>;

Font font_of(Style const& style) {
  Font font(pango_font_description_from_string(family));
  pango_font_description_set_weight(font.get(),
                                    style.weight == Weight::bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size(font.get(), style.size * PANGO_SCALE);
  return font;
}

std::string utf8(char32_t character) {
  std::array<char, 6> bytes{};
  int const size = g_unichar_to_utf8(static_cast<gunichar>(character), bytes.data());
  return std::string(bytes.data(), static_cast<std::size_t>(size));
}

}  // namespace

Lines::Lines(Held<PangoLayout> layout, Style const& style, double width)
    : layout_(std::move(layout)),
      style_(style),
      width_(width),
      line_height_(style.size * leading),
      count_(static_cast<std::size_t>(pango_layout_get_line_count(layout_.get()))) {}

double Lines::widest() const {
  PangoRectangle logical{};
  pango_layout_get_extents(layout_.get(), nullptr, &logical);
  return points(logical.width);
}

double Lines::width_of(std::size_t line) const {
  PangoRectangle logical{};
  pango_layout_line_get_extents(pango_layout_get_line_readonly(layout_.get(), static_cast<int>(line)),
                                nullptr, &logical);
  return points(logical.width);
}

void Lines::draw(cairo_t* on, std::size_t line, double x, double y) const {
  PangoLayoutLine* const it = pango_layout_get_line_readonly(layout_.get(), static_cast<int>(line));
  if (pango_layout_line_get_resolved_direction(it) == PANGO_DIRECTION_RTL && width_ > 0) {
    PangoRectangle logical{};
    pango_layout_line_get_extents(it, nullptr, &logical);
    x += width_ - points(logical.width);
  }
  cairo_set_source_rgb(on, style_.colour.red, style_.colour.green, style_.colour.blue);
  cairo_move_to(on, x, y + style_.size * ((leading - 1) / 2 + foot));
  pango_cairo_show_layout_line(on, it);
}

void Lines::draw_all(cairo_t* on, double x, double y) const {
  for (std::size_t line = 0; line < count_; ++line)
    draw(on, line, x, y + line_height_ * static_cast<double>(line));
}

// Lengths on paper do not depend on a screen's dots: no hints, no rounding.
Type::Type() : context_(pango_font_map_create_context(pango_cairo_font_map_get_default())) {
  cairo_font_options_t* const options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  pango_cairo_context_set_font_options(context_.get(), options);
  cairo_font_options_destroy(options);
  pango_context_set_round_glyph_positions(context_.get(), FALSE);
  pango_context_set_language(context_.get(), pango_language_from_string("en"));
}

Held<PangoLayout> Type::layout(std::string_view text, Style const& style) {
  Held<PangoLayout> layout(pango_layout_new(context_.get()));
  Font const font = font_of(style);
  pango_layout_set_font_description(layout.get(), font.get());
  PangoAttrList* const attributes = pango_attr_list_new();
  pango_attr_list_insert(attributes, pango_attr_font_features_new("tnum=1, lnum=1"));
  pango_layout_set_attributes(layout.get(), attributes);
  pango_attr_list_unref(attributes);
  std::string const shown = printable(text, true);
  pango_layout_set_text(layout.get(), shown.data(), static_cast<int>(shown.size()));
  return layout;
}

Lines Type::set(std::string_view text, Style const& style, double width) {
  Held<PangoLayout> made = layout(text, style);
  pango_layout_set_wrap(made.get(), PANGO_WRAP_WORD_CHAR);
  if (width >= 0) pango_layout_set_width(made.get(), pango_units(width));
  look_for_boxes(made.get());
  return Lines(std::move(made), style, width);
}

double Type::width_of(std::string_view text, Style const& style) { return set(text, style).widest(); }

double Type::longest_word(std::string_view text, Style const& style) {
  double longest = 0;
  while (!text.empty()) {
    std::size_t const end = std::min(text.find_first_of(" \n"), text.size());
    if (end > 0) longest = std::max(longest, width_of(text.substr(0, end), style));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return longest;
}

void Type::draw_on_foot(cairo_t* on, std::string_view text, Style const& style, double x, double y,
                        double anchor) {
  Held<PangoLayout> const made = layout(text, style);
  pango_layout_set_single_paragraph_mode(made.get(), TRUE);
  look_for_boxes(made.get());
  PangoRectangle logical{};
  pango_layout_get_extents(made.get(), nullptr, &logical);
  cairo_set_source_rgb(on, style.colour.red, style.colour.green, style.colour.blue);
  cairo_move_to(on, x - anchor * points(logical.width), y);
  pango_cairo_show_layout_line(on, pango_layout_get_line_readonly(made.get(), 0));
}

void Type::look_for_boxes(PangoLayout* layout) {
  if (pango_layout_get_unknown_glyphs_count(layout) == 0) return;
  for (GSList* line = pango_layout_get_lines_readonly(layout); line != nullptr; line = line->next)
    for (GSList* run = static_cast<PangoLayoutLine*>(line->data)->runs; run != nullptr; run = run->next) {
      PangoGlyphString const* const glyphs = static_cast<PangoGlyphItem*>(run->data)->glyphs;
      for (int i = 0; i < glyphs->num_glyphs; ++i) {
        PangoGlyph const glyph = glyphs->glyphs[i].glyph;
        if ((glyph & PANGO_GLYPH_UNKNOWN_FLAG) != 0)
          boxes_.insert(static_cast<char32_t>(glyph & ~PANGO_GLYPH_UNKNOWN_FLAG));
      }
    }
}

std::string Type::without_letters() const {
  std::string out;
  for (char32_t const character : boxes_) out += utf8(character);
  return out;
}

std::string Type::typeface() const {
  Font const asked = font_of({});
  Held<PangoFont> const found(pango_context_load_font(context_.get(), asked.get()));
  if (!found) return "no typeface at all";
  Font const is(pango_font_describe(found.get()));
  char const* const name = pango_font_description_get_family(is.get());
  std::string const said = name == nullptr ? "" : name;
  return said.starts_with("EB Garamond") ? "" : said;
}

}  // namespace endband::cli::pdf
