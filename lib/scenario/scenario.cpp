#include "scenario/scenario.hpp"

// What the header promises to be compiled here.
template class std::vector<spadework::Building>;
template class std::vector<spadework::DeviceGroup>;
template class std::vector<spadework::HubDevice>;
template class std::vector<spadework::FutureBuilding>;
