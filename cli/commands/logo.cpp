#include "cli/commands/logo.h"

#include "cli/commands/shop_parts.h"

#include <cstdint>
#include <optional>
#include <string_view>

namespace endband::cli {
namespace {

constexpr std::string_view signature = "\x89PNG\r\n\x1A\n";
constexpr std::size_t most_bytes = 1'000'000;
constexpr std::uint32_t most_dots = 10'000;
constexpr std::size_t around_chunk = 12;  // its length, its name and its checksum

std::uint32_t number_at(std::string_view bytes, std::size_t at) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < 4; ++i) value = value << 8U | static_cast<unsigned char>(bytes[at + i]);
  return value;
}

std::string beside(std::string const& workshop, std::string const& file) {
  std::size_t const slash = workshop.rfind('/');
  return file.starts_with('/') || slash == std::string::npos ? file : workshop.substr(0, slash + 1) + file;
}

}  // namespace

std::optional<Dots> png_size(std::string_view bytes) {
  if (!bytes.starts_with(signature)) return std::nullopt;
  std::optional<Dots> size;
  std::string_view last;
  for (std::size_t at = signature.size(); at < bytes.size();) {
    if (bytes.size() - at < around_chunk) return std::nullopt;
    std::uint32_t const length = number_at(bytes, at);
    if (length > bytes.size() - at - around_chunk) return std::nullopt;
    last = bytes.substr(at + 4, 4);
    if (!size && (last != "IHDR" || length != 13)) return std::nullopt;
    if (!size) size = Dots{number_at(bytes, at + 8), number_at(bytes, at + 12)};
    at += around_chunk + length;
  }
  if (last != "IEND" || size->width == 0 || size->height == 0) return std::nullopt;
  return size;
}

Read<std::string> logo_of(Context& context, db::Workshop& workshop, Date on) {
  std::string const named = setting_in_force(workshop, "maker.logo", on);
  if (named.empty()) return std::string();
  std::string const file = beside(context.workshop_path, named);
  auto bytes = context.read_file(file);
  if (!bytes) {
    for (Fault& fault : bytes.error()) fault.expected = "the picture that the setting maker.logo names";
    return bytes;
  }
  auto const size = png_size(*bytes);
  if (!size || bytes->size() > most_bytes || size->width > most_dots || size->height > most_dots)
    return refuse({FaultCode::bad_value,
                   {file, 0, 0, "maker.logo"},
                   "this file",
                   "a PNG picture of a megabyte and 10000 dots a side at most",
                   {}});
  return bytes;
}

}  // namespace endband::cli
