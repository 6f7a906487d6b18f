// The elements stand in the order of UBL-Quotation-2.1.xsd. Three things that a quotation of ours says have
// no place of their own in it:
// - The deposit. PrepaidAmount is what was paid already, and would be taken off the price; so deposit and
// balance
//   are trading conditions.
// - Options. An AlternativeLineItem stands instead of one line, while an option of ours changes the whole
// price,
//   with its tax; so each is a note, and in no sum.
// - The day it is ready, which holds only if the customer's word comes in time: an estimated day of despatch,
// and
//   the sentence with its condition among the delivery terms.
#include "cli/forms/ubl_quotation.h"

#include "cli/document/markup.h"
#include "cli/forms/net_form.h"
#include "cli/words/buyer_words.h"
#include "cli/words/order_words.h"
#include "cli/words/values.h"

#include <fmt/format.h>
#include <pugixml.hpp>

#include <algorithm>
#include <array>
#include <sstream>

namespace endband::cli {
namespace {

constexpr char const* quotation_space = "urn:oasis:names:specification:ubl:schema:xsd:Quotation-2";
constexpr char const* aggregate_space =
    "urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2";
constexpr char const* basic_space = "urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2";

// UN/ECE Recommendation 20.
constexpr char const* book_unit = "D63";
constexpr char const* set_unit = "SET";
constexpr char const* piece_unit = "H87";
constexpr char const* lump_sum = "LS";

// An element of parts ("cac") or of one value ("cbc"). What is empty is left out: UBL has no empty elements.
class Element {
 public:
  explicit Element(pugi::xml_node node) : node_(node) {}

  Element part(char const* name) { return Element(node_.append_child(("cac:" + std::string(name)).c_str())); }

  pugi::xml_node value(char const* name, std::string_view text) {
    pugi::xml_node const child = node_.append_child(("cbc:" + std::string(name)).c_str());
    child.text().set(xml_characters(text, true).c_str());
    return child;
  }
  void words(char const* name, std::string_view text) {
    if (!text.empty()) value(name, text);
  }
  void amount(char const* name, Money money) {
    value(name, money_text(money)).append_attribute("currencyID") =
        std::string(money.currency.code()).c_str();
  }
  void quantity(char const* name, std::int64_t count, char const* unit) {
    value(name, std::to_string(count)).append_attribute("unitCode") = unit;
  }

