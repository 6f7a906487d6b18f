// What libFuzzer calls (clang++ -fsanitize=fuzzer with csv_fuzz.cpp and the cli library); csv_test.cpp calls
// it with random bytes in every run.
#pragma once

#include <cstddef>
#include <cstdint>

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size);
