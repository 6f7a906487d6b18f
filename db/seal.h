// A number over all values of a part of a quote, kept beside it: `check` sees a changed figure even where no
// other figure follows from it. It guards against damage and slips of the hand, not against someone who seals
// anew.
#pragma once

#include "db/values.h"

#include <cstdint>
#include <string_view>

namespace endband::db {

// FNV-1a of 64 bits (Fowler, Noll, Vo; parameters from memory) over the kind and the bytes of each value in
// order.
class Seal final : public Sink {
 public:
  using Sink::Sink;
  std::int64_t number() const;

 private:
  void put_integer(std::int64_t value) override;
  void put_text(std::string_view value) override;
  void put_null() override;
  void add(unsigned char byte);

  std::uint64_t state_ = 14695981039346656037u;
};

}  // namespace endband::db
