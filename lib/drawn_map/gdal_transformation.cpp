#include "drawn_map/gdal_transformation.hpp"

#ifdef SPADEWORK_WITH_GDAL

#include <cmath>
#include <ogr_spatialref.h>

#include <fmt/format.h>

#include "drawn_map/coordinate_systems.hpp"

namespace spadework::drawn_map {

struct GdalTransformation::Handle {
    struct Destroy {
        void operator()(OGRCoordinateTransformation* it) const { OGRCoordinateTransformation::DestroyCT(it); }
    };
    std::unique_ptr<OGRCoordinateTransformation, Destroy> transformation;
};

GdalTransformation::GdalTransformation() = default;
GdalTransformation::~GdalTransformation() = default;
GdalTransformation::GdalTransformation(GdalTransformation&&) noexcept = default;
GdalTransformation& GdalTransformation::operator=(GdalTransformation&&) noexcept = default;

std::string GdalTransformation::from(const OGRSpatialReference& system) {
    OGRSpatialReference source(system);
    OGRSpatialReference target;
    target.SetWellKnownGeogCS("WGS84");
    source.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    target.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    handle_ = std::make_unique<Handle>();
    handle_->transformation.reset(OGRCreateCoordinateTransformation(&source, &target));
    return handle_->transformation ? "" : "no way from its coordinate system to WGS 84 is known";
}

std::string GdalTransformation::from(const std::string& name) {
    OGRSpatialReference system;
    const char* no_files_no_network[] = {"ALLOW_NETWORK_ACCESS=NO", "ALLOW_FILE_ACCESS=NO", nullptr};
    if (system.SetFromUserInput(name.c_str(), no_files_no_network) != OGRERR_NONE)
        return "no coordinate system of that name is known";
    return from(system);
}

bool GdalTransformation::turn(Position& at) const {
    if (!handle_) return true;
    return handle_->transformation->Transform(1, &at.x, &at.y) != 0 && std::isfinite(at.x) && std::isfinite(at.y);
}

bool has_gdal() {
    return true;
}

std::string turn_into_wgs84(std::vector<Feature>& features, const std::string& system) {
    CPLPushErrorHandler(CPLQuietErrorHandler);
    GdalTransformation transformation;
    std::string problem = transformation.from(system);
    for (Feature& feature : features) {
        for (std::vector<Position>& part : feature.parts) {
            for (Position& at : part) {
                if (!problem.empty()) break;
                const Position before = at;
                if (!transformation.turn(at)) problem = fmt::format("it has no place {}, {}", before.x, before.y);
            }
        }
    }
    CPLPopErrorHandler();
    return problem;
}

}  // namespace spadework::drawn_map

#endif
