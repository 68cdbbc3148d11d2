#include "store/detail/geopackage.h"

#include "airspace/outline.h"
#include "geometry/overlay.h"
#include "model/words.h"
#include "store/detail/geometry_blob.h"
#include "store/detail/value_text.h"
#include "units/measure_notation.h"

#include <limits>

namespace fencewright::store {

namespace {

constexpr std::int64_t kWgs84 = 4326;

// Clause 1.1.2, table 4 and requirement 11; the definition of 4326 as in the standard's annex, WKT 1.
constexpr const char* kCoreTables = R"sql(
CREATE TABLE gpkg_spatial_ref_sys (
    srs_name TEXT NOT NULL, srs_id INTEGER PRIMARY KEY, organization TEXT NOT NULL,
    organization_coordsys_id INTEGER NOT NULL, definition TEXT NOT NULL, description TEXT);
INSERT INTO gpkg_spatial_ref_sys VALUES
    ('Undefined Cartesian SRS', -1, 'NONE', -1, 'undefined', 'undefined Cartesian coordinate reference system'),
    ('Undefined geographic SRS', 0, 'NONE', 0, 'undefined', 'undefined geographic coordinate reference system'),
    ('WGS 84 geodetic', 4326, 'EPSG', 4326, 'GEOGCS["WGS 84",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563,AUTHORITY["EPSG","7030"]],AUTHORITY["EPSG","6326"]],PRIMEM["Greenwich",0,AUTHORITY["EPSG","8901"]],UNIT["degree",0.0174532925199433,AUTHORITY["EPSG","9122"]],AXIS["Latitude",NORTH],AXIS["Longitude",EAST],AUTHORITY["EPSG","4326"]]', 'longitude and latitude in degrees on the WGS 84 ellipsoid');
CREATE TABLE gpkg_contents (
    table_name TEXT NOT NULL PRIMARY KEY, data_type TEXT NOT NULL, identifier TEXT UNIQUE, description TEXT DEFAULT '',
    last_change DATETIME NOT NULL DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ','now')),
    min_x DOUBLE, min_y DOUBLE, max_x DOUBLE, max_y DOUBLE, srs_id INTEGER,
    CONSTRAINT fk_gc_r_srs_id FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys(srs_id));
CREATE TABLE gpkg_geometry_columns (
    table_name TEXT NOT NULL, column_name TEXT NOT NULL, geometry_type_name TEXT NOT NULL, srs_id INTEGER NOT NULL,
    z TINYINT NOT NULL, m TINYINT NOT NULL,
    CONSTRAINT pk_geom_cols PRIMARY KEY (table_name, column_name),
    CONSTRAINT uk_gc_table_name UNIQUE (table_name),
    CONSTRAINT fk_gc_tn FOREIGN KEY (table_name) REFERENCES gpkg_contents(table_name),
    CONSTRAINT fk_gc_srs FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys(srs_id));
)sql";

void createLayer(const Database& database, const std::string& name, const std::string& geometryType,
                 const std::string& columns, const std::string& description) {
    database.run("CREATE TABLE " + name + " (fid INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL, geom " + geometryType +
                 ", " + columns + ")");
    Statement content{database, "INSERT INTO gpkg_contents (table_name, data_type, identifier, description, srs_id) "
                                "VALUES (?1, 'features', ?1, ?2, ?3)"};
    content.bind(1, name).bind(2, description).bind(3, kWgs84).execute();
    Statement column{database, "INSERT INTO gpkg_geometry_columns VALUES (?1, 'geom', ?2, ?3, 0, 0)"};
    column.bind(1, name).bind(2, geometryType).bind(3, kWgs84).execute();
}

/// The bounds of a layer are for readers' convenience (clause 1.1.3): those of what is in it.
void stateExtent(const Database& database, const std::string& name, const Extent& extent) {
    if (extent.empty())
        return;
    Statement update{database, "UPDATE gpkg_contents SET min_x = ?2, min_y = ?3, max_x = ?4, max_y = ?5 "
                               "WHERE table_name = ?1"};
    update.bind(1, name)
        .bind(2, extent.west)
        .bind(3, extent.south)
        .bind(4, extent.east)
        .bind(5, extent.north)
        .execute();
}

/// Binds readable values one after the other.
class Columns {
public:
    Columns(const Database& database, const std::string& table, int count) : m_insert{database, query(table, count)} {}

