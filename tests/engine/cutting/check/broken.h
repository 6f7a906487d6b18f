// What a check says, as one line of names: each once, in alphabetical order.
#pragma once

#include "engine/cutting/check/check.h"

#include <set>
#include <string>

namespace endband::cutting {

inline std::string names(std::vector<PlanFault> const& faults) {
  std::set<std::string> once;
  for (PlanFault const& fault : faults) once.emplace(broken_name(fault.broken));
  std::string line;
  for (std::string const& name : once) line += (line.empty() ? "" : " ") + name;
  return line;
}

// A good plan with one thing changed.
template <class Request, class Plan, class Change>
std::string broken_by(Request const& request, Plan plan, Change const& change) {
  change(plan);
  return names(check(request, plan));
}

}  // namespace endband::cutting
