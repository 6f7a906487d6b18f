#include "cli/commands/cut_shown.h"

#include "cli/commands/cut_words.h"
#include "cli/commands/drawn.h"
#include "cli/document/svg.h"
#include "cli/drawings/cut_drawing.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

std::string size_of(CutMaterial const& cut, CutFor const& piece) {
  bool const length = std::holds_alternative<cutting::LengthRequest>(cut.request.asked);
  return length ? tenths_mm(piece.height) : cut_size_words(piece.height, piece.width);
}

CutNames names_of(CutMaterial const& cut, CutUse const& use, std::vector<std::string> const& orders,
                  std::string const& of) {
  CutNames names;
  names.of = of;
  names.stock = fmt::format("{}, {}", cut.material.name, cut_from_words(cut, use));
  names.guess = cut.stock.at(static_cast<std::size_t>(use.stock)).guess;
  for (CutFor const& piece : cut.request.pieces) {
    std::string words = cut_piece_words(piece);
    if (!orders.empty()) words += ", " + orders.at(static_cast<std::size_t>(piece.order));
    names.pieces.push_back(std::move(words));
    names.sizes.push_back(size_of(cut, piece));
  }
  return names;
}

std::vector<NewFile> files_of(CutShown const& shown) {
  std::vector<NewFile> files;
  for (Drawing const& drawing : shown.drawings) files.push_back({cut_drawing_file(drawing), to_svg(drawing)});
  return files;
}

}  // namespace

std::string cut_drawing_file(Drawing const& drawing) { return drawing.name + ".svg"; }

bool CutShown::all_planned() const {
  return std::ranges::all_of(materials, [](CutMaterial const& cut) { return cut.planned(); });
}

std::optional<Drawing> cut_drawing(CutShown const& shown, CutMaterial const& cut, CutUse const& use,
                                   std::string const& of, OnPaper const& on) {
  return draw_cut(use, names_of(cut, use, shown.orders, of), on);
}

std::vector<Drawing> cut_drawings(CutShown const& shown, std::string const& of) {
  std::vector<Drawing> drawings;
  for (CutMaterial const& cut : shown.materials)
    for (CutUse const& use : cut.uses)
      if (auto drawing = cut_drawing(shown, cut, use, of)) drawings.push_back(std::move(*drawing));
  return drawings;
}

Read<void> may_write_cut_drawings(Context const& context, Args const& args, CutShown const& shown) {
  return may_draw(context, args, shown.folder, files_of(shown));
}

Read<void> write_cut_drawings(Context const& context, CutShown const& shown) {
  return draw_files(context, shown.folder, files_of(shown));
}

std::int64_t cut_work(Args const& args) { return args.get<std::int64_t>("--work").value_or(CutRules{}.work); }

}  // namespace endband::cli
