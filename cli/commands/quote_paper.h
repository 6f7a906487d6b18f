// A quote as the customer reads it, made from a BuyerQuote and the workshop's letterhead; nothing else
// reaches it. Shown on the screen and printed.
#pragma once

#include "cli/command/args.h"
#include "cli/command/context.h"
#include "cli/document/document.h"
#include "cli/document/json.h"
#include "cli/words/paper_style.h"
#include "db/jobs.h"

#include <string>
#include <vector>

namespace endband::cli {

struct Letterhead {
  std::string name, address, email, country;
};

struct QuotePaper {
  std::string number, customer, customer_address, customer_country;
  Date valid_until;
  db::QuoteState state = db::QuoteState::open;
  std::vector<db::QuoteEvent> events;
  Letterhead maker;
  std::string owner_text;  // of the case the book is made to, and where no tax is charged
  std::string exempt_words;
  std::string terms;  // the owner's, of all orders
  PaperStyle style;
  BuyerQuote quote;
};

// Within one Reading. Faults: unknown_code.
Read<QuotePaper> quote_paper(db::Workshop& workshop, std::string_view number, Date on);

// How much of the price is told: the whole, or by component.
enum class PaperLevel : std::uint8_t { one_price, components };
Document paper_document(QuotePaper const& view, PaperLevel level);

// Its parts, for the papers that follow a quote.
void add_letterhead(Document& document, QuotePaper const& view);
void add_customer(KeyValues& about, QuotePaper const& view);
enum class PaperOptions : bool { left_out, listed };
void add_what_is_ordered(Document& document, QuotePaper const& view, PaperLevel level, PaperOptions options);
// What the paper calls things, in whatever form it is written.
std::string whole_words(BuyerQuote const& quote);  // "The book", "3 books"
std::string delivery_line(BuyerQuote const& quote,
                          PaperStyle const& style);  // "Delivery: collected at the workshop"
std::string when_ready(BuyerQuote const& quote);     // "when the book is ready"
// A paper that still holds says nothing of it; one that was decided on, or no longer holds, says so.
std::string state_words(QuotePaper const& view);

}  // namespace endband::cli
