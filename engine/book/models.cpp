// The starting points that are built in.
#include "engine/book/embedded.h"
#include "engine/book/spec.h"

#include <algorithm>
#include <array>

namespace endband {
namespace {

constexpr std::array rows{
    Model{"raised-cords", "a plain book in full leather on five raised cords", embedded::raised_cords},
    Model{"grimoire", "a thick book with lines in leaf, a lettered spine, corners and clasps",
          embedded::grimoire},
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
