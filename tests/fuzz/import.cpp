// Any text as what can be taken in: a notebook of past commissions, tables of materials, stock and customers,
// a whole workshop as text. The first byte says which. Taken or refused with a place, and what was taken adds
// up.
#include "cli/document/json_line.h"
#include "tests/fuzz/target.h"
#include "tests/fuzz/workshop.h"

#include <array>
#include <fstream>
#include <string>
#include <string_view>
#include <vector>

using namespace endband;
using endband::fuzz::require;

namespace {

constexpr std::array kinds{"notebook", "material", "stock", "customer", "workshop", "line"};

std::vector<std::string> command_of(std::string_view kind) {
  if (kind == "notebook") return {"workshop", "import", "text"};
  if (kind == "workshop") return {"workshop", "new", "--from-text", "text", "--workshop", "anew.db"};
  return {std::string(kind), "import", "text"};
}

void one_line(std::string_view text) {
  cli::JsonLine line;
  auto const read = cli::read_json_line(text, line);
  if (!read)
    require(!read.error().empty() && !read.error().front().expected.empty(),
            "a fault says what would be right");
}

}  // namespace

extern "C" int LLVMFuzzerInitialize(int*, char***) { return fuzz::workshop_folder(), 0; }

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  if (size == 0) return 0;
  std::string_view const kind = kinds[data[0] % kinds.size()];
  std::string_view const text(reinterpret_cast<char const*>(data) + 1, size - 1);
  if (kind == "line") return one_line(text), 0;
  std::ofstream(fuzz::workshop_folder() + "/text", std::ios::binary) << text;
  cli::Outcome const outcome = fuzz::run(command_of(kind));
  if (outcome.exit == 4) std::fprintf(stderr, "%s\n", outcome.err.c_str());
  require(outcome.exit >= 0 && outcome.exit <= 3, "an exit code of a user's");
  require(outcome.exit == 0 || outcome.err.find("text") != std::string::npos, "a fault names the file");
  if (outcome.exit == 0) {
    require(fuzz::run({"workshop", "check"}).exit == 0, "what was taken adds up");
    fuzz::tidy();
  }
  return 0;
}
