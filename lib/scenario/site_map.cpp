#include "scenario/site_map.hpp"

// What the header promises to be compiled here.
template class std::vector<spadework::Place>;
template class std::vector<spadework::OpeningMethod>;
template class std::vector<spadework::Ground>;
template class std::vector<spadework::FixedCharge>;
template class std::vector<spadework::Segment>;
template class std::vector<spadework::Area>;
template class std::vector<spadework::StraightSegment>;
template class std::vector<spadework::BarredSegment>;
