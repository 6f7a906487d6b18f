// Labels for lots: skins, offcuts and whatever else has to be found again on a shelf.
#include "cli/commands/commands.h"
#include "cli/commands/paper_file.h"
#include "cli/commands/stock_parts.h"
#include "cli/drawings/labels.h"
#include "cli/words/values.h"
#include "db/materials.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

struct Labelled {
  std::vector<std::string> lots;
  PaperFile written;
  bool dry_run = false;
};

Json to_json(Labelled const& view) {
  auto const words_json = [](std::string const& words) { return Json(words); };
  return Json::Object{{"dry_run", view.dry_run},
                      {"lots", json_array(view.lots, words_json)},
                      {"file", view.written.file},
                      {"notices", notices_json(view.written)}};
}

Document to_document(Labelled const& view) {
  Document document;
  document.paragraph(fmt::format("{} label{} {} in {}: {}.", view.lots.size(),
                                 view.lots.size() == 1 ? "" : "s",
                                 view.dry_run ? "would be" : (view.lots.size() == 1 ? "is" : "are"),
                                 view.written.file, listed(view.lots)));
  for (std::string const& notice : view.written.notices) document.notice(NoticeKind::warning, notice);
  return document;
}

Label label_of(db::LotRow const& lot) {
  Label label{lot_text(lot), lot.name, left_words(lot), {lot.code}};
  auto const say = [&](std::string_view what, std::string const& words) {
    if (!words.empty()) label.small.push_back(fmt::format("{} {}", what, words));
  };
  say("cut from", lot.parent);
  say("of job", lot.job);
  say("belongs to", lot.owner);
  say("batch", lot.batch);
  say("since", date_text(lot.since));
  if (lot.keeps_until) say("use by", date_text(*lot.keeps_until));
  say("place", lot.place);
  return label;
}

// Those named; else every offcut and every skin that lies there.
Read<std::vector<db::LotRow>> lots_meant(db::Workshop& workshop, Args const& args) {
  std::vector<db::LotRow> lots;
  std::vector<Fault> faults;
  for (std::size_t i = 0; i < args.word_count(); ++i) {
    auto lot = located(db::find_lot(workshop, args.word(i)), args.where("LOT"));
    if (lot)
      lots.push_back(std::move(*lot));
    else
      faults.insert(faults.end(), lot.error().begin(), lot.error().end());
  }
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  if (args.word_count() > 0) return lots;
  lots = db::lots(workshop, std::nullopt, false);
  std::erase_if(lots, [](db::LotRow const& lot) {
    return lot.source != LotSource::kept && lot.sold_by != SoldBy::skin;
  });
  return lots;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  Labelled view{{}, {}, context.dry_run};
  Document document;
  PaperStyle style;
  {
    db::Reading const reading(**workshop);
    auto const lots = lots_meant(**workshop, args);
    if (!lots) return tl::unexpected(lots.error());
    if (lots->empty())
      return refuse(
          {FaultCode::rule_refused, args.where("LOT"), "", "no skins or offcuts are on the shelf", {}});
    std::vector<Label> labels;
    for (db::LotRow const& lot : *lots) {
      labels.push_back(label_of(lot));
      view.lots.push_back(lot_text(lot));
    }
    for (Drawing& sheet : label_sheets(labels)) {
      if (!document.blocks.empty()) document.add(PageBreak{});
      document.add(std::move(sheet));
    }
    style = paper_style(**workshop, context.on);
  }
  auto written =
      write_paper(context, args, {std::move(document), page_of(style, "Labels", context.on), "labels"});
  if (!written) return tl::unexpected(std::move(written.error()));
  view.written = std::move(*written);
  return Answer(std::move(view));
}

}  // namespace

Command stock_label() {
  return {.noun = "stock",
          .verb = "label",
          .summary = "Write labels for skins, offcuts and other lots, to print and cut apart",
          .about =
              "Eight to a page, each 88 x 57 mm at true size. Without a lot: one for every skin and offcut "
              "on the shelf.",
          .words = {{.name = "LOT",
                     .type = FlagType::lot,
                     .help = "a lot's mark: L3, K1",
                     .needed = false,
                     .many = true}},
          .flags = paper_flags(),
          .examples = {"stock label -o labels.pdf", "stock label K1 -o k1.html"},
          .refused_when = "there is nothing to label",
          .writes = true,
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
