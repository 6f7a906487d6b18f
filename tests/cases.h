// Tests whose every case is dear: a brute force over all points, a solver at work, a sanitizer watching.
#pragma once

#include <rapidcheck.h>

#include <algorithm>
#include <iostream>
#include <utility>

namespace endband::testing {

#ifdef __clang__  // the sanitized builds are clang's
inline constexpr bool sanitized =
#if __has_feature(address_sanitizer)
    true;
#else
    false;
#endif
#else
inline constexpr bool sanitized = false;
#endif

// rc::check in one of so many of the cases that are asked for (RC_PARAMS), and in ten at least.
template <class Property>
bool check_one_in(int share, Property&& property) {
  using namespace rc::detail;
  TestParams params = configuration().testParams;
  params.maxSuccess = std::max(10, params.maxSuccess / share);
  TestResult const result = checkTestable(std::forward<Property>(property), TestMetadata(), params);
  if (result.template is<SuccessResult>()) return true;
  printResultMessage(result, std::cerr);
  return false;
}

}  // namespace endband::testing
