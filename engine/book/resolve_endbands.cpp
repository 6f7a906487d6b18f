// The pattern of the silks of an endband.
#include "engine/book/resolve.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <string>
#include <vector>

namespace endband {
namespace {

using Codes = std::vector<std::string>;

Codes const& codes_of(Hit const& hit) { return std::get<Codes>(hit.entry->value); }

// Those of `codes` that are not among `others`, each once.
Codes strays(Codes const& codes, Codes const& others) {
  Codes found;
  for (std::string const& code : codes) {
    bool const known = std::find(others.begin(), others.end(), code) != others.end();
    if (!known && std::find(found.begin(), found.end(), code) == found.end()) found.push_back(code);
  }
  return found;
}

void resolve_pattern(Resolving& to) {
  Hit const& pattern = to.layers[key("endbands.pattern")];
  Hit const& silk = to.layers[key("endbands.silk")];
  if (!pattern || !silk) return;
  Codes const unknown = strays(codes_of(pattern), codes_of(silk));
  // A habit of other silks than those that are said: these are worked each in turn.
  if (!unknown.empty() && silk.layer < pattern.layer) return;
  for (std::string const& code : unknown)
    to.fault(FaultCode::contradiction, pattern.entry->where, code,
             fmt::format("one of endbands.silk: {}", fmt::join(codes_of(silk), ", ")));
  if (silk.layer == pattern.layer)
    for (std::string const& code : strays(codes_of(silk), codes_of(pattern)))
      to.fault(FaultCode::contradiction, pattern.entry->where, fmt::format("no wrap of {}", code),
               "a wrap of every silk of endbands.silk");
  for (std::string const& code : codes_of(pattern))
    if (Material const* const material = to.catalogue.find(code))
      to.spec.silk_pattern.push_back(material->id);  // its kind is checked as a silk
}

}  // namespace

void resolve_endbands(Resolving& to) {
  if (to.parts.has(Part::endbands) && !to.parts.is(Way::stuck_on)) resolve_pattern(to);
}

}  // namespace endband
