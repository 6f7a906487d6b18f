#include "engine/cutting/check/check.h"

namespace endband::cutting {

std::string_view broken_name(Broken broken) {
  switch (broken) {
    case Broken::no_such_stock: return "no-such-stock";
    case Broken::no_such_piece: return "no-such-piece";
    case Broken::too_many_stock: return "too-many-stock";
    case Broken::demand: return "demand";
    case Broken::too_long: return "too-long";
    case Broken::counts: return "counts";
    case Broken::times: return "times";
    case Broken::no_such_part: return "no-such-part";
    case Broken::cut_twice: return "cut-twice";
    case Broken::cut_outside: return "cut-outside";
    case Broken::part_size: return "part-size";
    case Broken::part_place: return "part-place";
    case Broken::part_used_twice: return "part-used-twice";
    case Broken::grain: return "grain";
    case Broken::angle: return "angle";
    case Broken::outside: return "outside";
    case Broken::in_flaw: return "in-flaw";
    case Broken::overlap: return "overlap";
    case Broken::grade: return "grade";
    case Broken::group: return "group";
    case Broken::margin: return "margin";
    case Broken::kept: return "kept";
    case Broken::left: return "left";
    case Broken::length: return "length";
    case Broken::cost: return "cost";
    case Broken::bound: return "bound";
    case Broken::outcome: return "outcome";
  }
  return "unknown";
}

}  // namespace endband::cutting
