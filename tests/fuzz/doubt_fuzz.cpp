#include <cstddef>
#include <cstdint>

#include "fuzz/support/inputs.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    spadework::fuzz::try_doubt({reinterpret_cast<const char*>(data), size});
    return 0;
}
