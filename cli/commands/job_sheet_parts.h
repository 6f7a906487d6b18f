// The job sheet: all that the bench wants to know of a job, on paper. It is the maker's, but it lies about:
// no price, no cost, and of the customer only the initials.
#pragma once

#include "cli/commands/bench_planned.h"
#include "cli/commands/cut_shown.h"
#include "cli/commands/job_seen.h"
#include "db/stock.h"
#include "engine/book/spec.h"

#include <optional>
#include <string>
#include <vector>

namespace endband::cli {

// The job on the bench; none: nobody's hours are known, or it cannot be planned.
struct SheetBench {
  BenchPlanned planned;
  int order = 0;
};

struct JobSheet {
  JobSeen seen;
  std::optional<Date> due;
  BookSpec book;                   // of the agreed description, with the figures of the quote
  std::vector<Structure> volumes;  // one, where it is no set
  bool as_agreed = true;           // the description, read again, makes the pieces of the quote
  StepLibrary steps;
  Bench bench;
  CutShown cuts;
  std::vector<db::LotRow> lots;  // of all that the job needs
  std::optional<SheetBench> planned;
  bool letter = false;  // the paper: US Letter, else A4

  Paper room() const;  // within the margins, under a heading
};

// Within one Reading; nothing is planned to cut yet. Faults: unknown_code; rule_refused of a job that has
// ended, and of a quote that is not accepted; those of the description.
Read<JobSheet> read_sheet(db::Workshop& workshop, Args const& args, Date on);
// How the pieces are cut: may take a while.
void plan_sheet(JobSheet& sheet);

// For a drawing that shares its page with so many rows of a table: its letters are of 11 pt.
OnPaper paper_beside(JobSheet const& sheet, std::size_t rows);

Document sheet_document(JobSheet const& sheet);

// "I. Q."
std::string initials(std::string_view name);

// Its parts, each of which begins with its heading.
void add_stages(Document& document, JobSheet const& sheet);
void add_days(Document& document, JobSheet const& sheet);
void add_goods(Document& document, JobSheet const& sheet);
void add_sheet_cuts(Document& document, JobSheet const& sheet);
void add_making(Document& document, JobSheet const& sheet);

}  // namespace endband::cli