 private:
  pugi::xml_node node_;
};

// 19 %: "19"; 5.5 %: "5.5". A rate is read with at most nine decimals.
std::string percent_figure(Ratio rate) {
  std::int64_t const units = 10'000'000;
  std::int64_t const whole = round_product(rate, Ratio(100 * units), Rounding::half_away);
  std::string text = fmt::format("{}.{:07}", whole / units, whole % units);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

std::vector<std::string> lines_of(std::string const& text) {
  std::istringstream in(text);
  std::vector<std::string> lines;
  for (std::string line; std::getline(in, line);)
    if (!line.empty()) lines.push_back(line);
  return lines;
}

class Quotation {
 public:
  Quotation(QuotePaper const& paper, PaperLevel level)
      : paper_(paper), quote_(paper.quote), form_(net_form(paper.quote, level)), root_(root_node()) {
    add_head();
    add_notes();
    add_validity();
    add_parties();
    add_delivery();
    add_conditions();
    for (NetChange const& change : form_.discounts)
      add_change(change, quote_.discount_reason.empty() ? "trade discount" : quote_.discount_reason);
    for (NetChange const& change : form_.carriage) add_change(change, delivery_line(quote_, paper_.style));
    add_taxes();
    add_totals();
    for (std::size_t i = 0; i < form_.lines.size(); ++i) add_line(i + 1, form_.lines[i]);
  }

  std::string text() const {
    std::ostringstream out;
    document_.save(out, "  ", pugi::format_indent | pugi::format_no_declaration, pugi::encoding_utf8);
    return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + out.str();
  }

 private:
  pugi::xml_node root_node() {
    pugi::xml_node root = document_.append_child("Quotation");
    root.append_attribute("xmlns") = quotation_space;
    root.append_attribute("xmlns:cac") = aggregate_space;
    root.append_attribute("xmlns:cbc") = basic_space;
    return root;
  }

  void add_head() {
    root_.value("UBLVersionID", "2.1");
    root_.value("ID", paper_.number);
    root_.value("IssueDate", date_text(quote_.on));
  }

  void note(std::string const& text) { root_.words("Note", text); }

  void add_notes() {
    if (std::string const state = state_words(paper_); !state.empty())
      note("This quotation no longer stands: " + state + ".");
    note((quote_.title.empty() ? std::string() : quote_.title + ". ") + binding_words(quote_));
    for (std::size_t i = 0; i < quote_.volumes.size(); ++i) add_volume(i + 1, quote_.volumes[i]);
    if (quote_.copies > 1) note(copies_words(quote_.copy_prices, what_is_ordered()));
    note(shares_words(quote_.set_shares));
    for (BuyerOption const& option : quote_.options) add_option(option);
    if (quote_.repairs) note(repairs_words(*quote_.repairs));
    for (InCustody const& left : quote_.custody)
      note("In our care: " + custody_words(left) + ". It stays yours.");
    for (std::string const& notice : notice_words(quote_)) note(notice);
    root_.value("PricingCurrencyCode", quote_.total.currency.code());
    root_.value("LineCountNumeric", std::to_string(form_.lines.size()));
  }

  void add_volume(std::size_t number, VolumeMade const& volume) {
    note(fmt::format("Volume {}{}: {} pages, closed about {} x {} x {}.", number,
                     volume.title.empty() ? "" : ", " + volume.title, volume.pages,
                     millimetres(volume.height), millimetres(volume.width), millimetres(volume.thickness)));
  }

  void add_option(BuyerOption const& option) {
    bool const one_of_several =
        !option.either.empty() && std::ranges::count(quote_.options, option.either, &BuyerOption::either) > 1;
    note(fmt::format("If you wish, not in the total: {}. It changes what there is to pay by {} {}.{}",
                     option.words, signed_text(option.shown), option.shown.currency.code(),
                     one_of_several ? fmt::format(" Of the options for {} only one can be.", option.either)
                                    : std::string()));
  }

  void add_validity() {
    Element period = root_.part("ValidityPeriod");
    period.value("StartDate", date_text(quote_.on));
    period.value("EndDate", date_text(paper_.valid_until));
  }

  void add_party(Element party, std::string const& name, std::string const& address,
                 std::string const& country, std::string const& email) {
    if (name.empty() && address.empty() && email.empty() && country.empty()) return;
    Element inner = party.part("Party");
    if (!name.empty()) inner.part("PartyName").value("Name", name);
    if (std::vector<std::string> const lines = lines_of(address); !lines.empty() || !country.empty()) {
      Element place = inner.part("PostalAddress");
      for (std::string const& line : lines) place.part("AddressLine").value("Line", line);
      bool const code =
          country.size() == 2 && std::ranges::all_of(country, [](char c) { return c >= 'A' && c <= 'Z'; });
      if (!country.empty()) place.part("Country").value(code ? "IdentificationCode" : "Name", country);
    }
    if (!email.empty()) inner.part("Contact").value("ElectronicMail", email);
  }

  void add_parties() {
    Letterhead const& maker = paper_.maker;
    add_party(root_.part("SellerSupplierParty"), maker.name, maker.address, maker.country, maker.email);
    if (!paper_.customer.empty())
      add_party(root_.part("BuyerCustomerParty"), paper_.customer, paper_.customer_address,
                paper_.customer_country, "");
  }

  void add_delivery() {
    if (quote_.ready_by)
      root_.part("Delivery").part("Despatch").value("EstimatedDespatchDate", date_text(*quote_.ready_by));
    Element terms = root_.part("DeliveryTerms");
    terms.value("SpecialTerms", delivery_line(quote_, paper_.style));
    terms.words("SpecialTerms", ready_words(quote_));
  }

  void add_conditions() {
    std::vector<std::string> words;
    if (quote_.deposit.minor > 0)
      words.push_back(fmt::format("Deposit, to begin: {}. Balance, {}: {}.", money_words(quote_.deposit),
                                  when_ready(quote_), money_words(quote_.balance)));
    if (!paper_.owner_text.empty()) words.push_back(paper_.owner_text);
    if (words.empty()) return;
    Element conditions = root_.part("TransactionConditions");
    for (std::string const& each : words) conditions.value("Description", each);
  }

  // A tax is told by its name; the name that is also a code of UN/ECE 5153, by that.
  void add_scheme(Element category) {
    Element scheme = category.part("TaxScheme");
    if (same_words(quote_.tax_name, "VAT") || same_words(quote_.tax_name, "GST"))
      scheme.value("ID", same_words(quote_.tax_name, "VAT") ? "VAT" : "GST");
    else
      scheme.words("Name", quote_.tax_name.empty() ? "tax" : quote_.tax_name);
  }

  // Categories of UN/ECE 5305: standard, zero rated, exempt. Where no tax is charged and the owner gives no
  // reason, no category is claimed.
  bool has_category() const { return quote_.tax_mode != TaxMode::none || !paper_.exempt_words.empty(); }
  void add_category(Element in, char const* name, Ratio rate) {
    if (!has_category()) return;
    bool const exempt = quote_.tax_mode == TaxMode::none;
    Element category = in.part(name);
    category.value("ID", exempt ? "E" : rate == Ratio(0) ? "Z" : "S");
    category.value("Percent", percent_figure(rate));
    if (exempt) category.value("TaxExemptionReason", paper_.exempt_words);
    add_scheme(category);
  }

  void add_change(NetChange const& change, std::string const& reason) {
    Element part = root_.part("AllowanceCharge");
    part.value("ChargeIndicator", change.charge ? "true" : "false");
    part.value("AllowanceChargeReason", reason);
    part.amount("Amount", change.net);
    add_category(part, "TaxCategory", change.rate);
  }

  void add_taxes() {
    if (!has_category()) return;
    Element total = root_.part("TaxTotal");
    total.amount("TaxAmount", form_.tax);
    for (NetRate const& rate : form_.rates) {
      Element part = total.part("TaxSubtotal");
      part.amount("TaxableAmount", rate.net);
      part.amount("TaxAmount", rate.tax);
      add_category(part, "TaxCategory", rate.rate);
    }
  }

  void add_totals() {
    Element total = root_.part("QuotedMonetaryTotal");
    total.amount("LineExtensionAmount", form_.of_lines);
    total.amount("TaxExclusiveAmount", form_.without_tax);
    total.amount("TaxInclusiveAmount", form_.with_tax);
    if (!form_.discounts.empty()) total.amount("AllowanceTotalAmount", form_.of_allowances);
    if (form_.of_charges.minor != 0) total.amount("ChargeTotalAmount", form_.of_charges);
    if (form_.rounding.minor != 0) total.amount("PayableRoundingAmount", form_.rounding);
    total.amount("PayableAmount", form_.to_pay);
  }

  Ordered what_is_ordered() const { return ordered(quote_.binding, !quote_.volumes.empty()); }
  char const* unit() const {
    if (quote_.box_alone) return piece_unit;
    return quote_.volumes.empty() ? book_unit : set_unit;
  }

  // A component is a share of the whole: one lump sum. The whole is so many books, and its price is for as
  // many.
  void add_line(std::size_t number, NetLine const& line) {
    std::int64_t const count = line.component ? 1 : quote_.copies;
    char const* const of = line.component ? lump_sum : unit();
    Element row = root_.part("QuotationLine");
    row.value("ID", std::to_string(number));
    Element item_row = row.part("LineItem");
    item_row.value("ID", std::to_string(number));
    item_row.quantity("Quantity", count, of);
    item_row.amount("LineExtensionAmount", line.net);
    Element price = item_row.part("Price");
    price.amount("PriceAmount", line.net);
    price.quantity("BaseQuantity", count, of);
    Element item = item_row.part("Item");
    item.value("Name", name_of(line));
    add_category(item, "ClassifiedTaxCategory", line.rate);
  }

  std::string name_of(NetLine const& line) const {
    if (line.component) return component_words(quote_, *line.component);
    std::string name = whole_words(quote_);
    if (form_.lines.size() > 1)
      name += fmt::format(", what bears {} {}", quote_.tax_name, percent(line.rate));
    return name;
  }

  QuotePaper const& paper_;
  BuyerQuote const& quote_;
  NetForm form_;
  pugi::xml_document document_;
  Element root_;
};

}  // namespace

std::string to_ubl(QuotePaper const& paper, PaperLevel level) { return Quotation(paper, level).text(); }

}  // namespace endband::cli
