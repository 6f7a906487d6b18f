#include "cli/commands/described.h"

#include "db/materials.h"
#include "engine/book/spec.h"

#include <algorithm>
#include <array>
#include <set>
#include <utility>

namespace endband::cli {
namespace {

// What a description starts from that names no model: a plain book still has endbands and leaves in a parcel.
constexpr std::string_view plain_model = "raised-cords";

std::array<Layer, 3> layers_of(BookText const& said, BookText const& model, db::Shop const& shop) {
  return {Layer{&said, Origin::said}, Layer{&model, Origin::model}, Layer{&shop.defaults, Origin::workshop}};
}

// Every binding has a plain model of its own name.
std::string model_name_of(BookText const& said) {
  for (std::string_view const key : {"model", "binding"})
    if (Entry const* const entry = said.find(key)) return std::get<std::string>(entry->value);
  return std::string(plain_model);
}

// Size and pages of a model count only where the model was named: left out of a description that names none,
// they are forgotten, not chosen.
Read<BookText> model_of(BookText const& said) {
  if (Entry const* const entry = said.find("model"))
    return located(model_text(std::get<std::string>(entry->value)), entry->where);
  auto model = model_text(model_name_of(said));
  if (!model) return model;
  std::erase_if(model->entries, [](Entry const& entry) {
    return entry.key == "height" || entry.key == "width" || entry.key == "pages";
  });
  return model;
}

// The rows that are there, and what may have been meant by those that are not: the resolver tells where each
// stands.
struct Loaded {
  Catalogue catalogue;
  std::vector<Fault> unknown;
};
Read<Loaded> load(db::Workshop& workshop, std::vector<std::string> const& codes, Date on,
                  BuyingRules const& buying) {
  auto whole = db::load_catalogue(workshop, codes, on, buying);
  if (whole) return Loaded{std::move(*whole), {}};
  std::set<std::string> missing;
  for (Fault const& fault : whole.error()) {
    if (fault.code != FaultCode::unknown_material) return tl::unexpected(std::move(whole.error()));
    missing.insert(fault.found);
  }
  std::vector<std::string> present;
  std::copy_if(codes.begin(), codes.end(), std::back_inserter(present),
               [&](std::string const& code) { return !missing.contains(code); });
  auto rest = db::load_catalogue(workshop, present, on, buying);
  if (!rest) return tl::unexpected(std::move(rest.error()));
  return Loaded{std::move(*rest), std::move(whole.error())};
}

std::vector<Fault> with_near(db::Workshop& workshop, std::vector<Fault> faults,
                             std::vector<Fault> const& unknown) {
  for (Fault& fault : faults) {
    if (fault.code != FaultCode::unknown_material) continue;
    for (Fault const& known : unknown)
      if (fault.found == known.found) fault.near = known.near;
    if (auto const from = db::known_from(workshop, fault.found)) fault.expected = db::known_from_text(*from);
  }
  return faults;
}

// Of a description that has faults already, what the resolver misses may only have been unreadable: what it
// says of materials holds all the same.
void add_faults_of_materials(std::vector<Fault>& faults, std::vector<Fault> const& resolved) {
  for (Fault const& fault : resolved)
    if (fault.code == FaultCode::unknown_material || fault.code == FaultCode::wrong_kind)
      faults.push_back(fault);
}

// In the order of the file; what has no line comes last.
void sort_by_place(std::vector<Fault>& faults) {
  std::stable_sort(faults.begin(), faults.end(), [](Fault const& a, Fault const& b) {
    auto const key = [](Fault const& fault) {
      return std::pair(fault.where.line == 0 ? 1'000'000'000 : fault.where.line, fault.where.column);
    };
    return key(a) < key(b);
  });
}

// The amounts of a description, in the workshop's currency; nothing where nothing is said.
class Amounts {
 public:
  explicit Amounts(Currency currency) : currency_(currency) {}

  Money read(std::string const& text, Where const& where) {
    if (text.empty()) return {0, currency_};
    Read<Money> const money = located(read_money(text, currency_), where);
    if (money) return *money;
    faults_.insert(faults_.end(), money.error().begin(), money.error().end());
    return {0, currency_};
  }
  std::vector<Fault> faults() && { return std::move(faults_); }

 private:
  Currency currency_;
  std::vector<Fault> faults_;
};

// The rest of a description from what was said: model, materials, the book. `faults`: of the text itself.
Read<void> complete(db::Workshop& workshop, Described& result, std::vector<Fault> faults,
                    std::string const& name, Date prices) {
  auto const model = model_of(result.said);
  if (!model) return tl::unexpected(model.error());
  result.model_name = model_name_of(result.said);
  auto const layers = layers_of(result.said, *model, result.shop);
  result.codes = codes_named(layers);
  auto loaded = load(workshop, result.codes, prices, result.shop.buying);
  if (!loaded) return tl::unexpected(std::move(loaded.error()));
  result.catalogue = std::move(loaded->catalogue);
  auto book = resolve(layers, result.catalogue);
  if (!faults.empty()) {
    if (!book) add_faults_of_materials(faults, with_near(workshop, std::move(book.error()), loaded->unknown));
    sort_by_place(faults);
    return tl::unexpected(std::move(faults));
  }
  if (!book) {
    auto missing = with_near(workshop, std::move(book.error()), loaded->unknown);
    sort_by_place(missing);
    return tl::unexpected(std::move(missing));
  }
  // A code that no part of the book asks for is still a slip of the pen.
  if (!loaded->unknown.empty()) {
    for (Fault& fault : loaded->unknown) fault.where.source = name;
    return tl::unexpected(std::move(loaded->unknown));
  }
  result.book = std::move(*book);
  return {};
}

void add_rows(Catalogue& catalogue, std::vector<Material> const& rows) {
  for (Material const& row : rows) {
    bool const there = std::any_of(catalogue.materials.begin(), catalogue.materials.end(),
                                   [&](Material const& each) { return each.id == row.id; });
    if (!there) catalogue.materials.push_back(row);
  }
}

}  // namespace

Read<Described> describe(Context& context, db::Workshop& workshop, std::string const& file) {
  auto text = context.read_file(file);
  if (!text) return tl::unexpected(std::move(text.error()));
  return describe_text(workshop, {file == "-" ? std::string(standard_input) : file, std::move(*text)},
                       {context.on, context.on});
}

Read<Described> describe_text(db::Workshop& workshop, DescriptionText description, DescriptionDays days) {
  Described result;
  result.text = std::move(description.text);
  std::string const& name = description.source;
  Readable readable = read_readable(result.text, name, description_keys());
  if (readable.text.entries.empty()) return tl::unexpected(std::move(readable.faults));
  result.said = std::move(readable.text);
  auto shop = db::load_shop(workshop, days.prices);
  if (!shop) return tl::unexpected(std::move(shop.error()));
  result.shop = std::move(*shop);
  if (days.habits != days.prices) {
    auto then = db::load_shop(workshop, days.habits);
    if (!then) return tl::unexpected(std::move(then.error()));
    result.shop.defaults = std::move(then->defaults);
  }
  if (auto const done = complete(workshop, result, std::move(readable.faults), name, days.prices); !done)
    return tl::unexpected(done.error());
  return result;
}

Read<Described> described_with(db::Workshop& workshop, Described const& base, BookText said, Date on) {
  Described result;
  result.text = base.text;
  result.shop = base.shop;
  result.said = std::move(said);
  std::string const source = result.said.source;
  if (auto const done = complete(workshop, result, {}, source, on); !done)
    return tl::unexpected(done.error());
  return result;
}

Read<BookSpec> book_with(Described const& base, BookText const& said, Catalogue const& catalogue) {
  auto const model = model_of(said);
  if (!model) return tl::unexpected(model.error());
  return resolve(layers_of(said, *model, base.shop), catalogue);
}

Read<Commission> commission_of(Described const& described, Asked const& asked, StepLibrary steps) {
  Commission commission;
  commission.book = described.book;
  commission.catalogue = described.catalogue;
  commission.steps = std::move(steps);
  commission.work = described.shop.work;
  commission.shop = described.shop.shop;
  commission.selling = described.shop.selling;
  commission.goal = asked.goal;
  commission.cutting = described.shop.cutting;
  commission.delivery = asked.delivery;
  if (asked.sending) {
    commission.sending = asked.sending;
    add_rows(commission.catalogue, asked.sending->cartons);
    commission.book =
        in_smallest_carton(std::move(commission.book), commission.catalogue, asked.sending->cartons);
  }
  if (asked.outlet) commission.selling.outlet = asked.outlet->outlet;
  commission.selling.discount = asked.discount;
  Amounts amounts(described.shop.shop.currency);
  for (OutsideWork const& work : described.book.outside)
    commission.outside.push_back({.words = work.words,
                                  .price = amounts.read(work.price, work.where),
                                  .at_cost = work.at_cost,
                                  .kind = work.kind,
                                  .by = work.by,
                                  .supplier = work.supplier,
                                  .count = work.count,
                                  .area = work.area,
                                  .least_charge = amounts.read(work.least_charge, work.where),
                                  .carriage = amounts.read(work.carriage, work.where),
                                  .redo = work.redo,
                                  .each_copy = work.each_copy,
                                  .lead = work.lead});
  for (Custody const& left : described.book.custody) {
    std::optional<Money> declared;
    if (!left.declared_value.empty()) declared = amounts.read(left.declared_value, left.where);
    commission.custody.push_back({left.what, left.condition, declared});
  }
  std::vector<Fault> faults = std::move(amounts).faults();
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return commission;
}

std::vector<Fault> at_flags(std::vector<Fault> faults, std::string const& command) {
  for (Fault& fault : faults)
    if (fault.where.source.empty() && (fault.where.field == "to" || fault.where.field == "service"))
      fault.where = {command, 0, 0, "--" + fault.where.field};
  return faults;
}

}  // namespace endband::cli
