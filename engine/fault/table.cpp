// The stable name and the exit code of every fault.
#include "engine/fault/fault.h"

#include <array>
#include <cstddef>

namespace endband {
namespace {

// 1: what was asked is well formed, and the workshop as it stands forbids it or cannot answer it.
// 2: the command line or the input file has to be changed.
// 3: a file or the workshop could not be read or written.
constexpr std::array table{
    FaultRow{FaultCode::bad_command, "bad-command", 2},
    FaultRow{FaultCode::bad_value, "bad-value", 2},
    FaultRow{FaultCode::bad_syntax, "bad-syntax", 2},
    FaultRow{FaultCode::unknown_key, "unknown-key", 2},
    FaultRow{FaultCode::missing_key, "missing-key", 2},
    FaultRow{FaultCode::wrong_type, "wrong-type", 2},
    FaultRow{FaultCode::missing_unit, "missing-unit", 2},
    FaultRow{FaultCode::wrong_unit, "wrong-unit", 2},
    FaultRow{FaultCode::ambiguous_number, "ambiguous-number", 2},
    FaultRow{FaultCode::out_of_range, "out-of-range", 2},
    FaultRow{FaultCode::contradiction, "contradiction", 2},
    FaultRow{FaultCode::refused_part, "refused-part", 2},
    FaultRow{FaultCode::unknown_material, "unknown-material", 2},
    FaultRow{FaultCode::wrong_kind, "wrong-kind", 2},
    FaultRow{FaultCode::missing_property, "missing-property", 1},
    FaultRow{FaultCode::no_price, "no-price", 1},
    FaultRow{FaultCode::currency_mismatch, "currency-mismatch", 1},
    FaultRow{FaultCode::does_not_fit, "does-not-fit", 2},
    FaultRow{FaultCode::missing_step, "missing-step", 1},
    FaultRow{FaultCode::missing_setting, "missing-setting", 1},
    FaultRow{FaultCode::bad_goal, "bad-goal", 2},
    FaultRow{FaultCode::too_large, "too-large", 2},
    FaultRow{FaultCode::unknown_code, "unknown-code", 2},
    FaultRow{FaultCode::already_exists, "already-exists", 1},
    FaultRow{FaultCode::rule_refused, "rule-refused", 1},
    FaultRow{FaultCode::changed_meanwhile, "changed-meanwhile", 1},
    FaultRow{FaultCode::broken_invariant, "broken-invariant", 1},
    FaultRow{FaultCode::file_missing, "file-missing", 3},
    FaultRow{FaultCode::file_unusable, "file-unusable", 3},
    FaultRow{FaultCode::not_a_workshop, "not-a-workshop", 3},
    FaultRow{FaultCode::newer_workshop, "newer-workshop", 3},
    FaultRow{FaultCode::workshop_busy, "workshop-busy", 3},
};

// fault_row indexes the table by the code.
constexpr bool in_code_order() {
  for (std::size_t i = 0; i < table.size(); ++i)
    if (static_cast<std::size_t>(table[i].code) != i) return false;
  return true;
}
static_assert(in_code_order());
static_assert(table.back().code == FaultCode::workshop_busy, "every code has its row");

}  // namespace

std::span<FaultRow const> fault_table() { return table; }

FaultRow const& fault_row(FaultCode code) { return table.at(static_cast<std::size_t>(code)); }

}  // namespace endband
