#include "db/seal.h"

#include <bit>

namespace endband::db {

std::int64_t Seal::number() const { return std::bit_cast<std::int64_t>(state_); }

void Seal::add(unsigned char byte) { state_ = (state_ ^ byte) * 1099511628211u; }

void Seal::put_integer(std::int64_t value) {
  add('i');
  for (unsigned shift = 0; shift < 64; shift += 8)
    add(static_cast<unsigned char>(std::bit_cast<std::uint64_t>(value) >> shift));
}

void Seal::put_text(std::string_view value) {
  add('t');
  put_integer(static_cast<std::int64_t>(value.size()));  // so that "ab", "c" is not "a", "bc"
  for (char c : value) add(static_cast<unsigned char>(c));
}

void Seal::put_null() { add('n'); }

}  // namespace endband::db
