#include "catalogue/catalogue.hpp"

// What the header promises to be compiled here.
template class std::vector<spadework::CableProduct>;
template class std::vector<spadework::EnclosureProduct>;
template class std::vector<spadework::OpticProduct>;
template class std::vector<spadework::AttenuatorProduct>;
template class std::vector<spadework::BuildingGearProduct>;
template class std::vector<spadework::HubGearProduct>;
template class std::vector<spadework::PatchCordProduct>;
