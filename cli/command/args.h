// The words and flags of one command line, each read by its type.
#pragma once

#include "cli/command/flag.h"
#include "engine/fault/fault.h"

#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace endband::cli {

class Args {
 public:
  Args() = default;
  Args(std::string command, std::vector<FlagValue> words, std::map<std::string, FlagValue, std::less<>> flags)
      : command_(std::move(command)), words_(std::move(words)), flags_(std::move(flags)) {}

  bool has(std::string_view flag) const { return flags_.contains(flag); }

  // The type must be the one that the command's row declares; another is a mistake of ours.
  template <class T>
  std::optional<T> get(std::string_view flag) const {
    auto const found = flags_.find(flag);
    if (found == flags_.end()) return std::nullopt;
    return std::get<T>(found->second);
  }
  // Of whatever type: to hand it on.
  std::optional<FlagValue> value(std::string_view flag) const {
    auto const found = flags_.find(flag);
    return found == flags_.end() ? std::nullopt : std::optional(found->second);
  }
  std::optional<std::string> text(std::string_view flag) const { return get<std::string>(flag); }

  // The words of a flag of codes, each once, in the order said; nullopt: it was not given.
  std::optional<std::vector<std::string>> codes(std::string_view flag) const;

  std::size_t word_count() const { return words_.size(); }
  template <class T = std::string>
  T const& word(std::size_t i) const {
    return std::get<T>(words_.at(i));
  }

  // As if a flag had not been said: where another part of the command reads it in another way.
  Args without(std::string_view flag) const {
    Args rest = *this;
    if (auto const found = rest.flags_.find(flag); found != rest.flags_.end()) rest.flags_.erase(found);
    return rest;
  }

  // Where a fault of this command line is: the command's words, and a flag or a word's name.
  Where where(std::string_view field) const { return {command_, 0, 0, std::string(field)}; }

 private:
  std::string command_;  // "material add"
  std::vector<FlagValue> words_;
  std::map<std::string, FlagValue, std::less<>> flags_;
};

}  // namespace endband::cli
