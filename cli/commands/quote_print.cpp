// A quote as a page to send or to lay on paper: HTML, PDF, or an open form.
#include "cli/commands/commands.h"
#include "cli/commands/explained.h"
#include "cli/commands/logo.h"
#include "cli/commands/on_cover.h"
#include "cli/commands/paper_file.h"
#include "cli/commands/quote_paper.h"
#include "cli/drawings/closed_book.h"
#include "cli/forms/ubl_quotation.h"
#include "cli/words/values.h"
#include "db/quotes.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace endband::cli {
namespace {

struct QuotePrinted {
  std::string number, level;
  PaperFile written;
  bool dry_run = false;
};

Json to_json(QuotePrinted const& view) {
  return Json::Object{{"dry_run", view.dry_run},
                      {"quote", view.number},
                      {"level", view.level},
                      {"file", view.written.file},
                      {"notices", notices_json(view.written)}};
}

Document to_document(QuotePrinted const& view) {
  Document document;
  add_written(document, "Quotation " + view.number, view.written, view.dry_run);
  if (!view.dry_run) document.next(fmt::format("endband quote send {} --words \"by letter\"", view.number));
  return document;
}

constexpr std::array<std::string_view, 3> levels{"one-price", "components", "internal"};
constexpr std::array forms{PaperForm::html, PaperForm::pdf, PaperForm::ubl};

struct Asked {
  std::string level;
  PaperForm form = PaperForm::html;
};

// What a form cannot be.
Read<Asked> asked(Args const& args) {
  std::string const level = args.text("--level").value_or("components");
  if (std::ranges::find(levels, level) == levels.end())
    return refuse({FaultCode::bad_value, args.where("--level"), level, "one-price, components or internal",
                   nearest(level, levels)});
  auto const form = paper_form(args, forms);
  if (!form) return tl::unexpected(form.error());
  if (*form == PaperForm::ubl && level == "internal")
    return refuse({FaultCode::contradiction,
                   args.where("--level"),
                   "internal",
                   "one-price or components: UBL is what the customer gets, and the internal page is not",
                   {}});
  if (*form == PaperForm::ubl && args.has("--letter"))
    return refuse({FaultCode::contradiction,
                   args.where("--letter"),
                   "--letter",
                   "--as html or pdf: UBL is not laid on paper",
                   {}});
  return Asked{level, *form};
}

// The buyer's page, with the book drawn and a place to sign while the quote can still be taken.
NewPaper buyers_paper(QuotePaper const& quote, PaperLevel level, OnCover const& cover) {
  Document document = paper_document(quote, level);
  if (auto drawing = draw_closed_book(quote.quote, cover)) document.add(std::move(*drawing));
  PaperStyle const& style = quote.style;
  if (quote.state == db::QuoteState::open || quote.state == db::QuoteState::sent) {
    document.heading(style.word("order"), 2);
    document.paragraph(fmt::format(
        "I order what is described above by quotation {}, with the options that are ticked.", quote.number));
    document.add(SignHere{{style.word("place-and-date"), style.word("name"), style.word("signature")}});
  }
  std::string const name = fmt::format("{} {}", style.word("quotation"), quote.number);
  return {std::move(document), page_of(style, name, quote.quote.on), "quotation-" + quote.number};
}

NewPaper internal_paper(db::Workshop& workshop, db::QuoteHeader const& header) {
  std::string const number = db::number_text(header.number);
  std::string const name = fmt::format("Quotation {}, internal", number);
  return {to_document(Explained{header, db::load_quote(workshop, header.id), {}}),
          {.title = name,
           .foot = name,
           .mark = "INTERNAL: costs, hours and suppliers. Not for the customer.",
           .written_on = date_text(header.on)},
          fmt::format("quotation-{}-internal", number)};
}

PaperLevel buyers_level(std::string const& level) {
  return level == "one-price" ? PaperLevel::one_price : PaperLevel::components;
}

Read<PaperFile> written(Context& context, db::Workshop& workshop, Args const& args,
                        db::QuoteHeader const& header, Asked const& asked) {
  db::Reading const reading(workshop);
  if (asked.level == "internal") return write_paper(context, args, internal_paper(workshop, header));
  auto const quote = quote_paper(workshop, db::number_text(header.number), context.on);
  if (!quote) return tl::unexpected(quote.error());
  PaperLevel const level = buyers_level(asked.level);
  if (asked.form == PaperForm::ubl)
    return write_text(context, args, "quotation-" + quote->number + ".xml", to_ubl(*quote, level));
  auto const cover = on_cover(workshop, db::load_quote(workshop, header.id));
  NewPaper paper = buyers_paper(*quote, level, cover.value_or(OnCover{}));
  auto logo = logo_of(context, workshop, header.on);
  if (!logo) return tl::unexpected(std::move(logo.error()));
  paper.page.logo = std::move(*logo);
  if (!cover) paper.notices.emplace_back(cover_not_known);
  return write_paper(context, args, std::move(paper));
}

Read<Answer> run(Context& context, Args const& args) {
  auto const what = asked(args);
  if (!what) return tl::unexpected(what.error());
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto const header = db::find_quote(**workshop, args.word(0));
  if (!header) return tl::unexpected(header.error());
  auto file = written(context, **workshop, args, *header, *what);
  if (!file) return tl::unexpected(std::move(file.error()));
  return Answer(
      QuotePrinted{db::number_text(header->number), what->level, std::move(*file), context.dry_run});
}

std::vector<Flag> flags() {
  std::vector<Flag> all = paper_flags(FlagType::quote_form, "html (unless said), pdf, or ubl");
  all.insert(all.begin(), {"--level", FlagType::level, "one-price, components (unless said), or internal"});
  return all;
}

}  // namespace

Command quote_print() {
  return {
      .noun = "quote",
      .verb = "print",
      .summary = "Write a quote as a page to send or to print",
      .about =
          "As HTML, one file that needs no other: any browser shows it, on a small screen too, and prints "
          "it. As "
          "PDF, pages that come out the same everywhere. The buyer's page has no cost, hour, rate or "
          "supplier in "
          "it; the internal one has, and says so. --as ubl writes it for the customer's own program: a "
          "Quotation "
          "of OASIS UBL 2.1, in XML.",
      .words = {{"NUMBER", FlagType::quote, "the quote's number: 26-001a, or 26-001 for its latest issue"}},
      .flags = flags(),
      .examples = {"quote print 26-001", "quote print 26-001 --level one-price -o offer.pdf"},
      .refused_when = "",
      .writes = true,
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
