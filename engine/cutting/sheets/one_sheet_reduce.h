// A task without what cannot matter: wants that fit nowhere or bring nothing, copies that never fit, equal
// wants apart, and a common divisor of all lengths.
#pragma once

#include "engine/cutting/sheets/one_sheet.h"

namespace endband::cutting::one_sheet {

struct Reduced {
  Task task;
  std::vector<std::vector<std::size_t>> from;  // of each want: those of the task before
  bool whole = true;                           // no copies that may matter were dropped
};
Reduced reduce(Task const& task);
// The filling of the task before, of the tree of the reduced one.
Filling restore(Task const& task, Reduced const& reduced, Tree const& tree);

}  // namespace endband::cutting::one_sheet
