// The stages of a job in working order, and the days on which they are planned.
#include "cli/commands/bench_stints.h"
#include "cli/commands/job_sheet_parts.h"
#include "cli/commands/steps_words.h"
#include "cli/words/book_words.h"
#include "cli/words/values.h"
#include "engine/book/precedence.h"
#include "engine/promise/hours.h"
#include "engine/promise/step_order.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <set>

namespace endband::cli {
namespace {

using enum OperationKind;

// What stands together under one heading.
enum class Phase : std::uint8_t {
  before,
  repairs,
  block,
  spine,
  covering,
  finishing,
  furniture,
  box,
  sending,
  extra
};

Phase phase_of(OperationKind kind) {
  if (kind <= reback_book) return Phase::repairs;
  if (kind <= gild_edges) return Phase::block;
  if (kind <= fix_registers) return Phase::spine;
  if (kind <= dress_leather) return Phase::covering;
  if (kind <= lay_onlays) return Phase::finishing;
  if (kind <= final_press) return Phase::furniture;
  if (kind <= line_box) return Phase::box;
  if (kind == extra_work) return Phase::extra;
  bool const before =
      kind == answer_enquiry || kind == draw_proof || kind == order_materials || kind == receive_custody;
  return before ? Phase::before : Phase::sending;
}

std::string_view phase_words(Phase phase) {
  constexpr std::array<std::string_view, 10> words{
      "Before the bench", "Repairs",   "Text block and sewing",  "Spine, boards and endbands",
      "Covering",         "Finishing", "Furniture and pressing", "Box",
      "Sending",          "Extra work"};
  return words.at(static_cast<std::size_t>(phase));
}

// One step; the lines of the quote that are the same step are one.
struct Stage {
  OperationKind kind{};
  std::string words, code;
  Ratio seconds = 0;
  Duration wait_low, wait_high;
  std::int64_t minutes = 0;  // these sum to those of the whole
};

std::vector<Stage> stages_of(Work const& work) {
  std::vector<Stage> stages;
  for (WorkLine const& line : work.lines) {
    std::string words = work_line_words(line);
    auto stage = std::ranges::find_if(
        stages, [&](Stage const& each) { return each.kind == line.kind && each.words == words; });
    // Extra work is told of its part: it has no step of its own.
    std::string code(line.kind == extra_work ? part_name(Part::extras) : operation_row(line.kind).name);
    if (stage == stages.end())
      stage = stages.insert(stages.end(), Stage{line.kind, std::move(words), std::move(code), 0, {}, {}, 0});
    stage->seconds = stage->seconds + line.mean_seconds;
    stage->wait_low = std::max(stage->wait_low, line.wait_low);
    stage->wait_high = std::max(stage->wait_high, line.wait_high);
  }
  return stages;
}

// Each after what it waits for; of those that may come next one of the same phase, and of these the first in
// the list of operations. What is done before the bench comes first of all.
std::vector<Stage> in_working_order(std::vector<Stage> stages, StepOrder const& order) {
  std::vector<Stage> sorted;
  std::set<OperationKind> open;
  for (Stage const& stage : stages) open.insert(stage.kind);
  Phase phase = Phase::before;
  auto const may = [&](Stage const& stage) {
    return std::ranges::none_of(order.before(stage.kind), [&](OperationKind before) {
      return before != stage.kind && open.contains(before);
    });
  };
  auto const rank = [&](Stage const& stage) {
    Phase const of = phase_of(stage.kind);
    return std::tuple(of != Phase::before, of != phase, stage.kind);
  };
  while (!stages.empty()) {
    auto next = stages.end();
    for (auto each = stages.begin(); each != stages.end(); ++each)
      if (may(*each) && (next == stages.end() || rank(*each) < rank(*next))) next = each;
    if (next == stages.end()) next = stages.begin();  // the library's own circle: bench week tells it
    OperationKind const kind = next->kind;
    phase = phase_of(kind);
    sorted.push_back(std::move(*next));
    stages.erase(next);
    if (std::ranges::none_of(stages, [&](Stage const& each) { return each.kind == kind; })) open.erase(kind);
  }
  return sorted;
}

// Whole minutes that sum to those of all.
void share_minutes(std::vector<Stage>& stages) {
  Ratio so_far = 0;
  std::int64_t told = 0;
  for (Stage& stage : stages) {
    so_far = so_far + stage.seconds;
    std::int64_t const until = round(so_far / Ratio(60), Rounding::half_away);
    stage.minutes = until - told;
    told = until;
  }
}

// Work by others, told after the step of ours that it waits for.
struct Away {
  std::size_t after = 0;  // so many stages
  Outside const* work = nullptr;
};
std::vector<Away> away_of(JobSheet const& sheet, std::vector<Stage> const& stages, StepOrder const& order) {
  std::vector<Away> all;
  for (Outside const& outside : sheet.seen.agreed.outside) {
    Away away{0, &outside};
    for (OperationKind const kind : order.nearest(outside_order(outside.kind).after))
      for (std::size_t i = 0; i < stages.size(); ++i)
        if (stages[i].kind == kind) away.after = std::max(away.after, i + 1);
    all.push_back(away);
  }
  return all;
}

struct Told {
  std::int64_t seconds = 0;
  bool finished = false;
};
std::map<std::string, Told> told_by_code(JobRecord const& record) {
  std::map<std::string, Told> told;
  for (Worked const& worked : record.worked) {
    Told& of =
        told[std::string(worked.operation ? operation_row(*worked.operation).name : part_name(*worked.part))];
    of.seconds += worked.time.n;
    of.finished = of.finished || worked.finished;
  }
  return told;
}

std::string between_words(Duration low, Duration high) {
  std::string words = wait_words(low, high);
  if (std::size_t const at = words.find('/'); at != std::string::npos) words.replace(at, 1, " to ");
  return words;
}

Table stage_table() {
  return {{{"Done", Align::left, 0, true},
           {"Step"},
           {"Code"},
           {"Planned min", Align::right},
           {"Real min", Align::left, 0, true}},
          {}};
}

class Stages {
 public:
  Stages(Document& document, JobSheet const& sheet)
      : document_(document), sheet_(sheet), told_(told_by_code(sheet.seen.record)) {
    std::bitset<operation_count> present;
    for (WorkLine const& line : sheet.seen.agreed.work.lines)
      present.set(static_cast<std::size_t>(line.kind));
    StepOrder const order(sheet.steps, present);
    stages_ = in_working_order(stages_of(sheet.seen.agreed.work), order);
    share_minutes(stages_);
    away_ = away_of(sheet, stages_, order);
  }

