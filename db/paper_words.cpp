#include "db/paper_words.h"

#include <algorithm>
#include <array>

namespace endband::db {
namespace {

constexpr std::array words{
    PaperWord{"quotation", "Quotation"},
    PaperWord{"confirmation", "Order confirmation"},
    PaperWord{"receipt", "Receipt"},
    PaperWord{"for", "For"},
    PaperWord{"date", "Date"},
    PaperWord{"valid-until", "Valid until"},
    PaperWord{"state", "State"},
    PaperWord{"agreed", "Agreed"},
    PaperWord{"needed-on", "Needed on"},
    PaperWord{"your-book", "Your book"},
    PaperWord{"ordered", "What you order"},
    PaperWord{"delivery", "Delivery"},
    PaperWord{"discount", "Less"},
    PaperWord{"total", "Total to pay"},
    PaperWord{"of-which", "of which"},
    PaperWord{"deposit", "Deposit, to begin"},
    PaperWord{"balance", "Balance"},
    PaperWord{"options", "If you wish, not in the total"},
    PaperWord{"changes-by", "Changes it by"},
    PaperWord{"order", "Order"},
    PaperWord{"place-and-date", "Place and date"},
    PaperWord{"name", "Name"},
    PaperWord{"signature", "Signature"},
    PaperWord{"payments", "Payments"},
    PaperWord{"received", "Received"},
    PaperWord{"given-back", "Given back"},
    PaperWord{"paid-so-far", "Paid so far"},
    PaperWord{"still-due", "Still due"},
    PaperWord{"page", "Page"},
    PaperWord{"page-of", "of"},
};

}  // namespace

std::span<PaperWord const> paper_words() { return words; }

PaperWord const* paper_word(std::string_view name) {
  auto const found = std::ranges::find(words, name, &PaperWord::name);
  return found == words.end() ? nullptr : found;
}

}  // namespace endband::db
