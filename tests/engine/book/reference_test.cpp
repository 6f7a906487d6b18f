// The schema and the reference page of descriptions say what the table of keys says.
#include "tests/engine/book/reference.h"

#include "engine/book/spec.h"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include <cstdlib>
#include <fstream>
#include <sstream>

using namespace endband;

namespace {

// The file as it stands; written anew first when ENDBAND_WRITE_REFERENCE is set.
std::string kept(std::string const& name, std::string const& made) {
  std::string const path = std::string(ENDBAND_SOURCE_DIR) + "/schema/" + name;
  if (std::getenv("ENDBAND_WRITE_REFERENCE") != nullptr) std::ofstream(path) << made;
  std::stringstream text;
  text << std::ifstream(path).rdbuf();
  return text.str();
}

bool all_closed(nlohmann::json const& schema) {
  if (!schema.is_object() && !schema.is_array()) return true;
  if (schema.is_object() && schema.contains("properties") && schema.value("additionalProperties", true))
    return false;
  for (auto const& part : schema)
    if (!all_closed(part)) return false;
  return true;
}

}  // namespace

TEST_CASE("schema/description.schema.json is the table of keys") {
  CHECK(kept("description.schema.json", description_schema()) == description_schema());
}

TEST_CASE("schema/description.md is the table of keys") {
  CHECK(kept("description.md", description_page()) == description_page());
}

TEST_CASE("the schema is closed and has every key at its place") {
  auto const schema = nlohmann::json::parse(description_schema());
  CHECK(all_closed(schema));
  for (KeyRow const& row : description_keys()) {
    CAPTURE(row.path);
    std::string pointer = "/properties/" + std::string(row.path);
    for (std::size_t at; (at = pointer.find("[].")) != std::string::npos;)
      pointer.replace(at, 3, "/items/properties/");
    for (std::size_t at; (at = pointer.find('.')) != std::string::npos;)
      pointer.replace(at, 1, "/properties/");
    CHECK(schema.contains(nlohmann::json::json_pointer(pointer)));
  }
}
