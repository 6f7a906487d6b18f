// The table of keys and what hangs on it: roles, models, practice.
#include "engine/book/rule.h"
#include "engine/book/spec.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <set>

using namespace endband;

TEST_CASE("every key has help, and a range or choices where its type wants one") {
  for (KeyRow const& row : description_keys()) {
    CAPTURE(row.path);
    CHECK_FALSE(row.help.empty());
    CHECK(row.since == 1);
    CHECK(row.least <= row.most);
    bool const ranged = row.type != ValueType::code && row.type != ValueType::choice &&
                        row.type != ValueType::flag && row.type != ValueType::date;
    CHECK((row.most > 0) == ranged);
    CHECK((row.type == ValueType::choice) <= !row.choices.empty());
  }
}

TEST_CASE("every role has a key of a code, and what it takes otherwise may fit it") {
  for (std::size_t i = 0; i < role_count; ++i) {
    RoleRow const& row = role_row(static_cast<Role>(i));
    CAPTURE(row.key);
    KeyRow const* const key = key_named(description_keys(), row.key);
    REQUIRE(key != nullptr);
    CHECK((key->type == ValueType::code || key->type == ValueType::codes));
    CHECK_FALSE(row.kinds.empty());
    if (!row.otherwise) continue;
    auto const& others = role_row(*row.otherwise).kinds;
    CHECK(std::any_of(others.begin(), others.end(), [&](MaterialKind kind) {
      return std::find(row.kinds.begin(), row.kinds.end(), kind) != row.kinds.end();
    }));
  }
}

TEST_CASE("the models that may be chosen are those that are there") {
  std::string choices;
  for (Model const& model : models()) choices += (choices.empty() ? "" : "|") + std::string(model.name);
  CHECK(key_named(description_keys(), "model")->choices == choices);
}

TEST_CASE("every model is read whole, says its binding, and names no material and no title") {
  std::set<std::string_view> said;
  for (Model const& model : models()) {
    CAPTURE(model.name);
    CHECK(said.insert(model.what).second);
    CHECK(model.text.find('#') != std::string_view::npos);  // a model explains itself
    auto const text = model_text(model.name);
    REQUIRE(text.has_value());
    CHECK(text->find("binding") != nullptr);
    CHECK(text->find("title") == nullptr);
    auto const names_material = [](Entry const& entry) {
      KeyRow const* const row = key_named(description_keys(), entry.key);
      return row != nullptr && (row->type == ValueType::code || row->type == ValueType::codes) &&
             entry.key != "without";
    };
    CHECK(std::none_of(text->entries.begin(), text->entries.end(), names_material));
  }
}

TEST_CASE("practice is read, and says nothing that a model or a description alone can say") {
  std::set<std::string_view> const forbidden{"title",   "height",  "width", "pages",
                                             "leather", "without", "model"};
  for (Entry const& entry : practice().entries) {
    CAPTURE(entry.key);
    CHECK_FALSE(forbidden.contains(entry.key));
    KeyRow const* const row = key_named(description_keys(), entry.key);
    CHECK((row == nullptr || row->type != ValueType::code));  // it names no material
  }
}