    Columns& geometry(const GeometryBlob& blob) {
        if (blob.bytes.empty())
            m_insert.bindNull(++m_parameter);
        else
            m_insert.bindBlob(++m_parameter, blob.bytes);
        return *this;
    }
    Columns& text(const std::string& value) {
        m_insert.bind(++m_parameter, readableText(value));
        return *this;
    }
    Columns& yesOrNo(bool value) {
        m_insert.bind(++m_parameter, std::int64_t{value});
        return *this;
    }
    Columns& length(const std::optional<StatedLength>& value) {
        if (!value)
            return nothing();
        // What is not finite becomes NULL in SQLite: it has no number for it.
        m_insert.bind(++m_parameter, value->length.inMetres());
        return *this;
    }
    Columns& date(const std::optional<model::Date>& value) {
        return value && value->ok() && value->year() >= std::chrono::year{0} ? text(model::isoDate(*value)) : nothing();
    }
    Columns& nothing() {
        m_insert.bindNull(++m_parameter);
        return *this;
    }
    void write() {
        m_insert.execute();
        m_parameter = 0;
    }

private:
    static std::string query(const std::string& table, int count) {
        std::string values = "NULL";
        for (int i = 1; i <= count; ++i)
            values += ", ?" + std::to_string(i);
        return "INSERT INTO " + table + " VALUES (" + values + ")";
    }

    Statement m_insert;
    int m_parameter = 0;
};

std::string inWords(const StatedLength& length) {
    return length.asWritten.empty() ? units::formatLengthExact(length.length, units::System::Metric) : length.asWritten;
}

std::string inWords(const std::optional<model::HeightLimit>& limit) {
    if (!limit)
        return {};
    const std::string value = inWords(limit->value);
    switch (limit->reference) {
    case model::HeightReference::Ground:
        return value + " above ground";
    case model::HeightReference::MeanSeaLevel:
        return value + " above mean sea level";
    case model::HeightReference::Ellipsoid:
        break;
    }
    return value + " above the ellipsoid";
}

std::string shapeInWords(const model::Shape& shape) {
    struct Words {
        std::string operator()(const model::DrawnPolygon&) const { return "polygon"; }
        std::string operator()(const model::Circle&) const { return "circle"; }
        std::string operator()(const model::Corridor&) const { return "corridor"; }
        std::string operator()(const model::Setback&) const { return "setback"; }
        std::string operator()(const model::ParcelUnion&) const { return "parcels"; }
    };
    return std::visit(Words{}, shape);
}

std::string yearDay(model::YearDay day) { return day.ok() ? model::isoYearDay(day) : std::string{}; }

/// The longitudes of a shape or a site, as far as they go.
struct Span {
    double west = std::numeric_limits<double>::infinity();
    double east = -std::numeric_limits<double>::infinity();

