#include "drawn_map/gdal_reader.hpp"

#ifdef SPADEWORK_WITH_GDAL

#include <atomic>
#include <cmath>
#include <memory>
#include <mutex>
#include <ogrsf_frmts.h>

#include <fmt/format.h>

#include "drawn_map/coordinate_systems.hpp"
#include "drawn_map/gdal_transformation.hpp"
#include "drawn_map/plain_text.hpp"

namespace spadework::drawn_map {

namespace {

void register_drivers() {
    static std::once_flag once;
    std::call_once(once, [] {
        RegisterOGRGeoPackage();
        RegisterOGRShape();
        RegisterOGRDXF();
    });
}

/// Keeps GDAL's own messages from being printed while it lives.
struct Quietly {
    Quietly() { CPLPushErrorHandler(CPLQuietErrorHandler); }
    ~Quietly() { CPLPopErrorHandler(); }
    Quietly(const Quietly&) = delete;
    Quietly& operator=(const Quietly&) = delete;
};

/// Bytes that GDAL sees as a file of its own, of a name that no other has.
class FileInMemory {
public:
    FileInMemory(std::string_view bytes, const std::string& ending) : bytes_(bytes) {
        static std::atomic<int> number = 0;
        path_ = fmt::format("/vsimem/spadework/{}/map{}", ++number, ending);
        auto* data = reinterpret_cast<GByte*>(bytes_.data());
        constexpr int takes_ownership = FALSE;
        VSILFILE* file = VSIFileFromMemBuffer(path_.c_str(), data, bytes_.size(), takes_ownership);
        if (file != nullptr) VSIFCloseL(file);
    }
    ~FileInMemory() { VSIRmdirRecursive(path_.substr(0, path_.rfind('/')).c_str()); }
    FileInMemory(const FileInMemory&) = delete;
    FileInMemory& operator=(const FileInMemory&) = delete;
    [[nodiscard]] const std::string& path() const { return path_; }

private:
    std::string bytes_;
    std::string path_;
};

std::string ending_of(std::string_view bytes) {
    if (bytes.starts_with("SQLite")) return ".gpkg";
    if (bytes.starts_with("PK")) return ".zip";
    if (bytes.starts_with(std::string_view("\0\0", 2))) return ".shp";
    return ".dxf";
}

class GdalReader {
public:
    GdalReader(const ReadingOptions& options, MapBuilder& map) : options_(options), map_(map) {}

    void read(GDALDataset& dataset) {
        for (OGRLayer* layer : dataset.GetLayers()) {
            layer_ = layer->GetName();
            if (layer->GetFeatureCount() == 0 || !find_transformation(*layer)) continue;
            for (const OGRFeatureUniquePtr& feature : *layer)
                read_feature(*feature);
        }
    }

private:
    static bool is_in_metres(const OGRSpatialReference& system) {
        return !system.IsGeographic() && std::abs(system.GetLinearUnits() - 1) < 1e-9;
    }

    /// What turns this layer's positions into WGS 84; none for metres of a local plan. False where nothing says what
    /// they are in.
    bool find_transformation(OGRLayer& layer) {
        transformation_ = GdalTransformation();
        const OGRSpatialReference* system = layer.GetSpatialRef();
        const bool plane = options_.coordinates == CoordinateSystem::plane_metres;
        if (plane && (system == nullptr || is_in_metres(*system))) return true;
        if (plane) map_.always_degrees();
        std::string problem;
        if (system != nullptr) {
            problem = transformation_.from(*system);
        } else if (!options_.reference_system.empty()) {
            problem = transformation_.from(options_.reference_system);
        } else {
            map_.error(0, fmt::format("layer {} does not say what its coordinates are in", shown(layer_)),
                       "the name of its coordinate system by option, such as EPSG:32618; or metres of a local plan");
            return false;
        }
        if (!problem.empty()) {
            map_.error(0, fmt::format("layer {}: {}", shown(layer_), problem),
                       "a system that GDAL knows, such as EPSG:32618");
        }
        return problem.empty();
    }

