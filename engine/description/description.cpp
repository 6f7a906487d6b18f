// The reader of whole descriptions: parse, look at the first line, check every key.
#include "engine/description/description.h"

#include "engine/description/raw.h"
#include "engine/description/text.h"

#include <algorithm>
#include <optional>
#include <tuple>

namespace endband {
namespace {

constexpr std::string_view version_key = "endband";
constexpr std::int64_t newest_version = 1;
constexpr std::string_view first_line = "endband = 1, as the first line";

RawMember const* version_of(Raw const& root) {
  auto const it = std::find_if(root.members.begin(), root.members.end(),
                               [](RawMember const& member) { return member.key == version_key; });
  return it == root.members.end() ? nullptr : &*it;
}

// A description of a newer form has keys that this program calls unknown: only its version is worth a word.
std::optional<Fault> newer_form(Raw const& root, std::string const& source) {
  RawMember const* const version = version_of(root);
  if (version == nullptr || version->value.is != Raw::Is::whole || version->value.whole <= newest_version)
    return std::nullopt;
  TextPlace const place = version->value.place;
  return Fault{FaultCode::out_of_range,
               {source, place.line, place.column, std::string(version_key)},
               version->value.text,
               "1; what is newer wants a newer program",
               {}};
}

std::optional<Fault> first_line_fault(Raw const& root, std::string const& source) {
  Fault fault{
      FaultCode::missing_key, {source, 1, 1, std::string(version_key)}, {}, std::string(first_line), {}};
  RawMember const* const version = version_of(root);
  if (version == nullptr) {
    if (!root.members.empty()) fault.found = shown(root.members.front().key);
    return fault;
  }
  if (version == &root.members.front()) return std::nullopt;
  fault.code = FaultCode::bad_syntax;
  fault.where.line = version->place.line;
  fault.where.column = version->place.column;
  fault.found = "endband, after other keys";
  return fault;
}

auto in_file(Where const& where) { return std::tie(where.line, where.column); }

}  // namespace

Readable read_readable(std::string_view text, std::string source, std::span<KeyRow const> keys) {
  auto const root = parse(text, source);
  if (!root) return {{source, {}}, root.error()};
  if (auto newer = newer_form(*root, source)) return {{source, {}}, {std::move(*newer)}};

  Readable result;
  if (auto fault = first_line_fault(*root, source)) result.faults.push_back(std::move(*fault));
  result.text.source = std::move(source);
  check(*root, keys, result.text, result.faults);
  std::stable_sort(result.faults.begin(), result.faults.end(),
                   [](Fault const& a, Fault const& b) { return in_file(a.where) < in_file(b.where); });
  std::stable_sort(result.text.entries.begin(), result.text.entries.end(),
                   [](Entry const& a, Entry const& b) { return in_file(a.where) < in_file(b.where); });
  return result;
}

Read<BookText> read_description(std::string_view text, std::string source, std::span<KeyRow const> keys) {
  Readable read = read_readable(text, std::move(source), keys);
  if (!read.faults.empty()) return tl::unexpected(std::move(read.faults));
  return std::move(read.text);
}

}  // namespace endband
