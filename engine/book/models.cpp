// The starting points that are built in.
#include "engine/book/embedded.h"
#include "engine/book/spec.h"

#include <algorithm>
#include <array>

namespace endband {
namespace {

constexpr std::array rows{
    Model{"raised-cords", "a plain book in full leather on five raised cords", embedded::models_raised_cords},
    Model{"grimoire", "a thick book with lines in leaf, a lettered spine, corners and clasps",
          embedded::models_grimoire},
    Model{"recessed-cords", "a smooth-spined book in full leather on recessed cords, with a hollow back",
          embedded::models_recessed_cords},
    Model{"tapes", "a book on tapes with split boards and a French groove", embedded::models_tapes},
    Model{"case", "a cased book in cloth, rounded, with stuck-on endbands", embedded::models_case},
    Model{"half-leather", "a cased book in half leather with cloth sides", embedded::models_half_leather},
    Model{"quarter-cloth", "a flat-backed cased journal in quarter cloth with paper sides",
          embedded::models_quarter_cloth},
    Model{"link-stitch", "a sketchbook with a bare link-stitched spine and covered boards",
          embedded::models_link_stitch},
    Model{"long-stitch", "a journal sewn through a limp leather wrapper with a flap and a tie",
          embedded::models_long_stitch},
    Model{"single-section", "a slim pamphlet sewn into a paper wrapper", embedded::models_single_section},
    Model{"album", "an album in half leather whose leaves are filled out by guards", embedded::models_album},
    Model{"rebinding", "a customer's own text block, repaired and bound anew", embedded::models_rebinding},
    Model{"slipcased", "a plain book in full leather with a slipcase", embedded::models_slipcased},
    Model{"box", "a drop-spine box for a book that is there already", embedded::models_box},
};

}  // namespace

std::span<Model const> models() { return rows; }

Read<BookText> model_text(std::string_view name) {
  auto const it =
      std::find_if(rows.begin(), rows.end(), [&](Model const& model) { return model.name == name; });
  if (it != rows.end()) return read_description(it->text, std::string(name), description_keys());
  std::array<std::string_view, rows.size()> names;
  std::transform(rows.begin(), rows.end(), names.begin(), [](Model const& model) { return model.name; });
  return refuse({.code = FaultCode::unknown_code,
                 .where = {.source = {}, .line = 0, .column = 0, .field = "model"},
                 .found = std::string(name),
                 .expected = "a model of `endband book start --list`",
                 .near = nearest(name, names)});
}

}  // namespace endband