  void add() {
    std::set<Phase> seen;
    for (std::size_t i = 0; i < stages_.size(); ++i) {
      Phase const phase = phase_of(stages_[i].kind);
      if (i == 0 || phase != phase_of(stages_[i - 1].kind)) {
        close();
        heading_ = std::string(phase_words(phase)) + (seen.insert(phase).second ? "" : ", goes on");
      }
      if (i == 0) add_away(0);
      add(stages_[i]);
      add_away(i + 1);
    }
    std::int64_t all = 0;
    for (Stage const& stage : stages_) all += stage.minutes;
    table_.add_total({" ", "All steps, " + hours_words(Ratio(all * 60)), "", std::to_string(all), ""});
    close();
  }

 private:
  void close() {
    if (table_.rows.empty()) return;
    document_.heading(heading_, 2);
    document_.add(std::move(table_));
    table_ = stage_table();
  }

  void add(Stage const& stage) {
    Step const* const step = sheet_.steps.find(stage.kind);
    std::string words = stage.words;
    if (step != nullptr && !step->caution.empty()) words += "\nCare: " + step->caution;
    auto const told = told_.find(stage.code);
    bool const any = told != told_.end();
    std::string const minutes =
        any && told->second.seconds != 0 ? fmt::format("told {}", (told->second.seconds + 30) / 60) : "";
    table_.add({any && told->second.finished ? "yes" : "", std::move(words), stage.code,
                stage.minutes == 0 ? "under 1" : std::to_string(stage.minutes), minutes});
    if (stage.wait_high.n == 0) return;
    std::string wait = fmt::format("Wait {}", between_words(stage.wait_low, stage.wait_high));
    if (step != nullptr && !step->place.empty()) {
      Place const* const place = sheet_.bench.place(step->place);
      wait += ": " + (place == nullptr || place->name.empty() ? step->place : place->name);
    }
    table_.add({"", wait + ".", "since", "", ""});
  }

