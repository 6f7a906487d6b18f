#include "engine/measure/measure.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <limits>
#include <string>

namespace {

rc::Gen<std::int64_t> whole() {
  constexpr std::int64_t least = std::numeric_limits<std::int64_t>::min();
  constexpr std::int64_t most = std::numeric_limits<std::int64_t>::max();
  return rc::gen::oneOf(rc::gen::inRange<std::int64_t>(-2'000'000, 2'000'000),
                        rc::gen::arbitrary<std::int64_t>(), rc::gen::inRange(least, most),
                        rc::gen::element(least, most, std::int64_t{0}));
}

// Text as a hurried hand or a hostile file has it: the letters of measures, and any bytes.
rc::Gen<std::string> text() {
  auto const familiar = rc::gen::elementOf(std::string("0123456789  .,-/x\"mcgkhindftlosqA"));
  auto const one = rc::gen::weightedOneOf<char>({{9, familiar}, {1, rc::gen::arbitrary<char>()}});
  return rc::gen::container<std::string>(one);
}

template <class T>
void refuses_or_reads(endband::Read<T> const& read, std::string const& said) {
  if (read) return;
  RC_ASSERT(read.error().size() == 1U);
  RC_ASSERT(said.find(read.error().front().found) != std::string::npos);
  RC_ASSERT(!read.error().front().expected.empty());
}

}  // namespace

TEST_CASE("the readers take what the exact writers write") {
  CHECK(rc::check([] {
    std::int64_t const n = *whole();
    RC_ASSERT(endband::read_length(length_mm(endband::Length{n}) + " mm")->n == n);
    RC_ASSERT(endband::read_area(area_cm2(endband::Area{n}) + " cm2")->n == n);
    RC_ASSERT(endband::read_duration(duration_text(endband::Duration{n}))->n == n);
  }));
}

TEST_CASE("an amount shown to three figures is read back to within its last figure") {
  CHECK(rc::check([] {
    auto const dimension = *rc::gen::element(endband::Dimension::length, endband::Dimension::area,
                                             endband::Dimension::mass, endband::Dimension::volume);
    std::int64_t const n = *rc::gen::inRange<std::int64_t>(1'000, 1'000'000'000'000'000);
    endband::Amount const shown{dimension, n};
    endband::Amount const read = endband::read_amount(amount_text(shown)).value();
    RC_ASSERT(read.dimension == dimension);
    std::int64_t const off = read.n > n ? read.n - n : n - read.n;
    RC_ASSERT(off <= n / 200 + 1);  // half a unit of the third figure: at most 1/200
  }));
}

TEST_CASE("the readers read or refuse whatever they are given") {
  CHECK(rc::check([] {
    std::string const said = *text();
    refuses_or_reads(endband::read_length(said), said);
    refuses_or_reads(endband::read_area(said), said);
    refuses_or_reads(endband::read_mass(said), said);
    refuses_or_reads(endband::read_volume(said), said);
    refuses_or_reads(endband::read_duration(said), said);
    refuses_or_reads(endband::read_thickness(said), said);
    refuses_or_reads(endband::read_count(said), said);
    refuses_or_reads(endband::read_amount(said), said);
    refuses_or_reads(endband::read_sheet_size(said), said);
    refuses_or_reads(endband::read_thread_number(said), said);
    refuses_or_reads(endband::read_date(said), said);
  }));
}

TEST_CASE("a length is the same in whichever metric unit it is said") {
  CHECK(rc::check([] {
    std::int64_t const mm = *rc::gen::inRange<std::int64_t>(0, 10'000);
    endband::Length const expected{mm * 1000};
    RC_ASSERT(endband::read_length(std::to_string(mm) + " mm").value() == expected);
    RC_ASSERT(endband::read_length(std::to_string(mm) + "/10 cm").value() == expected);
    RC_ASSERT(endband::read_length(std::to_string(mm * 1000) + " um").value() == expected);
  }));
}

TEST_CASE("checked sums and products agree with wider arithmetic or throw") {
  CHECK(rc::check([] {
    std::int64_t const a = *rc::gen::inRange<std::int64_t>(-4'000'000'000, 4'000'000'000);
    std::int64_t const b = *rc::gen::inRange<std::int64_t>(-4'000'000'000, 4'000'000'000);
    RC_ASSERT(endband::checked_add(a, b) == a + b);
    RC_ASSERT(endband::checked_sub(a, b) == a - b);
    auto const product = static_cast<long double>(a) * static_cast<long double>(b);  // 64 bits of mantissa
    bool const fits = product >= -0x1p63L && product < 0x1p63L;
    try {
      std::int64_t const result = endband::checked_mul(a, b);
      RC_ASSERT(fits);
      RC_ASSERT(static_cast<long double>(result) == product);
    } catch (endband::Overflow const&) {
      RC_ASSERT_FALSE(fits);
    }
  }));
}
