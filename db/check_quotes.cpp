// Every quote ever kept: its parts as they were written, its identities, its replay, and one home for each
// cost.
#include "db/check.h"
#include "db/frozen.h"
#include "db/quotes.h"
#include "db/settings.h"
#include "db/statement.h"
#include "db/steps.h"

#include <algorithm>
#include <chrono>
#include <optional>

namespace endband::db {
namespace {

struct QuoteName {
  std::int64_t id = 0;
  std::string number;
};

std::vector<QuoteName> all_quotes(Connection& connection) {
  Statement select(
      connection,
      "SELECT q.id, c.year, c.count, q.issue FROM quote q JOIN commission c ON c.id = q.commission "
      "ORDER BY q.id");
  std::vector<QuoteName> quotes;
  while (select.step()) {
    QuoteName& quote = quotes.emplace_back();
    QuoteNumber number;
    std::string issue;
    select.read(quote.id, number.year, number.count, issue);
    number.issue = issue.front();
    quote.number = number_text(number);
  }
  return quotes;
}

// Names each part whose seal is broken; a part without its seal, or a seal without its part, is one too.
void check_seals(Findings& findings, QuoteName const& quote, FrozenQuote const& frozen) {
  Connection& connection = findings.connection();
  std::vector<PartSeal> const kept = load_seals(connection, quote.id);
  for (PartSeal const& due : seals_of(connection.currency, load_identity(connection, quote.id), frozen))
    if (std::find(kept.begin(), kept.end(), due) == kept.end())
      findings.add(due.part, "of " + quote.number, "was changed", "as it was written");
}

void check_quote(Findings& findings, QuoteName const& quote) {
  findings.look_at("quote", quote.number, [&] {
    FrozenQuote const frozen = load_frozen(findings.connection(), quote.id);
    check_seals(findings, quote, frozen);
    if (std::string const figure = differs(frozen); !figure.empty())
      findings.add("quote", quote.number, figure, "what the quote's own rows give");
  });
}

// Work that is sure to be ruined is never done: nothing could be reckoned with it.
void check_ruin(Findings& findings) {
  Statement select(findings.connection(),
                   "SELECT quote, position, ruin_chance_num, ruin_chance_den FROM quote_bill "
                   "WHERE ruin_chance_num NOT BETWEEN 0 AND ruin_chance_den - 1");
  while (select.step()) {
    std::int64_t quote = 0, position = 0, num = 0, den = 0;
    select.read(quote, position, num, den);
    findings.add("quote_bill", std::to_string(position) + " of quote " + std::to_string(quote),
                 "a chance of ruin of " + std::to_string(num) + "/" + std::to_string(den), "less than 1");
  }
}

// The versions that a bill line names must be of the material that it names, and its unit cost of that
// price's pack.
void check_bill_versions(Findings& findings) {
  Statement select(
      findings.connection(),
      "SELECT b.quote, b.position FROM quote_bill b JOIN material_version v ON v.id = b.material_version "
      "LEFT JOIN price_version p ON p.id = b.price_version "
      "WHERE v.material <> b.material OR p.material <> b.material OR "
      "(b.customer_supplied = 0 AND p.pack <> b.unit_pack)");
  while (select.step()) {
    std::int64_t quote = 0, position = 0;
    select.read(quote, position);
    findings.add("quote_bill", std::to_string(position) + " of quote " + std::to_string(quote),
                 "names a version of another material", "versions of its own");
  }
}

// A covering stands from the setting of covers.<name> while overhead.<name> is not nothing. What it covers
// may cost nothing on a quote that was made under it.
void check_quoted_homes(Findings& findings) {
  static constexpr std::string_view in_force_text =
      "WITH in_force AS (SELECT s.name, s.value, q.id AS quote FROM quote q JOIN setting_version s ON s.id = "
      "(SELECT id FROM setting_version WHERE name = s.name AND valid_from <= q.on_date AND entry <= q.entry "
      "ORDER BY valid_from DESC, id DESC LIMIT 1) "
      "WHERE s.name GLOB 'covers.*' OR s.name GLOB 'overhead.*'), "
      "covering AS (SELECT c.quote, c.name, c.value FROM in_force c JOIN in_force o "
      "ON o.quote = c.quote AND o.name = 'overhead.' || substr(c.name, 8) "
      "WHERE c.name GLOB 'covers.*' AND c.value <> '' AND o.value <> '' AND o.value GLOB '*[1-9]*') "
      "SELECT c.name, c.value, n.year, n.count, q.issue FROM covering c JOIN quote q ON q.id = c.quote "
      "JOIN commission n ON n.id = q.commission WHERE "
      "EXISTS (SELECT 1 FROM quote_bill b JOIN material_version v ON v.id = b.material_version "
      "WHERE b.quote = c.quote AND v.kind = c.value AND b.charged > 0 AND b.unit_minor > 0) OR "
      "EXISTS (SELECT 1 FROM quote_work w WHERE w.quote = c.quote AND w.operation = c.value AND w.mean_s_num "
      "> 0)";
  Statement select(findings.connection(), in_force_text);
  while (select.step()) {
    std::string name, value, issue;
    QuoteNumber number;
    select.read(name, value, number.year, number.count, issue);
    number.issue = issue.front();
    findings.add("quote", number_text(number), value + " is charged on the job",
                 "in the overhead alone, as " + name + " says");
  }
}

// A covered step that takes time will be charged on the next job.
void check_step_homes(Findings& findings) {
  Date const latest = std::chrono::sys_days(std::chrono::year(9999) / 12 / 31);
  std::vector<Setting> const all = settings(findings.workshop, latest);
  StepLibrary const library = load_steps(findings.workshop, latest);
  for (Setting const& covers : all) {
    if (!covers.name.starts_with("covers.")) continue;
    std::string const overhead = "overhead." + covers.name.substr(sizeof "covers." - 1);
    bool const paid = std::any_of(all.begin(), all.end(), [&](Setting const& each) {
      return each.name == overhead && each.value.find_first_of("123456789") != std::string::npos;
    });
    std::optional<OperationKind> const operation = operation_named(covers.value);
    Step const* step = paid && operation ? library.find(*operation) : nullptr;
    if (step != nullptr && step->set_up.high.n + step->each.high.n > 0)
      findings.add("step_version", step->version, covers.value + " takes time that jobs are charged",
                   "no time, as " + covers.name + " says that the overhead pays it");
  }
}

}  // namespace

void check_quotes(Findings& findings) {
  for (QuoteName const& quote : all_quotes(findings.connection())) check_quote(findings, quote);
  check_ruin(findings);
  check_bill_versions(findings);
}

void check_homes(Findings& findings) {
  check_quoted_homes(findings);
  check_step_homes(findings);
}

}  // namespace endband::db
