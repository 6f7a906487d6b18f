// How often what was planted in a year is named, and how often a year of nothing has a finding at all.
#include "engine/review/findings.h"
#include "tests/engine/review/invented_year.h"

#include <doctest/doctest.h>

#include <map>

using endband::Finding;
using endband::FindingKind;
using endband::findings;
using endband::OperationKind;
using endband::invented::Noise;
using endband::invented::Truths;

namespace {

constexpr int years = 200;

struct Rates {
  std::map<std::pair<FindingKind, std::string>, int> named;
  int any = 0;

  double of(FindingKind what, std::string const& name) const {
    auto const it = named.find({what, name});
    return it == named.end() ? 0 : it->second / double{years};
  }
  double of_any() const { return any / double{years}; }
};

Rates rates(Truths const& truths, Noise const& noise = {}, int jobs = 70) {
  Rates result;
  for (std::uint64_t seed = 1; seed <= years; ++seed) {
    auto const year = endband::invented::year(seed, truths, noise, jobs);
    std::vector<Finding> const found = findings(year.jobs, year.steps);
    if (!found.empty()) ++result.any;
    for (Finding const& finding : found) ++result.named[{finding.what, finding.name}];
  }
  return result;
}

}  // namespace

TEST_CASE("Each planted truth is named in at least nine of ten years") {
  Rates const found = rates({OperationKind::sew_sections, true, true});
  double const step = found.of(FindingKind::step_takes_longer, "sew-sections");
  double const outlet = found.of(FindingKind::outlet_loses, "fair");
  double const feature = found.of(FindingKind::feature_pays, "leaf");
  MESSAGE("named in " << years << " years: the step " << step << ", the outlet " << outlet << ", the feature "
                      << feature);
  CHECK(step >= 0.9);
  CHECK(outlet >= 0.9);
  CHECK(feature >= 0.9);
}

namespace {

void check_plain(std::string const& words, Noise const& noise, int jobs) {
  Rates const found = rates({}, noise, jobs);
  MESSAGE("any finding in " << years << " plain years of " << jobs << " jobs, " << words << ": "
                            << found.of_any());
  CHECK(found.of_any() <= 0.05);
}

}  // namespace

TEST_CASE("A year of nothing has a finding once in twenty at most") { check_plain("usual noise", {}, 70); }

TEST_CASE("Nor has one of few jobs") { check_plain("usual noise", {}, 24); }

TEST_CASE("Nor one in which every job is a surprise") { check_plain("much noise", {0.2, 0.4, 0}, 30); }

TEST_CASE("Nor one in which now and then a step takes three times as long") {
  check_plain("rare bad steps", {0.08, 0.18, 0.04}, 40);
}
