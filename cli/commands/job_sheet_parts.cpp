#include "cli/commands/job_sheet_parts.h"

#include "cli/drawings/spelled.h"
#include "cli/words/buyer_words.h"
#include "cli/words/values.h"
#include "engine/book/copies.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

// What is on it of the order: never a name, never a price.
KeyValues head_of(JobSheet const& sheet) {
  FrozenQuote const& agreed = sheet.seen.agreed;
  db::JobHeader const& job = sheet.seen.job;
  KeyValues head;
  if (sheet.due) head.rows.emplace_back("To send by", date_text(*sheet.due));
  if (job.needed_on) head.rows.emplace_back("Needed on", date_text(*job.needed_on));
  std::string const customer = initials(job.quote.customer_name);
  head.rows.emplace_back("For", customer.empty() ? "the shelf" : customer);
  head.rows.emplace_back("Quote", db::number_text(job.quote.number));
  if (agreed.copies > 1) head.rows.emplace_back("Copies", std::to_string(agreed.copies));
  for (std::size_t i = 0; i < agreed.volumes.size(); ++i)
    head.rows.emplace_back(fmt::format("Volume {}", i + 1),
                           fmt::format("{}, {} pages, {} sections", agreed.volumes[i].title,
                                       agreed.volumes[i].pages, agreed.volumes[i].sections));
  for (InCustody const& left : agreed.custody)
    head.rows.emplace_back("The customer's own",
                           left.condition.empty() ? left.what : left.what + ", " + left.condition);
  return head;
}

// What waits for the customer's word, with a box for the day it came.
void add_gates(Document& document, JobSheet const& sheet) {
  if (sheet.seen.record.gates.empty()) return;
  Table table{{{"Waits for the customer's word"}, {"Since"}, {"Approved on", Align::left, 0, true}}, {}};
  for (Gate const& gate : sheet.seen.record.gates) table.add({gate.name, date_text(gate.since), ""});
  document.add(std::move(table));
}

void add_title(Document& document, JobSheet const& sheet) {
  std::vector<std::string> titles;
  for (std::size_t i = 0; i < sheet.volumes.size(); ++i) {
    BookSpec const book = volume_of(sheet.book, i);
    if (book.has(Part::lettering) && !book.letters.empty()) titles.push_back(book.letters);
  }
  if (titles.empty()) return;
  document.heading("Title, letter by letter", 2);
  for (std::string const& title : titles) document.add(draw_spelled(title, sheet.room()));
}

void add_notes(Document& document) {
  document.heading("Notes", 2);
  for (int line = 0; line < 2; ++line) document.add(SignHere{{""}});
}

}  // namespace

std::string initials(std::string_view name) {
  std::vector<std::string> large, all;
  bool begins = true;
  for (std::string const& letter : letters_apart(name)) {
    bool const apart = letter == " " || letter == "-";
    if (begins && !apart) {
      all.push_back(letter + ".");
      bool const small = letter.front() >= 'a' && letter.front() <= 'z';  // "of", "the"
      if (!small) large.push_back(letter + ".");
    }
    begins = apart;
  }
  return fmt::format("{}", fmt::join(large.empty() ? all : large, " "));
}

Document sheet_document(JobSheet const& sheet) {
  Document document;
  document.paper = true;
  document.bench = true;
  FrozenQuote const& agreed = sheet.seen.agreed;
  document.heading(
      fmt::format("Job {}: {}", sheet.seen.job.number, agreed.title.empty() ? "a book" : agreed.title));
  document.add(head_of(sheet));
  document.paragraph(binding_words(for_buyer(agreed)));
  if (!sheet.as_agreed)
    document.notice(
        NoticeKind::warning,
        "The workshop's habits or the rules were changed since the quote was made: pieces and figures are "
        "those of the quote, drawings may differ from them. Measure before you cut.");
  add_gates(document, sheet);
  add_title(document, sheet);
  add_notes(document);
  add_days(document, sheet);
  document.add(PageBreak{});
  add_stages(document, sheet);
  document.add(PageBreak{});
  add_goods(document, sheet);
  document.add(PageBreak{});
  add_sheet_cuts(document, sheet);
  add_making(document, sheet);
  return document;
}

}  // namespace endband::cli
