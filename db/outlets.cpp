#include "db/outlets.h"

#include "db/settings.h"
#include "db/statement.h"
#include "engine/pricing/terms_text.h"

#include <algorithm>
#include <utility>

namespace endband::db {
namespace {

std::string_view table_of(TextOf of) { return of == TextOf::outlet ? "outlet_version" : "carriage_version"; }

Fault unknown(Workshop& workshop, TextOf of, std::string_view code, Date on) {
  bool const outlet = of == TextOf::outlet;
  std::vector<TextVersion> const all = texts_in_force(workshop, of, on);
  std::vector<std::string_view> codes;
  codes.reserve(all.size());
  for (TextVersion const& each : all) codes.push_back(each.code);
  std::string expected = outlet ? "an outlet; endband outlet add CODE FILE adds one"
                                : "a carriage service; endband rates carriage CODE FILE adds one";
  return {FaultCode::unknown_code, {}, std::string(code), std::move(expected), nearest(code, codes)};
}

// Texts were read when they were written; one that does not read was changed behind our back.
template <class T>
T stored(Read<T> read, TextOf of, std::int64_t version) {
  if (read) return *std::move(read);
  Fault const& fault = read.error().front();
  throw StoreError(FaultCode::not_a_workshop, std::string(table_of(of)) + " " + std::to_string(version) +
                                                  ": " + fault.where.field + " " + fault.found);
}

OutletInForce terms_of(TextVersion const& version, Currency shop) {
  return {stored(read_outlet(version.text, "outlet " + version.code, version.code, shop), TextOf::outlet,
                 version.id),
          version.id, version.valid_from, std::nullopt};
}

}  // namespace

void set_text(Writing& writing, TextOf of, std::string_view code, std::string_view text, Date valid_from) {
  Statement insert(
      writing.workshop().connection(),
      "INSERT INTO " + std::string(table_of(of)) + " (code, valid_from, text, entry) VALUES (?, ?, ?, ?)");
  insert.bind(code, valid_from, text, writing.entry()).run();
}

std::vector<TextVersion> texts_in_force(Workshop& workshop, TextOf of, Date on) {
  Statement select(workshop.connection(), "SELECT id, code, text, valid_from FROM " +
                                              std::string(table_of(of)) +
                                              " WHERE valid_from <= ? ORDER BY code, valid_from, id");
  select.bind(on);
  std::vector<TextVersion> all;
  while (select.step()) {
    TextVersion version;
    select.read(version.id, version.code, version.text, version.valid_from);
    if (!all.empty() && all.back().code == version.code) all.pop_back();
    all.push_back(std::move(version));
  }
  std::erase_if(all, [](TextVersion const& version) { return version.text.empty(); });
  return all;
}

std::optional<TextVersion> text_in_force(Workshop& workshop, TextOf of, std::string_view code, Date on) {
  Statement select(workshop.connection(),
                   "SELECT id, code, text, valid_from FROM " + std::string(table_of(of)) +
                       " WHERE code = ? AND valid_from <= ? ORDER BY valid_from DESC, id DESC LIMIT 1");
  if (!select.bind(code, on).step()) return std::nullopt;
  TextVersion version;
  select.read(version.id, version.code, version.text, version.valid_from);
  if (version.text.empty()) return std::nullopt;
  return version;
}

Read<ExchangeInForce> exchange_in_force(Workshop& workshop, Currency currency, Date on) {
  if (currency == workshop.currency()) return ExchangeInForce{};
  std::string code(currency.code());
  for (char& letter : code) letter = static_cast<char>(letter - 'A' + 'a');
  ExchangeInForce found;
  for (Setting const& setting : settings(workshop, on)) {
    if (setting.name == "exchange." + code) {
      found.exchange.rate = read_ratio(setting.value).value();
      found.since = setting.valid_from;
    }
    if (setting.name == "exchange-spread." + code) found.exchange.spread = read_ratio(setting.value).value();
  }
  if (found.since && found.exchange.rate > Ratio(0)) return found;
  return refuse({FaultCode::missing_setting,
                 {"workshop", 0, 0, "exchange." + code},
                 "",
                 "rates exchange " + std::string(currency.code()) + " 0.92 --from " + date_text(on),
                 {}});
}

Read<OutletInForce> outlet_terms(Workshop& workshop, std::string_view code, Date on) {
  std::optional<TextVersion> const version = text_in_force(workshop, TextOf::outlet, code, on);
  if (!version) return refuse(unknown(workshop, TextOf::outlet, code, on));
  return terms_of(*version, workshop.currency());
}

std::vector<OutletInForce> all_outlet_terms(Workshop& workshop, Date on) {
  std::vector<OutletInForce> all;
  for (TextVersion const& version : texts_in_force(workshop, TextOf::outlet, on))
    all.push_back(terms_of(version, workshop.currency()));
  return all;
}

Read<OutletInForce> load_outlet(Workshop& workshop, std::string_view code, Date on) {
  Read<OutletInForce> found = outlet_terms(workshop, code, on);
  if (!found) return found;
  Read<ExchangeInForce> const exchange = exchange_in_force(workshop, found->outlet.currency, on);
  if (!exchange) return tl::unexpected(exchange.error());
  found->outlet.exchange = exchange->exchange;
  found->rate_since = exchange->since;
  return found;
}

std::vector<std::string> outlet_codes(Workshop& workshop, Date on) {
  std::vector<std::string> codes;
  for (TextVersion& version : texts_in_force(workshop, TextOf::outlet, on))
    codes.push_back(std::move(version.code));
  return codes;
}

Read<CarriageInForce> load_carriage(Workshop& workshop, std::string_view code, Date on) {
  std::optional<TextVersion> const version = text_in_force(workshop, TextOf::carriage, code, on);
  if (!version) return refuse(unknown(workshop, TextOf::carriage, code, on));
  return CarriageInForce{
      stored(read_carriage(version->text, "carriage " + version->code, version->code, workshop.currency()),
             TextOf::carriage, version->id),
      version->id, version->valid_from};
}

}  // namespace endband::db