    void read_feature(const OGRFeature& feature) {
        FeatureFacts facts;
        facts.tags.push_back({"folder", layer_});
        for (int field = 0; field < feature.GetFieldCount(); ++field) {
            if (!feature.IsFieldSetAndNotNull(field)) continue;
            const char* value = feature.GetFieldAsString(field);
            if (*value != '\0') facts.tags.push_back({feature.GetFieldDefnRef(field)->GetNameRef(), value});
        }
        const OGRGeometry* geometry = feature.GetGeometryRef();
        if (geometry == nullptr || geometry->IsEmpty()) return map_.leave_out("features without a place");
        const std::unique_ptr<OGRGeometry> straight(geometry->getLinearGeometry());
        if (straight) add_geometry(*straight, facts);
    }

    void add_geometry(const OGRGeometry& geometry, const FeatureFacts& facts) {
        switch (wkbFlatten(geometry.getGeometryType())) {
            case wkbPoint:
                return map_.add_point(facts, position_of(*geometry.toPoint()));
            case wkbLineString:
                return map_.add_line(facts, line_of(*geometry.toLineString()));
            case wkbPolygon:
            case wkbTriangle:
                return add_polygon(*geometry.toPolygon(), facts);
            default:
                break;
        }
        if (!OGR_GT_IsSubClassOf(geometry.getGeometryType(), wkbGeometryCollection))
            return map_.leave_out("surfaces in space");
        for (const OGRGeometry* part : *geometry.toGeometryCollection())
            add_geometry(*part, facts);
    }

    void add_polygon(const OGRPolygon& polygon, const FeatureFacts& facts) {
        std::vector<std::vector<Position>> rings;
        for (const OGRLinearRing* ring : polygon)
            rings.push_back(line_of(*ring));
        map_.add_area(facts, std::move(rings), true);
    }

    std::vector<Position> line_of(const OGRSimpleCurve& curve) {
        std::vector<Position> line;
        for (const OGRPoint& point : curve)
            line.push_back(position_of(point));
        return line;
    }

    Position position_of(const OGRPoint& point) {
        if (point.Is3D() && point.getZ() != 0) map_.leave_out("altitudes");
        Position at{point.getX(), point.getY()};
        if (!transformation_.turn(at)) {
            map_.error(0, fmt::format("layer {}: position {}, {} is outside its coordinate system", shown(layer_),
                                      point.getX(), point.getY()));
        }
        map_.see(at, 0);
        return at;
    }

    const ReadingOptions& options_;
    MapBuilder& map_;
    std::string layer_;
    GdalTransformation transformation_;
};

}  // namespace

void read_with_gdal(const std::string& format, std::string_view bytes, const ReadingOptions& options, MapBuilder& map) {
    const Quietly quietly;
    register_drivers();
    const std::string ending = ending_of(bytes);
    const FileInMemory file(bytes, ending);
    const std::string path = (ending == ".zip" ? "/vsizip/" : "") + file.path();
    // A Shapefile without its index is read in the order of the file.
    CPLSetThreadLocalConfigOption("SHAPE_RESTORE_SHX", "YES");
    const char* drivers[] = {"GPKG", "ESRI Shapefile", "DXF", nullptr};
    const GDALDatasetUniquePtr dataset(
        GDALDataset::Open(path.c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY, drivers, nullptr, nullptr));
    CPLSetThreadLocalConfigOption("SHAPE_RESTORE_SHX", nullptr);
    if (!dataset) {
        const OneLine why = one_line(CPLGetLastErrorMsg());
        return map.error(0, format + " that GDAL cannot read" + (why.text.empty() ? "" : ": " + why.text));
    }
    map.make_room_for(bytes.size());
    GdalReader(options, map).read(*dataset);
}

}  // namespace spadework::drawn_map

#else

namespace spadework::drawn_map {

void read_with_gdal(const std::string& /*format*/, std::string_view /*bytes*/, const ReadingOptions& /*options*/,
                    MapBuilder& /*map*/) {}

}  // namespace spadework::drawn_map

#endif
