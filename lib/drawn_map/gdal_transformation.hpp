#pragma once

#include <memory>
#include <string>

#include "scenario/scenario.hpp"

class OGRSpatialReference;

namespace spadework::drawn_map {

/// Turns positions of one coordinate system into longitude and latitude on WGS 84, by GDAL. Only in builds with GDAL.
class GdalTransformation {
public:
    /// Leaves positions as they are.
    GdalTransformation();
    ~GdalTransformation();
    GdalTransformation(GdalTransformation&&) noexcept;
    GdalTransformation& operator=(GdalTransformation&&) noexcept;

    /// From a system, or from one by its name: "EPSG:32618". Returns why it cannot; empty where it can.
    std::string from(const OGRSpatialReference& system);
    std::string from(const std::string& name);

    /// x, y (east, north) in the system to longitude, latitude. False where the system has no such place.
    bool turn(Position& at) const;

private:
    struct Handle;
    std::unique_ptr<Handle> handle_;
};

}  // namespace spadework::drawn_map
