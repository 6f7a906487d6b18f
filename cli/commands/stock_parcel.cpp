#include "cli/commands/stock_parcel.h"

#include "cli/commands/shop_parts.h"
#include "cli/commands/stock_line.h"
#include "cli/commands/stock_parts.h"
#include "db/customers.h"
#include "db/materials.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

class ParcelReader {
 public:
  ParcelReader(db::Workshop& workshop, Args const& args, Date on)
      : workshop_(workshop), args_(args), on_(on) {
    custody_ = args.has("--owner");
  }

  Read<SaidParcel> read() {
    said_.parcel.on = on_;
    read_words();
    read_terms();
    for (std::string const& line : lines()) read_line(line);
    read_supplier();
    if (!faults_.empty()) return tl::unexpected(std::move(faults_));
    return std::move(said_);
  }

 private:
  template <class T>
  bool take(Read<T> const& read) {
    if (!read) faults_.insert(faults_.end(), read.error().begin(), read.error().end());
    return read.has_value();
  }
  void add(FaultCode code, std::string_view field, std::string found, std::string expected) {
    faults_.push_back({code, args_.where(field), std::move(found), std::move(expected), {}});
  }

  void read_words() {
    db::Parcel& parcel = said_.parcel;
    parcel.place = args_.text("--place").value_or("");
    parcel.batch = args_.text("--batch").value_or("");
    parcel.shade = args_.text("--shade").value_or("");
    parcel.job = args_.text("--job").value_or("");
    parcel.keeps_until = args_.get<Date>("--keeps-until");
    parcel.opened_on = args_.get<Date>("--opened");
    if (parcel.keeps_until && *parcel.keeps_until < on_)
      add(FaultCode::out_of_range, "--keeps-until", date_text(*parcel.keeps_until),
          date_text(on_) + " or later");
    if (auto const owner = args_.text("--owner"))
      if (take(located(db::find_customer(workshop_, *owner), args_.where("--owner")))) parcel.owner = *owner;
  }

  // Goods in custody cost nothing and came in no parcel of a supplier's.
  void read_terms() {
    Currency const own = workshop_.currency();
    db::Parcel& parcel = said_.parcel;
    parcel.currency = args_.get<Currency>("--currency").value_or(own);
    parcel.terms.carriage = {0, own};
    for (std::string_view flag :
         {"--supplier", "--currency", "--rate", "--carriage", "--duty", "--tax", "--job"})
      if (custody_ && args_.has(flag))
        add(FaultCode::contradiction, flag, "",
            "no such flag beside --owner: a customer's goods cost nothing here");
    if (auto const carriage = args_.text("--carriage"))
      if (auto const money = read_workshop_money(*carriage, own, args_.where("--carriage")); take(money))
        parcel.terms.carriage = *money;
    parcel.terms.duty = args_.get<Ratio>("--duty").value_or(Ratio(0));
    parcel.terms.purchase_tax = args_.get<Ratio>("--tax").value_or(Ratio(0));
    parcel.terms.tax_recovered = buying_rules(workshop_, on_).tax_recovered;
    parcel.terms.rate = args_.get<Ratio>("--rate").value_or(Ratio(1));
    bool const foreign = parcel.currency != own;
    if (foreign && !args_.has("--rate"))
      add(FaultCode::currency_mismatch, "--currency", std::string(parcel.currency.code()),
          fmt::format("--rate, the {} for one {}", own.code(), parcel.currency.code()));
    if (!foreign && args_.has("--rate") && parcel.terms.rate != Ratio(1))
      add(FaultCode::contradiction, "--rate", ratio_text(parcel.terms.rate),
          "--currency with it, or a rate of 1 for prices in the workshop's own money");
  }

  // A line is one quoted word; where no word has a blank they are the words of one line.
  std::vector<std::string> lines() const {
    std::vector<std::string> words;
    for (std::size_t i = 0; i < args_.word_count(); ++i) words.push_back(args_.word(i));
    bool const quoted =
        std::ranges::any_of(words, [](std::string const& word) { return word.find(' ') != word.npos; });
    if (quoted || words.size() == 1) return words;
    return {words_from(args_, 0)};
  }

  void read_line(std::string const& line) {
    Where const where = args_.where("LINE");
    auto const parts = located(split_line(line, custody_ ? Priced::no : Priced::yes), where);
    if (!take(parts)) return;
    auto const material = located(db::find_material(workshop_, parts->code, on_), where);
    if (!take(material)) return;
    auto const quantity = located(read_quantity_of(*material, parts->quantity, Least::something), where);
    auto const price = custody_ ? Read<Money>(Money{0, workshop_.currency()}) : line_price(*parts, where);
    bool const good = take(quantity);
    if (!take(price) || !good) return;
    said_.parcel.lines.push_back({.code = material->code,
                                  .quantity = quantity->amount,
                                  .said = parts->quantity,
                                  .price = *price,
                                  .height = quantity->height,
                                  .width = quantity->width,
                                  .thickness = args_.get<Thickness>("--thickness")});
    said_.materials.push_back(*material);
  }

  Read<Money> line_price(LineParts const& parts, Where const& where) const {
    return read_money_in(
        parts.price, said_.parcel.currency, where,
        fmt::format("an amount in {}, or --currency and --rate of the parcel", said_.parcel.currency.code()));
  }

  void read_supplier() {
    if (custody_) return;
    if (auto const supplier = args_.text("--supplier"); supplier && !supplier->empty()) {
      said_.parcel.supplier = *supplier;
      return;
    }
    std::vector<std::string> usual;
    for (Material const& material : said_.materials)
      usual.push_back(material.price ? material.price->supplier : std::string());
    bool const one =
        !usual.empty() && !usual.front().empty() &&
        std::ranges::all_of(usual, [&](std::string const& name) { return name == usual.front(); });
    if (one)
      said_.parcel.supplier = usual.front();
    else if (said_.materials.size() == said_.parcel.lines.size() && !usual.empty())
      add(FaultCode::bad_command, "--supplier", "",
          "who sent it: the prices in force do not name one supplier for all");
  }

  db::Workshop& workshop_;
  Args const& args_;
  Date on_;
  bool custody_ = false;
  SaidParcel said_;
  std::vector<Fault> faults_;
};

}  // namespace

std::vector<Flag> parcel_flags() {
  return {
      {"--supplier", FlagType::supplier, "who sent it; else whose prices are in force"},
      {"--currency", FlagType::currency, "of the prices said; else the workshop's"},
      {"--rate", FlagType::number, "the workshop's money for one unit of the supplier's"},
      {"--carriage", FlagType::money, "carriage and clearance of the whole parcel, shared over the lines"},
      {"--duty", FlagType::share, "of the prices; else none"},
      {"--tax", FlagType::share, "purchase tax, of price, carriage and duty; else none"},
      {"--place", FlagType::lot_place, "where it lies: plan chest 3"},
      {"--batch", FlagType::words, "the maker's batch"},
      {"--shade", FlagType::words, "the maker's shade"},
      {"--keeps-until", FlagType::date, "the last day on which it may be used"},
      {"--opened", FlagType::date, "the day on which it was opened"},
      {"--thickness", FlagType::thickness, "as measured, where it differs from the catalogue's"},
      {"--job", FlagType::job, "bought for this job only, such as 26-014"},
      {"--owner", FlagType::customer, "in custody for this customer: without a price, never in the value"}};
}

Read<SaidParcel> parcel_said(db::Workshop& workshop, Args const& args, Date on) {
  return ParcelReader(workshop, args, on).read();
}

}  // namespace endband::cli
