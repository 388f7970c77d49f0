#include "support/routing_file.hpp"

#include <doctest/doctest.h>

namespace spadework::bench {

TEST_CASE("keywords of an STP file may be written in large or small letters") {
    const std::string text =
        "33D32945 STP File, STP Format Version 1.0\n\nSECTION Graph\nNodes 3\nEdges 2\nE 1 2 4\nE 2 3 5\nEND\n\n"
        "SECTION Terminals\nTerminals 2\nT 1\nT 3\nEND\n\nEOF\n";
    std::string small = text;
    for (char& c : small)
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    for (const std::string& written : {text, small}) {
        const RoutingCase read = read_routing_case(written, {});
        CHECK(read.errors.empty());
        CHECK(read.problem.edges.size() == 2);
        CHECK(read.problem.demands.size() == 1);
        CHECK(read.problem.vertex_count == 4);
    }
}

}  // namespace spadework::bench
