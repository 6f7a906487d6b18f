// What a command computed, of whatever type, and the two ways to show it. A view is a plain struct with,
// beside it,
//   Json to_json(View const&);  Document to_document(View const&);
// Computing it makes no text for people; showing it computes nothing. The JSON of a list has one array, its
// rows.
#pragma once

#include "cli/document/document.h"
#include "cli/document/json.h"

#include <memory>
#include <utility>

namespace endband::cli {

class Answer {
 public:
  template <class View>
  explicit Answer(View view) : shown_(std::make_unique<ViewOf<View>>(std::move(view))) {}

  Json json() const { return shown_->json(); }
  Document document() const { return shown_->document(); }

  // 1 where the command did its work and what it found is bad: a check that found a fault.
  int exit() const { return exit_; }
  Answer ending_with(int code) && {
    exit_ = code;
    return std::move(*this);
  }

 private:
  struct Shown {
    virtual ~Shown() = default;
    virtual Json json() const = 0;
    virtual Document document() const = 0;
  };
  template <class View>
  struct ViewOf final : Shown {
    explicit ViewOf(View v) : view(std::move(v)) {}
    Json json() const override { return to_json(view); }
    Document document() const override { return to_document(view); }
    View view;
  };
  std::unique_ptr<Shown> shown_;
  int exit_ = 0;
};

}  // namespace endband::cli
