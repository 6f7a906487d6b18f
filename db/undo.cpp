#include "db/undo.h"

#include "db/bench.h"
#include "db/statement.h"
#include "db/steps.h"
#include "db/undo_parts.h"

#include <algorithm>
#include <limits>
#include <stdexcept>
#include <utility>

namespace endband::db {
namespace {

constexpr std::string_view entry_columns =
    "SELECT seq, at_utc, on_date, command, program, undoes FROM entry ";

EntryInfo read_entry(Statement& select) {
  EntryInfo entry;
  select.read(entry.seq, entry.at_utc, entry.on, entry.command, entry.program, ZeroIsNull{entry.undoes});
  return entry;
}

std::string the_entry(EntryInfo const& entry) {
  return "entry " + std::to_string(entry.seq) + " (" + entry.command + ")";
}

std::optional<EntryInfo> find_entry(Workshop& workshop, std::int64_t entry) {
  static std::string const sql = std::string(entry_columns) + "WHERE seq = ?";
  Statement select(workshop.connection(), sql);
  if (!select.bind(entry).step()) return std::nullopt;
  return read_entry(select);
}

// `before`: of the entries older than that one.
std::optional<std::int64_t> undone_by(Workshop& workshop, std::int64_t entry, std::int64_t before) {
  Statement select(workshop.connection(),
                   "SELECT seq FROM entry WHERE seq > ?1 AND seq < ?2 AND undoes = ?1");
  if (!select.bind(entry, before).step()) return std::nullopt;
  return select.value<std::int64_t>();
}

Read<EntryInfo> standing_before(Workshop& workshop, std::int64_t seq, std::int64_t before) {
  std::optional<EntryInfo> const entry = find_entry(workshop, seq);
  if (!entry || seq >= before)
    return refuse(refused_entry(seq, "there is no such entry; endband workshop log shows them"));
  if (entry->undoes != 0) {
    EntryInfo const first = find_entry(workshop, entry->undoes).value();
    return refuse(refused_entry(
        seq, "it took back " + the_entry(first) + "; to have that again type: endband " + first.command));
  }
  if (std::optional<std::int64_t> const by = undone_by(workshop, seq, before))
    return refuse(refused_entry(seq, "entry " + std::to_string(*by) +
                                         " took it back; to have it again type: endband " + entry->command));
  return *entry;
}

// Steps that would be left without hands or a place, or in a circle; `gaps` were there before.
std::vector<Fault> unfit_steps(Workshop& workshop, std::int64_t entry, std::vector<BenchGap> const& gaps) {
  std::vector<Fault> faults;
  for (BenchGap const& gap : bench_gaps(workshop)) {
    auto const same = [&](BenchGap const& was) {
      return was.kind == gap.kind && was.code == gap.code && was.lack == gap.lack;
    };
    if (std::any_of(gaps.begin(), gaps.end(), same)) continue;
    faults.push_back(refused_entry(
        entry, std::string(word(gap.kind)) + " needs " + gap.code + "; endband steps set says it otherwise"));
  }
  for (Date const day : step_days(workshop, Date{}))
    if (std::vector<OperationKind> const circle = circle_of_steps(workshop, day);
        faults.empty() && !circle.empty())
      faults.push_back(
          refused_entry(entry, std::string(word(circle.front())) +
                                   " would come after itself; endband steps set says it otherwise"));
  return faults;
}

}  // namespace

Fault refused_entry(std::int64_t entry, std::string expected) {
  return {FaultCode::rule_refused,
          {"workshop undo", 0, 0, "ENTRY"},
          "entry " + std::to_string(entry),
          std::move(expected),
          {}};
}

std::vector<std::string> columns_of_table(Connection& connection, std::string const& table) {
  Statement select(connection, "SELECT name FROM pragma_table_info(?)");
  select.bind(table);
  std::vector<std::string> names;
  while (select.step()) names.push_back(select.value<std::string>());
  return names;
}

Read<EntryInfo> standing_entry(Workshop& workshop, std::int64_t entry) {
  return standing_before(workshop, entry, std::numeric_limits<std::int64_t>::max());
}

std::optional<EntryInfo> last_standing(Workshop& workshop) {
  static std::string const sql = std::string(entry_columns) +
                                 "WHERE seq NOT IN (SELECT entry FROM workshop) AND seq IN " +
                                 std::string(standing_text) + " ORDER BY seq DESC LIMIT 1";
  Statement select(workshop.connection(), sql);
  if (!select.step()) return std::nullopt;
  return read_entry(select);
}

Read<std::vector<Undone>> undo(Writing& writing, std::int64_t entry) {
  Workshop& workshop = writing.workshop();
  EntryInfo const own = find_entry(workshop, writing.entry()).value();
  if (own.undoes != entry) throw std::logic_error("an undoing whose entry does not say what it takes back");
  // Its own entry already names what it takes back.
  if (Read<EntryInfo> const taken = standing_before(workshop, entry, own.seq); !taken)
    return tl::unexpected(taken.error());
  std::vector<Fault> faults = undo_refusals(workshop, entry, own.on);
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  std::vector<BenchGap> const gaps = bench_gaps(workshop);
  std::vector<Undone> undone;
  for (auto part : {counter_rows(writing, entry, own.on, undone), restore_versions(writing, entry, undone)})
    faults.insert(faults.end(), part.begin(), part.end());
  if (faults.empty()) faults = unfit_steps(workshop, entry, gaps);
  if (faults.empty() && undone.empty())
    faults.push_back(refused_entry(entry, "it wrote nothing that could be taken back"));
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return undone;
}

}  // namespace endband::db