  void add_away(std::size_t after) {
    for (Away const& away : away_) {
      if (away.after != after) continue;
      std::string words = "With others: " + away.work->words;
      if (away.work->lead.n > 0) words += fmt::format(", back after {}", duration_text(away.work->lead));
      table_.add({"", words + ".", "since", "", ""});
    }
  }

  Document& document_;
  JobSheet const& sheet_;
  std::map<std::string, Told> told_;
  std::vector<Stage> stages_;
  std::vector<Away> away_;
  std::string heading_;
  Table table_ = stage_table();
};

std::string ready_sentence(ReadyBy const& ready) {
  return fmt::format("Ready by {} in 95 of 100 cases, as likely as not by {}; {} of hands left.",
                     date_text(ready.sure), date_text(ready.half), hours_words(Ratio(ready.hands.n)));
}

}  // namespace

void add_stages(Document& document, JobSheet const& sheet) {
  document.heading("Stages");
  document.paragraph(fmt::format(
      "In working order. Write the real minutes of each step into its box, and afterwards tell them, each by "
      "its code: endband job time {} CODE \"MINUTES min\". In the box of a wait, the hour since when.",
      sheet.seen.job.number));
  if (sheet.seen.agreed.copies > 1)
    document.paragraph(fmt::format("The minutes are of all {} copies together.", sheet.seen.agreed.copies));
  Stages(document, sheet).add();
}

void add_days(Document& document, JobSheet const& sheet) {
  document.heading("Days", 2);
  if (!sheet.planned) {
    document.paragraph(
        "No days: nobody's hours are known, or the bench cannot be planned. endband bench week says why.");
    return;
  }
  BenchPlanned const& planned = sheet.planned->planned;
  auto const order = static_cast<std::size_t>(sheet.planned->order);
  if (planned.seen.orders.at(order).waits_for_customer) {
    document.paragraph("No days: it waits for the customer.");
    return;
  }
  auto const& ready = planned.ready.at(order);
  if (!ready) {
    document.paragraph("No days: nothing is left to do.");
    return;
  }
  bool const several = planned.seen.bench.people.size() > 1;
  Table table{{{"Day"}, {"Date"}, {"From"}, {"To"}, {"What"}}, {}};
  std::optional<schedule::Time> day;
  for (Stint const& stint : stints_of(planned.plan, ready->ready + 2 * day_seconds)) {
    if (planned.plan.tasks.at(static_cast<std::size_t>(stint.task)).order != sheet.planned->order) continue;
    std::string what = task_words(planned, stint.task);
    if (several)
      what += " (" + planned.seen.bench.people.at(static_cast<std::size_t>(stint.person)).code + ")";
    if (day == stint.begin / day_seconds) {
      auto& cells = table.rows.back().cells;
      cells[3] = clock_words(stint.end);
      cells[4] += "; " + what;
      continue;
    }
    day = stint.begin / day_seconds;
    std::string const words = day_words(planned.plan.now.on + std::chrono::days(*day));
    std::size_t const blank = words.find(' ');
    table.add({words.substr(0, blank), words.substr(blank + 1), clock_words(stint.begin),
               clock_words(stint.end), std::move(what)});
  }
  document.add(std::move(table));
  document.paragraph(ready_sentence(*ready));
  if (sheet.due && ready->sure > *sheet.due)
    document.notice(NoticeKind::warning,
                    "It may miss its day. " + chain_words(planned, sheet.planned->order));
}

}  // namespace endband::cli
