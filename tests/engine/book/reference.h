// The table of keys as a JSON Schema and as a page to read: what schema/description.schema.json and
// schema/description.md hold.
#pragma once

#include <string>

namespace endband {

std::string description_schema();  // draft 2020-12, of a description turned to JSON key by key
std::string description_page();    // Markdown

}  // namespace endband
