// The names of settings: type, range, value when never set.
#include "db/settings.h"

#include <array>

namespace endband::db {
namespace {

constexpr std::int64_t much =
    100'000'000;  // of the currency's main unit; its product with any share still fits

// clang-format off
constexpr std::array table{
    SettingRow{"maker.name", ValueType::words, "", "", "the workshop's name on its papers", 0, 0, "Alder Lane Bindery"},
    SettingRow{"maker.address", ValueType::words, "", "", "the workshop's address on its papers", 0, 0, "1 Alder Lane, Oxbury"},
    SettingRow{"maker.email", ValueType::words, "", "", "where customers write to", 0, 0, "bench@example.org"},
    SettingRow{"maker.logo", ValueType::words, "", "", "a PNG picture at the head of its papers: a file beside the workshop, or with its whole path", 0, 0, "mark.png"},
    SettingRow{"tax.mode", ValueType::choice, "none|added|included", "none", "whether prices carry tax, and how they are said", 0, 0, "included"},
    SettingRow{"tax.rate", ValueType::share, "", "", "the rate of that tax", 0, 100, "19 %"},
    SettingRow{"tax.name", ValueType::words, "", "tax", "what papers call that tax", 0, 0, "VAT"},
    SettingRow{"tax.recovered", ValueType::share, "", "0 %", "how much of the tax on purchases comes back", 0, 100, "100 %"},
    SettingRow{"price.step", ValueType::money, "", "", "prices are multiples of this; never set: any price", 0, much, "10"},
    SettingRow{"price.below", ValueType::money, "", "0", "each of those prices less this: 9.00 for a step of 10 and 1 below", 0, much, "1"},
    SettingRow{"deposit.share", ValueType::share, "", "0 %", "asked before work begins; never less than what the order makes one buy", 0, 100, "50 %"},
    SettingRow{"deposit.step", ValueType::money, "", "", "the deposit is rounded up to a multiple of this", 0, much, "5"},
    SettingRow{"quote.valid-days", ValueType::count, "", "30", "days that a quote stands", 0, 3650, "30"},
    SettingRow{"goal.margin", ValueType::share, "", "", "the margin asked when a quote names none", 0, 99, "35 %"},
    SettingRow{"contingency", ValueType::share, "", "0 %", "share of the cost put by for what goes wrong", 0, 99, "5 %"},
    SettingRow{"least.charge", ValueType::money, "", "0", "the least price of any book, without tax", 0, much, "60"},
    SettingRow{"least.hourly", ValueType::money, "", "0", "the least that an hour must earn", 0, much, "15"},
    SettingRow{"year.pay", ValueType::money, "", "", "a year's pay wanted", 0, much, "24000"},
    SettingRow{"year.charges", ValueType::money, "", "0", "a year's charges on that pay", 0, much, "4200"},
    SettingRow{"year.hours", ValueType::duration, "", "", "hours of a year that customers pay for", 1, 8784, "1100 h"},
    SettingRow{"enquiries.an-order", ValueType::number, "", "1", "enquiries answered for each order won; 1: lost ones sit in the overhead", 1, 1000, "3"},
    SettingRow{"learning.rate", ValueType::share, "", "95 %", "what the next copies take, with every doubling of their number; 100 %: nothing is learned", 50, 100, "90 %"},
    SettingRow{"learning.model", ValueType::choice, "unit|cumulative-average", "unit", "what falls at that rate: the time of each copy (Crawford), or the average of all so far (Wright)", 0, 0, "cumulative-average"},
    SettingRow{"learning.plateau", ValueType::count, "", "20", "the copy after which no time is saved any more; 0: it never stops", 0, 100'000, "12"},
    SettingRow{"overtime.share", ValueType::share, "", "50 %", "what an hour beyond the week's is paid over a plain one", 0, 400, "25 %"},
    SettingRow{"promise.confidence", ValueType::share, "", "80 %", "how sure the price shall be where a job is simulated: its contingency covers so many of a hundred", 50, 99, "90 %"},
    SettingRow{"stock.formula", ValueType::choice, "first-in-first-out|moving-average", "first-in-first-out", "what goods that are alike cost when they leave the shelf; fixed by the first movement", 0, 0, "moving-average"},
    SettingRow{"order.cost", ValueType::money, "", "", "what placing one order costs, in time and carriage; for order sizes", 0, much, "8"},
    SettingRow{"holding.share", ValueType::share, "", "", "what keeping goods for a year costs, as a share of their value; for order sizes", 0, 100, "20 %"},
    SettingRow{"cut.least-kept", ValueType::length, "", "80 mm", "an offcut is kept when both its sides are at least this long", 0, 2000, "100 mm"},
    SettingRow{"cut.kerf", ValueType::length, "", "0 mm", "what a saw or shears take away in board and wood; a knife takes nothing", 0, 20, "1.5 mm"},
    SettingRow{"maker.country", ValueType::words, "", "", "the workshop's country, two letters", 0, 0, "DE"},
    SettingRow{"tax-rate.*", ValueType::share, "", "", "the rate of the tax class of this name; endband rates tax sets it", 0, 100, "7 %"},
    SettingRow{"tax-class.*", ValueType::code, "", "", "the tax class of this component of a quote, or of carriage; else tax.rate", 0, 0, "reduced"},
    SettingRow{"tax.exempt-words", ValueType::words, "", "", "the owner's sentence on papers where no tax is charged", 0, 0, "No tax is charged: small business."},
    SettingRow{"exchange.*", ValueType::number, "", "", "units of the workshop's money for one of this currency; endband rates exchange sets it", 0, 1'000'000, "0.92"},
    SettingRow{"exchange-spread.*", ValueType::share, "", "0 %", "what changing this currency takes", 0, 50, "2 %"},
    SettingRow{"text.spec", ValueType::words, "", "", "the owner's text for a book made to a consumer's specification", 0, 0, "Made to your specification: no right of withdrawal."},
    SettingRow{"text.personal", ValueType::words, "", "", "the owner's text for a book made personal for a consumer", 0, 0, "Made personal for you: no right of withdrawal."},
    SettingRow{"text.options", ValueType::words, "", "", "the owner's text for a book picked from what is offered", 0, 0, "You may withdraw within 14 days."},
    SettingRow{"text.stock", ValueType::words, "", "", "the owner's text for a book that is finished already", 0, 0, "You may withdraw within 14 days."},
    SettingRow{"text.terms", ValueType::words, "", "", "the owner's terms on quotations and confirmations", 0, 0, "The balance is due before the book is sent."},
    SettingRow{"paper.numbers", ValueType::choice, "1234.50|1,234.50|1.234,50|1 234,50", "1234.50", "how numbers look on papers", 0, 0, "1.234,50"},
    SettingRow{"word.*", ValueType::words, "", "", "the owner's word on papers for the one of this name", 0, 0, "Zu zahlen"},
    SettingRow{"overhead.*", ValueType::money, "", "", "a year's overhead of this name", 0, much, "3600"},
    SettingRow{"covers.*", ValueType::code, "", "", "the material kind or step that the overhead of this name pays for", 0, 0, "abrasive"},
    SettingRow{"default.*", ValueType::words, "", "", "the value of a description's key when nobody says it", 0, 0, "linen-18-3"},
};
// clang-format on

}  // namespace

std::span<SettingRow const> setting_table() { return table; }

SettingRow const* setting_row(std::string_view name) {
  for (SettingRow const& row : table) {
    bool const family = row.name.ends_with(".*");
    std::string_view const stem = row.name.substr(0, row.name.size() - (family ? 1 : 0));
    if (family ? name.size() > stem.size() && name.starts_with(stem) : name == stem) return &row;
  }
  return nullptr;
}

}  // namespace endband::db
