// What a reader told, in a form that a test can state: "3:9 contradiction discount: kind = "trade", or ...".
#pragma once

#include "engine/fault/fault.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace endband::testing {

using Told = std::vector<std::string>;

inline std::string told(Fault const& fault) {
  std::string text = std::to_string(fault.where.line) + ':' + std::to_string(fault.where.column) + ' ' +
                     std::string(fault_row(fault.code).name) + ' ' + fault.where.field + ": " +
                     fault.expected;
  for (std::string const& near : fault.near) text += '?' + near;
  return text;
}

template <class T>
Told told(Read<T> const& read) {
  Told all;
  if (!read)
    for (Fault const& fault : read.error()) all.push_back(told(fault));
  return all;
}

inline std::string text_of(std::filesystem::path const& path) {
  std::ifstream file(path);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

// The texts of a folder of sample_data.
inline std::vector<std::filesystem::path> samples(std::string const& folder) {
  std::vector<std::filesystem::path> found;
  for (auto const& entry : std::filesystem::directory_iterator(std::filesystem::path(ENDBAND_SOURCE_DIR) /
                                                               "sample_data" / folder))
    if (entry.path().extension() == ".toml") found.push_back(entry.path());
  return found;
}

}  // namespace endband::testing

template <>
struct doctest::StringMaker<endband::testing::Told> {
  static doctest::String convert(endband::testing::Told const& list) {
    std::string text;
    for (std::string const& item : list) text += "\n  " + item;
    return text.c_str();
  }
};
