// What is cut of what, and the drawings to cut by: no money stands beside them.
#include "cli/commands/cut_words.h"
#include "cli/commands/job_sheet_parts.h"
#include "cli/words/book_words.h"
#include "cli/words/making_words.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace endband::cli {
namespace {

bool is_of(Piece const& piece, CutFor const& cut) {
  return piece.item == cut.item && piece.volume == cut.volume && piece.height == cut.height &&
         piece.width == cut.width;
}

// "cut 2, L4" for each piece of stock that it comes from.
std::string from_words(CutMaterial const& cut, int number) {
  std::vector<std::string> words;
  for (CutUse const& use : cut.uses) {
    bool const of_it =
        std::ranges::any_of(use.counts, [&](auto const& each) { return each.first == number; });
    if (!of_it) continue;
    std::string const& mark = cut.stock.at(static_cast<std::size_t>(use.stock)).mark;
    words.push_back(fmt::format("cut {}, {}", use.number, mark.empty() ? "new" : mark));
  }
  return fmt::format("{}", fmt::join(words, "\n"));
}

// Its number in the drawings of the material; none: it is not cut by plan.
struct Numbered {
  CutMaterial const* cut = nullptr;
  int number = 0;
};
Numbered numbered(CutShown const& cuts, Piece const& piece) {
  for (CutMaterial const& cut : cuts.materials) {
    if (cut.material.id != piece.material) continue;
    for (std::size_t i = 0; i < cut.request.pieces.size(); ++i)
      if (is_of(piece, cut.request.pieces[i])) return {&cut, static_cast<int>(i)};
  }
  return {};
}

std::string why_left_out(CutShown const& cuts, std::string const& code) {
  auto const found = std::ranges::find(cuts.left_out, code, &CutLeftOut::code);
  return found == cuts.left_out.end() ? "" : found->why;
}

Table piece_table(JobSheet const& sheet) {
  Table table{{{"Cut", Align::left, 0, true},
               {"Piece"},
               {"Count", Align::right},
               {"Height mm", Align::right},
               {"Width mm", Align::right},
               {"Grain"},
               {"From"}},
              {}};
  FrozenQuote const& agreed = sheet.seen.agreed;
  std::vector<MaterialId> told;
  for (Piece const& first : agreed.pieces) {
    if (std::ranges::find(told, first.material) != told.end()) continue;
    told.push_back(first.material);
    Material const* const material = material_of(agreed.materials, first.material);
    std::string const why = material == nullptr ? "" : why_left_out(sheet.cuts, material->code);
    table.add({" ", material_name(agreed.materials, first.material) + (why.empty() ? "" : "\n" + why), "", "",
               "", "", ""});
    for (Piece const& piece : agreed.pieces) {
      if (piece.material != first.material) continue;
      Numbered const number = numbered(sheet.cuts, piece);
      std::string words(item_words(piece.item));
      if (number.cut != nullptr) words = fmt::format("{}. {}", number.number + 1, words);
      if (std::string const how = cutting_words(piece); !how.empty()) words += "\n" + how;
      table.add({"", std::move(words), std::to_string(piece.count), tenths_mm(piece.height),
                 tenths_mm(piece.width), std::string(grain_words(piece.grain)),
                 number.cut == nullptr ? "" : from_words(*number.cut, number.number)});
    }
  }
  return table;
}

Drawing const* drawing_of(CutShown const& cuts, CutUse const& use) {
  auto const found = std::ranges::find(cuts.drawings, fmt::format("cut-{}", use.number), &Drawing::name);
  return found == cuts.drawings.end() ? nullptr : &*found;
}

// The drawing has its own title: what is cut, of what.
void add_use(Document& document, JobSheet const& sheet, CutMaterial const& cut, CutUse const& use) {
  std::string words = fmt::format("Cut {}: {}", use.number, cut_from_words(cut, use));
  if (use.times > 1) words += fmt::format(", {} of them alike", use.times);
  if (std::string const left = cut_left_words(use); !left.empty()) words += "; " + left;
  if (Drawing const* const drawing = drawing_of(sheet.cuts, use)) document.add(*drawing);
  document.paragraph(words + ".");
  if (!use.steps.empty()) document.add(cut_steps_table(cut, use));
}

}  // namespace

void add_sheet_cuts(Document& document, JobSheet const& sheet) {
  if (sheet.seen.agreed.pieces.empty()) return;
  document.heading("To cut");
  document.paragraph(
      "Height by width; the grain runs along what is named. Numbers are those in the drawings, which are "
      "measured from "
      "the upper left corner.");
  document.notice(NoticeKind::caution,
                  "Knives and shears: cut away from the hand that holds, and guard the board shears as their "
                  "maker says.");
  document.add(piece_table(sheet));
  bool first = true;
  for (CutMaterial const& cut : sheet.cuts.materials) {
    if (!cut.planned())
      for (std::string const& words : cut_obstacle_words(cut))
        document.notice(NoticeKind::warning, cut.material.name + ": " + words);
    for (CutUse const& use : cut.uses) {
      if (std::exchange(first, false)) document.add(PageBreak{});
      add_use(document, sheet, cut, use);
    }
  }
}

}  // namespace endband::cli