    void include(const model::Position& place) {
        west = std::min(west, place.lon);
        east = std::max(east, place.lon);
    }
    void include(const std::vector<model::Position>& places) {
        for (const model::Position& place : places)
            include(place);
    }
    void include(const model::Polygon& polygon) {
        include(polygon.shell.corners);
        for (const model::Ring& hole : polygon.holes)
            include(hole.corners);
    }
};

Span spanOf(const model::Fence& fence, const model::Roster<model::Site>& sites) {
    Span span;
    if (const auto* polygon = std::get_if<model::DrawnPolygon>(&fence.shape))
        span.include(polygon->polygon);
    else if (const auto* circle = std::get_if<model::Circle>(&fence.shape))
        span.include(circle->centre);
    else if (const auto* corridor = std::get_if<model::Corridor>(&fence.shape))
        span.include(corridor->line);
    else if (const auto* parcels = std::get_if<model::ParcelUnion>(&fence.shape))
        for (const model::Parcel& parcel : parcels->parcels)
            for (const model::Polygon& part : parcel.surface.parts)
                span.include(part);
    else if (const auto* setback = std::get_if<model::Setback>(&fence.shape))
        if (const model::Site* site = sites.find(setback->site))
            std::visit([&](const auto& geometry) { span.include(geometry); }, site->geometry);
    return span;
}

/// The outline for others to see. A fence whose numbers cannot be computed with has none: the audit tells of it, and
/// whatever defeats the computation must not keep the person from saving. Nor must the time it takes: what spans half
/// the earth is a mistake, and would be worked out metre by metre.
GeometryBlob outlineOf(const model::Fence& fence, const model::Roster<model::Site>& sites) {
    const Span span = spanOf(fence, sites);
    if (span.west < -540.0 || span.east > 540.0 || span.east - span.west > 180.0)
        return {};
    try {
        return geometryBlob(geometry::cutAtAntimeridian(airspace::outline(fence, sites)));
    } catch (const std::exception&) {
        return {};
    }
}

void writeFences(const Database& database, const model::FenceSet& set, const Progress& progress) {
    createLayer(database, "fences", "MULTIPOLYGON",
                "id TEXT, name TEXT, kind TEXT, enabled BOOLEAN, shape TEXT, floor TEXT, floor_m DOUBLE, ceiling TEXT, "
                "ceiling_m DOUBLE, active_from DATE, active_until DATE, season_from TEXT, season_to TEXT, basis TEXT, "
                "citation TEXT, basis_distance TEXT, basis_distance_m DOUBLE, basis_date DATE, basis_who TEXT, notes "
                "TEXT",
                "What each fence encloses, computed from its shape to the safe side.");
    Columns row{database, "fences", 21};
    Extent extent;
    for (std::size_t i = 0; i < set.fences.size(); ++i) {
        progress.report(0.1 + 0.6 * static_cast<double>(i) / static_cast<double>(set.fences.size()),
                        phrase("core", "Writing outlines"));
        const model::Fence& fence = set.fences[i];
        const GeometryBlob outline = outlineOf(fence, set.sites);
        extent.include(outline.extent);
        const auto& season = fence.period.season;
        const auto lengthOf = [](const std::optional<model::HeightLimit>& limit) {
            return limit ? std::optional{limit->value} : std::nullopt;
        };
        row.geometry(outline)
            .text(fence.id.value)
            .text(fence.name)
            .text(std::string{model::word(fence.kind)})
            .yesOrNo(fence.enabled)
            .text(shapeInWords(fence.shape))
            .text(inWords(fence.band.floor))
            .length(lengthOf(fence.band.floor))
            .text(inWords(fence.band.ceiling))
            .length(lengthOf(fence.band.ceiling))
            .date(fence.period.from)
            .date(fence.period.until)
            .text(season ? yearDay(season->from) : "")
            .text(season ? yearDay(season->to) : "")
            .text(std::string{model::word(fence.basis.kind)})
            .text(fence.basis.citation)
            .text(fence.basis.distance ? inWords(*fence.basis.distance) : "")
            .length(fence.basis.distance)
            .date(fence.basis.date)
            .text(fence.basis.who)
            .text(fence.notes)
            .write();
    }
    stateExtent(database, "fences", extent);
}

void writeSites(const Database& database, const model::FenceSet& set) {
    createLayer(database, "sites", "GEOMETRY",
                "id TEXT, name TEXT, category TEXT, position_error TEXT, position_error_m DOUBLE, position_source "
                "TEXT, confidential BOOLEAN, notes TEXT",
                "Points, lines and areas that fences protect or flights visit.");
    Columns row{database, "sites", 9};
    Extent extent;
    for (const model::Site& site : set.sites) {
        const GeometryBlob blob =
            std::visit([](const auto& geometry) { return geometryBlob(geometry); }, site.geometry);
        extent.include(blob.extent);
        row.geometry(blob)
            .text(site.id.value)
            .text(site.name)
            .text(site.category)
            .text(inWords(site.positionError))
            .length(site.positionError)
            .text(site.positionSource)
            .yesOrNo(site.confidential)
            .text(site.notes)
            .write();
    }
    stateExtent(database, "sites", extent);
}

void writeHomes(const Database& database, const model::FenceSet& set) {
    createLayer(database, "homes", "POINT",
                "id TEXT, name TEXT, kind TEXT, landing_radius TEXT, landing_radius_m DOUBLE, notes TEXT",
                "Where the aircraft starts, returns, and may land.");
    Columns row{database, "homes", 7};
    Extent extent;
    for (const model::Home& home : set.homes) {
        const GeometryBlob blob = geometryBlob(home.place);
        extent.include(blob.extent);
        row.geometry(blob)
            .text(home.id.value)
            .text(home.name)
            .text(std::string{model::word(home.kind)})
            .text(inWords(home.landingRadius))
            .length(home.landingRadius)
            .text(home.notes)
            .write();
    }
    stateExtent(database, "homes", extent);
}

} // namespace

void createGeoPackage(const Database& database) {
    database.run("PRAGMA application_id = " + std::to_string(kApplicationId) +
                 "; PRAGMA user_version = " + std::to_string(kUserVersion) + ";");
    database.run(kCoreTables);
}

void registerAttributes(const Database& database, std::string_view table, std::string_view description) {
    Statement content{database, "INSERT INTO gpkg_contents (table_name, data_type, identifier, description, srs_id) "
                                "VALUES (?1, 'attributes', ?1, ?2, 0)"};
    content.bind(1, table).bind(2, description).execute();
}

void writeLayers(const Database& database, const model::FenceSet& set, const Progress& progress) {
    writeFences(database, set, progress);
    writeSites(database, set);
    writeHomes(database, set);
}

} // namespace fencewright::store
