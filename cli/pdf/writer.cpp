// The module's way in: a document goes to pages, pages go to PDF.
#include "cli/pdf/flow.h"
#include "cli/pdf/module.h"
#include "cli/version.h"

#include <cairo-pdf.h>
#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <memory>
#include <string_view>

namespace endband::cli::pdf {
namespace {

constexpr double left = mm(16), top = mm(18), under = mm(20);
constexpr double foot_size = 8.5, bench_foot_size = 11;

Room sheet(bool letter) { return letter ? Room{612, 792} : Room{mm(210), mm(297)}; }

struct CairoFree {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  void operator()(cairo_t* on) const { cairo_destroy(on); }
};
using Surface = std::unique_ptr<cairo_surface_t, CairoFree>;
using Context = std::unique_ptr<cairo_t, CairoFree>;

cairo_status_t append(void* to, unsigned char const* bytes, unsigned int count) noexcept {
  try {
    static_cast<std::string*>(to)->append(reinterpret_cast<char const*>(bytes), count);
    return CAIRO_STATUS_SUCCESS;
  } catch (std::exception const&) {
    return CAIRO_STATUS_NO_MEMORY;
  }
}

void describe(cairo_surface_t* surface, Page const& page) {
  auto const say = [&](cairo_pdf_metadata_t what, std::string const& words) {
    cairo_pdf_surface_set_metadata(surface, what, words.c_str());
  };
  say(CAIRO_PDF_METADATA_TITLE, page.title);
  say(CAIRO_PDF_METADATA_CREATOR, fmt::format("endband {}", program_version));
  say(CAIRO_PDF_METADATA_CREATE_DATE, page.written_on + "T00:00:00Z");
}

void draw_foot(cairo_t* on, Type& type, Page const& page, std::size_t number, std::size_t of, Room size,
               bool bench) {
  Style const style =
      bench ? Style{bench_foot_size, Weight::plain, ink} : Style{foot_size, Weight::plain, grey};
  double const y = size.height - mm(11);
  type.draw_on_foot(on, page.foot, style, left, y, 0);
  type.draw_on_foot(on, fmt::format("{} {} {} {}", page.page, number, page.page_of, of), style,
                    size.width - left, y, 1);
}

struct Unread {
  std::string_view bytes;
};
cairo_status_t read_on(void* from, unsigned char* to, unsigned int count) noexcept {
  auto& unread = *static_cast<Unread*>(from);
  if (unread.bytes.size() < count) return CAIRO_STATUS_READ_ERROR;
  std::copy_n(unread.bytes.begin(), count, to);
  unread.bytes.remove_prefix(count);
  return CAIRO_STATUS_SUCCESS;
}

// At the right, above all that is written; never larger than 60 x 22 mm.
cairo_status_t draw_logo(cairo_t* on, std::string const& png, Room size) {
  if (png.empty()) return CAIRO_STATUS_SUCCESS;
  Unread unread{png};
  Surface const picture(cairo_image_surface_create_from_png_stream(read_on, &unread));
  if (cairo_status_t const status = cairo_surface_status(picture.get()); status != CAIRO_STATUS_SUCCESS)
    return status;
  double const wide = cairo_image_surface_get_width(picture.get());
  double const high = cairo_image_surface_get_height(picture.get());
  double const scale = std::min(mm(60) / wide, mm(22) / high);
  cairo_save(on);
  cairo_translate(on, size.width - left - wide * scale, top);
  cairo_scale(on, scale, scale);
  cairo_set_source_surface(on, picture.get(), 0, 0);
  cairo_paint(on);
  cairo_restore(on);
  return CAIRO_STATUS_SUCCESS;
}

bool write(Document const& document, Page const& page, PdfFile& file, std::string& why) {
  Type type;
  Room const size = sheet(page.letter);
  Room const room{size.width - 2 * left, size.height - top - under};
  auto const pieces = pieces_of(type, document, page.mark, room);
  auto const pages = pages_of(pieces, room.height);
  Surface const surface(cairo_pdf_surface_create_for_stream(append, &file.bytes, size.width, size.height));
  describe(surface.get(), page);
  Context const on(cairo_create(surface.get()));
  cairo_status_t status = draw_logo(on.get(), page.logo, size);
  for (std::size_t number = 0; number < pages.size(); ++number) {
    for (Placed const& placed : pages[number]) placed.piece->draw(on.get(), left, top + placed.y);
    draw_foot(on.get(), type, page, number + 1, pages.size(), size, document.bench);
    cairo_show_page(on.get());
  }
  if (status == CAIRO_STATUS_SUCCESS) status = cairo_status(on.get());
  cairo_surface_finish(surface.get());
  if (status == CAIRO_STATUS_SUCCESS) status = cairo_surface_status(surface.get());
  file.without_letters = type.without_letters();
  file.typeface = type.typeface();
  if (status != CAIRO_STATUS_SUCCESS) why = cairo_status_to_string(status);
  return status == CAIRO_STATUS_SUCCESS;
}

}  // namespace
}  // namespace endband::cli::pdf

#define ENDBAND_SEEN __attribute__((visibility("default")))

extern "C" {
ENDBAND_SEEN extern char const* const endband_pdf_version;
char const* const endband_pdf_version = endband::cli::program_version.data();

ENDBAND_SEEN bool endband_write_pdf(endband::cli::Document const& document, endband::cli::Page const& page,
                                    endband::cli::PdfFile& file, std::string& why) {
  try {
    return endband::cli::pdf::write(document, page, file, why);
  } catch (std::exception const& failure) {
    why = failure.what();
    return false;
  }
}
}
