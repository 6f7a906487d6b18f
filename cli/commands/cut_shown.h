// What `book cut` and `job cut` show alike.
#pragma once

#include "cli/command/args.h"
#include "cli/command/context.h"
#include "cli/commands/cut_plan.h"
#include "cli/document/document.h"
#include "cli/document/json.h"
#include "cli/drawings/sketch.h"

#include <optional>
#include <string>
#include <vector>

namespace endband::cli {

// A material that is not cut, and why: "the customer brings it".
struct CutLeftOut {
  std::string code, name, why;
};

struct CutShown {
  bool buy_new = false;
  std::int64_t work = 0;
  Currency currency;
  std::vector<CutMaterial> materials;
  std::vector<CutLeftOut> left_out;
  std::vector<std::string> orders;  // whose the pieces are, where several are cut together
  std::vector<Drawing> drawings;
  std::optional<std::string> folder;  // that they are written to
  bool dry_run = false;

  bool all_planned() const;
};

// One for each piece of stock that is cut and can be drawn.
std::optional<Drawing> cut_drawing(CutShown const& shown, CutMaterial const& cut, CutUse const& use,
                                   std::string const& of, OnPaper const& on = {});
std::vector<Drawing> cut_drawings(CutShown const& shown, std::string const& of);
std::string cut_drawing_file(Drawing const& drawing);  // "cut-1.svg"
// Into the folder of --svg, over nothing that is there unless --yes: asked before anything is written.
Read<void> may_write_cut_drawings(Context const& context, Args const& args, CutShown const& shown);
Read<void> write_cut_drawings(Context const& context, CutShown const& shown);
std::int64_t cut_work(Args const& args);  // --work, else the usual

// Section by section, a material each.
void add_cuts(Document& document, CutShown const& shown);
Table cut_steps_table(CutMaterial const& cut, CutUse const& use);  // the cuts in their order
void add_cut_drawings(Document& document, CutShown const& shown);
// Members of both documents.
Json::Object cuts_json(CutShown const& shown);

}  // namespace endband::cli
