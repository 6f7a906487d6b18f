// A quote as a page to send or to lay on paper: one HTML file that needs no other.
#include "cli/commands/commands.h"
#include "cli/commands/explained.h"
#include "cli/commands/quote_paper.h"
#include "cli/document/html.h"
#include "cli/drawings/closed_book.h"
#include "cli/process/put_files.h"
#include "cli/words/values.h"
#include "db/quotes.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace endband::cli {
namespace {

struct QuotePrinted {
  std::string number, file;
  std::string level;
  bool dry_run = false;
};

Json to_json(QuotePrinted const& view) {
  return Json::Object{
      {"dry_run", view.dry_run}, {"quote", view.number}, {"level", view.level}, {"file", view.file}};
}

Document to_document(QuotePrinted const& view) {
  Document document;
  document.paragraph(
      fmt::format("Quotation {} {} {}.", view.number, view.dry_run ? "would be in" : "is in", view.file));
  if (!view.dry_run) document.next(fmt::format("endband quote send {} --words \"by letter\"", view.number));
  return document;
}

constexpr std::array<std::string_view, 3> levels{"one-price", "components", "internal"};

// The buyer's page, with the book drawn and a place to sign while the quote can still be taken.
std::string buyers_page(QuotePaper const& paper, PaperLevel level, bool letter) {
  Document document = paper_document(paper, level);
  if (auto drawing = draw_closed_book(paper.quote)) document.add(std::move(*drawing));
  if (paper.state == db::QuoteState::open || paper.state == db::QuoteState::sent) {
    document.heading("Order", 2);
    document.paragraph(fmt::format(
        "I order what is described above by quotation {}, with the options that are ticked.", paper.number));
    document.add(SignHere{{"Place and date", "Name", "Signature"}});
  }
  return to_html(document, {.title = "Quotation " + paper.number,
                            .foot = "Quotation " + paper.number,
                            .mark = {},
                            .letter = letter});
}

std::string internal_page(db::Workshop& workshop, db::QuoteHeader const& header, bool letter) {
  Document const document = to_document(Explained{header, db::load_quote(workshop, header.id), {}});
  std::string const name = "Quotation " + db::number_text(header.number);
  return to_html(document, {.title = name + ", internal",
                            .foot = name + ", internal",
                            .mark = "INTERNAL: costs, hours and suppliers. Not for the customer.",
                            .letter = letter});
}

Read<std::string> page(Context& context, db::Workshop& workshop, Args const& args,
                       db::QuoteHeader const& header, std::string const& level) {
  db::Reading const reading(workshop);
  bool const letter = args.has("--letter");
  if (level == "internal") return internal_page(workshop, header, letter);
  auto const paper = quote_paper(workshop, db::number_text(header.number), context.on);
  if (!paper) return tl::unexpected(paper.error());
  return buyers_page(*paper, level == "one-price" ? PaperLevel::one_price : PaperLevel::components, letter);
}

Read<Answer> run(Context& context, Args const& args) {
  std::string const level = args.text("--level").value_or("components");
  if (std::ranges::find(levels, level) == levels.end())
    return refuse({FaultCode::bad_value, args.where("--level"), level, "one-price, components or internal",
                   nearest(level, levels)});
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto const header = db::find_quote(**workshop, args.word(0));
  if (!header) return tl::unexpected(header.error());
  std::string const number = db::number_text(header->number);
  std::string const file =
      args.text("--output")
          .value_or(fmt::format("quotation-{}{}.html", number, level == "internal" ? "-internal" : ""));
  FilePlace const place = place_of(file);
  auto html = page(context, **workshop, args, *header, level);
  if (!html) return tl::unexpected(std::move(html.error()));
  std::vector<NewFile> const files{{place.name, std::move(*html)}};
  if (!context.yes && !files_there(place.folder, files).empty())
    return refuse({FaultCode::already_exists, args.where("--output"), file, "--yes, to write over it", {}});
  if (!context.dry_run)
    if (auto const put = put_files(place.folder, files); !put) return tl::unexpected(put.error());
  return Answer(QuotePrinted{number, file, level, context.dry_run});
}

}  // namespace

Command quote_print() {
  return {
      .noun = "quote",
      .verb = "print",
      .summary = "Write a quote as a page to send or to print",
      .about =
          "One HTML file that needs no other: any browser shows it, on a small screen too, and prints it on "
          "paper. The "
          "buyer's page has no cost, hour, rate or supplier in it; the internal one has, and says so.",
      .words = {{"NUMBER", FlagType::code, "the quote's number: 26-001a, or 26-001 for its latest issue"}},
      .flags = {{"--level", FlagType::code, "one-price, components (unless said), or internal"},
                {"--output", FlagType::file, "the file to write; else quotation-NUMBER.html", 'o'},
                {"--letter", FlagType::on, "for US Letter paper; else A4"}},
      .examples = {"quote print 26-001", "quote print 26-001 --level one-price -o offer.html"},
      .refused_when = "",
      .writes = true,
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
