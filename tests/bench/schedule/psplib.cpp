#include "tests/bench/schedule/psplib.h"

#include <array>
#include <sstream>
#include <string>
#include <vector>

namespace endband::schedule::bench {

namespace {

using Numbers = std::vector<int>;

void require(bool holds, char const* what) {
  if (!holds) throw Unreadable(what);
}

struct Sections {
  Numbers links, requests, available;
  int consumed = 0;  // resources that are used up, nonrenewable or doubly constrained
};

int first_number(std::string const& line) {
  std::size_t const digit = line.find_first_of("0123456789");
  return digit == std::string::npos ? 0 : std::stoi(line.substr(digit));
}

// The numbers below each heading, wherever lines are broken; lines with anything else in them are headings.
Sections read_sections(std::istream& in) {
  Sections sections;
  Numbers* section = nullptr;
  for (std::string line; std::getline(in, line);) {
    auto const says = [&](char const* words) { return line.find(words) != std::string::npos; };
    if (says("PRECEDENCE RELATIONS")) {
      section = &sections.links;
    } else if (says("REQUESTS/DURATIONS")) {
      section = &sections.requests;
    } else if (says("RESOURCEAVAILABILITIES")) {
      section = &sections.available;
    } else if (says("- nonrenewable") || says("- doubly constrained")) {
      sections.consumed += first_number(line.substr(line.find(':') + 1));
    } else if (section != nullptr && line.find_first_not_of("0123456789 \t\r") == std::string::npos) {
      std::istringstream numbers(line);
      for (int number = 0; numbers >> number;) section->push_back(number);
    } else if (line.compare(0, 4, "****") == 0) {
      section = nullptr;
    }
  }
  return sections;
}

void read_requests(Sections const& sections, Project& project) {
  std::size_t const width = 3 + sections.available.size();
  require(!sections.available.empty(), "no resources");
  require(!sections.requests.empty() && sections.requests.size() % width == 0,
          "the requests are not one line a job");
  for (std::size_t i = 0; i < sections.requests.size(); i += width) {
    require(sections.requests[i] == static_cast<int>(i / width) + 1 && sections.requests[i + 1] == 1,
            "the requests are not one mode a job, in order");
    Task task;
    task.work = sections.requests[i + 2];
    for (std::size_t k = 3; k < width; ++k)
      if (int const amount = sections.requests[i + k]; amount > 0)
        task.demands.push_back({static_cast<int>(k - 3), amount, false});
    project.tasks.push_back(std::move(task));
  }
}

void read_links(Numbers const& numbers, Project& project) {
  int const jobs = static_cast<int>(project.tasks.size());
  std::size_t next = 0;
  auto const number = [&] {
    require(next < numbers.size(), "the successors end too soon");
    return numbers[next++];
  };
  for (int job = 0; job < jobs; ++job) {
    require(number() == job + 1, "the successors are not by job");
    require(number() == 1, "a job has several modes");
    for (int left = number(); left > 0; --left) {
      int const successor = number();
      require(successor >= 1 && successor <= jobs, "a successor is no job");
      project.tasks[static_cast<std::size_t>(successor) - 1].after.push_back(
          {job, LinkKind::finish_start, 0});
    }
  }
  require(next == numbers.size(), "more successors than jobs");
}

}  // namespace

Project read_psplib(std::istream& in) {
  Sections const sections = read_sections(in);
  require(sections.consumed == 0, "it has resources that are used up");
  Project project;
  for (int capacity : sections.available) project.resources.push_back({capacity, -1});
  read_requests(sections, project);
  read_links(sections.links, project);
  return project;
}

}  // namespace endband::schedule::bench
