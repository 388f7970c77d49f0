#include "layout/plan.hpp"

namespace spadework {

const char* id_of(LayoutKind kind) {
    switch (kind) {
        case LayoutKind::home_runs:
            return "home-runs";
        case LayoutKind::trunk_one:
            return "trunk-one";
        case LayoutKind::trunk:
            return "trunk";
        case LayoutKind::mixed:
            return "mixed";
        case LayoutKind::daisy_chain:
            return "daisy-chain";
        case LayoutKind::ring:
            return "ring";
    }
    return "home-runs";
}

const char* name_of(LayoutKind kind) {
    switch (kind) {
        case LayoutKind::home_runs:
            return "Home runs";
        case LayoutKind::trunk_one:
            return "Trunk, one enclosure";
        case LayoutKind::trunk:
            return "Trunk";
        case LayoutKind::mixed:
            return "Mixed";
        case LayoutKind::daisy_chain:
            return "Daisy chain";
        case LayoutKind::ring:
            return "Ring";
    }
    return "Home runs";
}

}  // namespace spadework

template class std::vector<spadework::PlannedCable>;
template class std::vector<spadework::PlannedEnclosure>;
template class std::vector<spadework::PlannedLink>;
