// What a page says around its document.
#pragma once

#include <string>

namespace endband::cli {

struct Page {
  std::string title{};  // of the file, as a window or a list of files shows it
  std::string foot{};   // at the foot of each page, before its number
  std::string mark{};   // across the top of a page that is not for everybody; empty: none
  std::string logo{};   // a PNG picture, at the head of the first page; empty: none
  std::string page = "Page", page_of = "of";  // "Page 1 of 2"
  bool letter = false;                        // US Letter; else A4
  std::string written_on{};                   // "2026-11-27": the file's own day, whenever it is written
};

}  // namespace endband::cli
