#include "cli/drawings/labels.h"

#include "cli/document/text.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

constexpr double width = 88, height = 57;
constexpr double edge = 5;  // within a label
constexpr std::size_t across = 2, down = labels_a_sheet / across;

// As much of it as fits, with an ellipsis for the rest.
std::string cut_to(std::string const& words, double size) {
  double const room = width - 2 * edge;
  if (letters_width(words, size) <= room) return words;
  std::string kept;
  for (std::size_t at = 0; at < words.size();) {
    std::size_t const first = at;
    next_code_point(words, at);
    if (letters_width(kept + words.substr(first, at - first) + "...", size) > room) break;
    kept += words.substr(first, at - first);
  }
  return kept + "...";
}

void draw_label(Drawing& sheet, Label const& label, Point corner) {
  sheet.shapes.emplace_back(Rectangle{corner, width, height, Pen::thin, Fill::none});
  double y = corner.y + edge + 9;
  auto const line = [&](std::string const& words, double size, double next) {
    if (words.empty()) return;
    sheet.shapes.emplace_back(Text{{corner.x + edge, y}, cut_to(words, size), size, Anchor::start, false});
    y += next;
  };
  line(label.mark, 11, 7.5);
  line(label.name, 4.6, 7);
  line(label.size, 5.4, 6.5);
  for (std::string const& words : label.small) line(words, 3.5, 4.8);
}

}  // namespace

std::vector<Drawing> label_sheets(std::vector<Label> const& labels) {
  std::vector<Drawing> sheets;
  for (std::size_t first = 0; first < labels.size(); first += labels_a_sheet) {
    std::size_t const count = std::min(labels_a_sheet, labels.size() - first);
    Drawing& sheet = sheets.emplace_back();
    sheet.title = count == 1 ? "1 label, to cut out along its edges"
                             : fmt::format("{} labels, to cut apart along their edges", count);
    sheet.name = fmt::format("labels-{}", sheets.size());
    sheet.true_size = true;
    for (std::size_t i = 0; i < count; ++i) {
      Label const& label = labels[first + i];
      draw_label(sheet, label,
                 {static_cast<double>(i % across) * width, static_cast<double>(i / across) * height});
      sheet.words += fmt::format("{}{} {} {}", i == 0 ? "" : "; ", label.mark, label.name, label.size);
    }
    frame(sheet, 0.2);
  }
  static_assert(across * down == labels_a_sheet);
  return sheets;
}

}  // namespace endband::cli
