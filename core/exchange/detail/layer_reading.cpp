#include "exchange/detail/layer_reading.h"

#include "exchange/detail/attribute_text.h"
#include "exchange/detail/csv_columns.h"
#include "exchange/detail/database_table.h"
#include "exchange/detail/earth_projection.h"
#include "exchange/detail/plain_reading.h"
#include "exchange/detail/source_layer.h"
#include "units/number_notation.h"

#include <gdal.h>
#include <ogr_api.h>

#include <map>
#include <set>

namespace fencewright::exchange::detail {

namespace {

// How far a chord may part from an arc that comes to us as an arc: 1 cm, or 1e-7 degrees, which is as much.
constexpr double kChordMetres = 0.01;
constexpr double kChordDegrees = 1e-7;
constexpr std::size_t kFeaturesBetweenReports = 64;
constexpr std::size_t kPlacesNamed = 5;
constexpr std::size_t kFeaturesBetweenCautions = 100;

/// Reads one layer of an opened file.
class LayerReading {
public:
    LayerReading(const ReadRequest& request, ForeignFile& file, ReadingAccount& account, const gdal::ErrorCapture& said,
                 const std::function<void(Feature&&)>& take, const Progress& progress)
        : m_request{request}, m_file{file}, m_account{account}, m_said{said}, m_take{take}, m_progress{progress} {}

    VectorContent run() {
        prepare();
        readAll();
        m_content.notes = m_account.notes();
        return std::move(m_content);
    }

    BatchedAttributes runInBatches(const GeometrySink& take) {
        prepare();
        PlainReading plain{plainLayer()};
        const bool counts = OGR_L_TestCapability(m_layer, OLCFastFeatureCount) != 0;
        const GIntBig claimed = counts ? OGR_L_GetFeatureCount(m_layer, FALSE) : -1;
        if (!m_said.messages().empty() || claimed > static_cast<GIntBig>(m_request.featureLimit))
            throw NotPlain{};
        PlainReading::Geometry read = plain.geometry(m_progress);
        if (read.taken > m_request.featureLimit)
            throw NotPlain{};
        for (const FeatureBatch& batch : read.batches)
            for (const geometry::Box& box : batch.boxes)
                m_content.extent.add(box);
        m_taken = read.taken;
        m_withoutGeometry = read.withoutGeometry.size();
        for (const std::size_t which : read.withoutGeometry)
            if (m_withoutGeometryPlaces.size() < kPlacesNamed)
                m_withoutGeometryPlaces.push_back(phrase("core", "feature %1")(which + 1));
        m_addedCorners = read.addedCorners;
        m_partsWithAddedCorners = read.partsWithAddedCorners;
        m_cautions = std::move(read.cautions);
        finish(read.seen, claimed);
        m_content.notes = m_account.notes();
        take(std::move(read.batches), m_content);
        std::vector<AttributeBatch> attributes = plain.attributes(m_progress);
        return {std::move(m_content), std::move(attributes)};
    }

private:
    void prepare() {
        m_content.path = m_request.path;
        m_content.format = m_file.format->name;
        m_layer = chosenLayer();
        m_content.layer = m_file.result ? m_request.layer : OGR_L_GetName(m_layer);
        m_attributes.emplace(m_layer, m_request.encoding, m_account);
        m_content.fields = m_file.result ? m_file.fields : m_attributes->fields();
        m_column = geometryColumnOf(m_layer);
        if (OGR_FD_GetGeomFieldCount(OGR_L_GetLayerDefn(m_layer)) > 1)
            m_account.leftOut(
                "", phrase("core", "each feature has several geometries; only \"%1\" is read.")(std::string{
                        OGR_GFld_GetNameRef(OGR_FD_GetGeomFieldDefn(OGR_L_GetLayerDefn(m_layer), m_column))}));
        if (m_file.isTable())
            chooseColumns();
        chooseProjection();
    }

    /// @throws NotPlain  no layer of a kind that the short way knows.
    PlainLayer plainLayer() const {
        if (m_file.result || !m_request.where.empty() || m_rules.swapAxes || m_rules.closedLinesAreSurfaces ||
            OGR_FD_GetGeomFieldCount(OGR_L_GetLayerDefn(m_layer)) != 1 ||
            static_cast<std::size_t>(OGR_FD_GetFieldCount(OGR_L_GetLayerDefn(m_layer))) != m_content.fields.size())
            throw NotPlain{};
        PlainLayer plain;
        plain.name = m_content.layer;
        plain.path = m_request.path;
        plain.encoding = m_request.encoding;
        plain.crs = m_crs;
        plain.datum = m_datum;
        plain.cornerLimit = m_request.cornerLimit;
        if (m_file.format->driver == "GPKG")
            plain.table = table();
        else if (m_file.format->loading == Loading::ShapefileParts &&
                 OGR_L_TestCapability(m_layer, OLCFastSetNextByIndex))
            plain.shapes = OGR_L_GetFeatureCount(m_layer, FALSE);
        else
            throw NotPlain{};
        return plain;
    }

    GeopackageTable table() const {
        using Content = GeopackageTable::Content;
        OGRFeatureDefnH definition = OGR_L_GetLayerDefn(m_layer);
        GeopackageTable table{
            m_request.path, m_content.layer, OGR_L_GetFIDColumn(m_layer), OGR_L_GetGeometryColumn(m_layer), {}};
        if (table.idColumn.empty() || table.geometryColumn.empty())
            throw NotPlain{};
        for (int i = 0; i < OGR_FD_GetFieldCount(definition); ++i) {
            OGRFieldDefnH field = OGR_FD_GetFieldDefn(definition, i);
            const OGRFieldSubType subtype = OGR_Fld_GetSubType(field);
            const auto content = [&]() -> Content {
                switch (OGR_Fld_GetType(field)) {
                case OFTString:
                    return Content::Text;
                case OFTInteger:
                    return subtype == OFSTBoolean ? Content::YesNo
                           : subtype == OFSTInt16 ? Content::Whole16
                                                  : Content::Whole32;
                case OFTInteger64:
                    return Content::Whole64;
                case OFTReal:
                    if (subtype == OFSTFloat32)
                        throw NotPlain{};
                    return Content::Real;
                case OFTDate:
                    return Content::Date;
                case OFTDateTime:
                    return Content::DateTime;
                case OFTBinary:
                    return Content::Binary;
                default:
                    throw NotPlain{};
                }
            };
            table.columns.push_back({OGR_Fld_GetNameRef(field), content()});
        }
        return table;
    }

    OGRLayerH chosenLayer() {
        if (m_file.result)
            return static_cast<OGRLayerH>(m_file.result.get());
        auto dataset = static_cast<GDALDatasetH>(m_file.dataset.get());
        const int count = GDALDatasetGetLayerCount(dataset);
        if (count == 0)
            throw Fault{phrase("core", "There is nothing in the file that could be read as a layer."), m_request.path,
                        phrase("core", "Check that it is the file you mean.")};
        std::string names;
        OGRLayerH first = nullptr;
        for (int i = 0; i < count; ++i) {
            OGRLayerH layer = GDALDatasetGetLayer(dataset, i);
            const std::string name = OGR_L_GetName(layer);
            if (name == m_request.layer && !name.empty())
                return layer;
            if (i < 20)
                names += (names.empty() ? "\"" : ", \"") + name + "\"";
            const bool table = OGR_L_GetGeomType(layer) == wkbNone && !m_file.isTable();
            if (!first && !table && OGR_L_GetFeatureCount(layer, FALSE) != 0)
                first = layer;
        }
        if (!m_request.layer.empty())
            throw Fault{phrase("core", "There is no layer \"%1\" in the file.")(m_request.layer), m_request.path,
                        phrase("core", "It has %1.")(names)};
        if (!first)
            first = GDALDatasetGetLayer(dataset, 0);
        if (count > 1)
            m_account.warn(
                "", phrase("core", "the file has %1 layers (%2); \"%3\" is read.")(count, names, OGR_L_GetName(first)));
        return first;
    }

    void chooseColumns() {
        m_table = findCoordinateColumns(m_content.fields);
        if (m_table)
            return;
        std::string names;
        for (std::size_t i = 0; i < std::min<std::size_t>(m_content.fields.size(), 12); ++i)
            names += (i ? ", " : "") + m_content.fields[i].substr(0, 40);
        throw Fault{phrase("core", "No columns with coordinates are found. The columns are %1.")(names), m_request.path,
                    phrase("core", "Name the columns %1 in the first line.")(knownColumnNames())};
    }

    void chooseProjection() {
        void* own = m_file.result                               ? m_file.crs.get()
                    : m_file.json.namesCrs && !takesCrsOfJson() ? nullptr
                                                                : crsOf(m_layer);
        std::string crs;
        bool wgs84 = false;
        if (!m_request.crs.empty() && (m_request.forceCrs || !own)) {
            crs = m_request.crs;
            wgs84 = saysWgs84(crs);
            if (own)
                m_account.warn("", phrase("core", "the file says its CRS is %1; it is read as %2, as you said.")(
                                       crsName(own), crs));
        } else if (own) {
            crs = crsText(own);
            wgs84 = isWgs84(own);
            m_rules.swapAxes = swapsAxes(own);
        } else if (m_table && m_table->form == CoordinateColumns::Form::LonLat) {
            crs = "EPSG:4326";
            wgs84 = true;
            m_account.warn("",
                           phrase("core", "longitudes and latitudes are taken to be WGS 84: the table does not say."));
        } else {
            if (m_file.result)
                throw MissingCrs{
                    phrase("core", "The server does not say in which coordinate reference system (CRS) the shapes of "
                                   "%1 are: it knows no definition of their SRID.")(m_request.layer),
                    m_request.path, phrase("core", "Say which, such as EPSG:25829; whoever made the table knows.")};
            throw MissingCrs{m_request.path};
        }
        m_crs = crs;
        m_datum = wgs84 ? EarthProjection::Datum::Wgs84 : EarthProjection::Datum::Other;
        try {
            m_projection.emplace(m_crs, m_datum);
        } catch (const Fault& fault) {
            throw Fault{fault.words().problem, m_request.path, fault.words().remedy};
        }
        m_content.crs = m_projection->name();
        m_rules.chordBound =
            m_projection->isGeographic() ? kChordDegrees : kChordMetres / m_projection->metresPerUnit().value_or(1.0);
        m_rules.closedLinesAreSurfaces = m_file.format->driver == "DXF";
    }

    /// Where the driver does not understand the CRS of a GeoJSON text, it takes WGS 84 instead.
    bool takesCrsOfJson() const {
        void* crs = crsOf(m_layer);
        const std::string& name = m_file.json.crsName;
        const bool named84 = name.find("CRS84") != std::string::npos || name.find("4326") != std::string::npos ||
                             name.find("4979") != std::string::npos;
        return crs && (!isWgs84(crs) || named84);
    }

    /// The numbers of GeoJSON's faulty features are those of the whole file: found before a filter hides some.
    std::set<GIntBig> faultyIds() {
        std::set<GIntBig> ids;
        if (m_file.json.byFeature.empty())
            return ids;
        std::size_t number = 0;
        OGR_L_ResetReading(m_layer);
        while (const gdal::FeatureHandle feature{OGR_L_GetNextFeature(m_layer)}) {
            const auto fault = m_file.json.byFeature.find(++number);
            if (fault == m_file.json.byFeature.end())
                continue;
            ids.insert(OGR_F_GetFID(static_cast<OGRFeatureH>(feature.get())));
            m_account.leftOut(phrase("core", "feature %1")(number), phrase("core", "%1.")(fault->second));
        }
        return ids;
    }

    void filter() {
        if (m_request.where.empty() || m_file.result)
            return;
        m_unfiltered = OGR_L_GetFeatureCount(m_layer, TRUE);
        if (OGR_L_SetAttributeFilter(m_layer, m_request.where.c_str()) != OGRERR_NONE)
            refuseFilter(plainWords(m_said.firstError("")));
    }

    /// @param why  as the driver said it; empty: it said nothing.
    [[noreturn]] void refuseFilter(const Wording& why) const {
        throw FilterFault{phrase("core", "The filter \"%1\" is not understood: %2.")(
                              m_request.where, why.empty() ? Wording{phrase("core", "it is no condition")} : why),
                          m_request.path, phrase("core", "Write it like: category = 'lease' AND area > 500.")};
    }

    void readAll() {
        const std::set<GIntBig> faulty = faultyIds();
        filter();
        const bool counts = !m_file.result && OGR_L_TestCapability(m_layer, OLCFastFeatureCount) != 0;
        const GIntBig claimed = counts            ? OGR_L_GetFeatureCount(m_layer, FALSE)
                                : m_file.expected ? static_cast<GIntBig>(*m_file.expected)
                                                  : -1;
        // What was said so far came of looking for layers and counting: each text is told only once.
        std::size_t heard = 0;
        const Wording early = news(heard, "");
        std::size_t seen = 0;
        OGR_L_ResetReading(m_layer);
        while (const gdal::FeatureHandle handle{OGR_L_GetNextFeature(m_layer)}) {
            auto feature = static_cast<OGRFeatureH>(handle.get());
            ++seen;
            if (seen % kFeaturesBetweenReports == 1)
                m_progress.report(claimed > 0 ? std::min(1.0, static_cast<double>(seen) / static_cast<double>(claimed))
                                              : 0.0,
                                  phrase("core", "Reading the features"));
            if (m_taken >= m_request.featureLimit)
                throw Fault{phrase("core", "There are more than %1 features.")(m_request.featureLimit), m_request.path,
                            phrase("core", "Read a part of the file by a filter, or raise the limit.")};
            const Wording place =
                m_file.isTable() ? phrase("core", "record %1")(seen) : phrase("core", "feature %1")(seen);
            const Wording trouble = news(heard, place);
            if (!faulty.contains(OGR_F_GetFID(feature)))
                take(feature, place, trouble);
            if (const Wording more = news(heard, place); !more.empty())
                m_account.warn(place, phrase("core", "%1.")(more));
        }
        const Wording end = phrase("core", "after feature %1")(seen);
        Wording trouble = news(heard, end);
        if (trouble.empty())
            trouble = early;
        // A database finds out only now what it does not understand.
        if (!trouble.empty() && seen == 0 && !m_request.where.empty())
            refuseFilter(trouble);
        if (m_file.result && !trouble.empty())
            throw Fault{phrase("core", "The server broke off %1: %2.")(end, serverWords(trouble.english())),
                        m_request.path, phrase("core", "Try again; nothing was kept of it.")};
        if (!trouble.empty())
            m_account.leftOut(end, phrase("core", "the file is damaged: %1. What follows is not read.")(trouble));
        finish(seen, counts && trouble.empty() && m_request.where.empty() ? claimed : -1);
    }

    /// @param claimed  how many the file says it holds; negative: it does not say, or that does not matter.
    void finish(std::size_t seen, GIntBig claimed) {
        if (claimed >= 0 && static_cast<std::size_t>(claimed) != seen)
            m_account.warn("",
                           phrase("core", "the file says that it holds %1 features, but %2 are in it.")(claimed, seen));
        if (m_unfiltered && static_cast<std::size_t>(*m_unfiltered) > seen) {
            m_account.leftOut("", phrase("core", "%1 features do not meet the filter.")(
                                      static_cast<std::size_t>(*m_unfiltered) - seen));
            seen = static_cast<std::size_t>(*m_unfiltered);
        }
        m_content.featuresInFile = seen;
        m_content.featuresLeftOut = seen - m_taken;
        summarise();
    }

    /// What the driver has said since `heard`: warnings become notes, the first error is returned.
    Wording news(std::size_t& heard, const Wording& place) {
        Wording error;
        for (; heard < m_said.messages().size(); ++heard) {
            const gdal::ErrorCapture::Message& message = m_said.messages()[heard];
            if (message.text.find("Non closed ring") != std::string::npos)
                continue;
            const Wording words = plainWords(message.text);
            if (!message.isError)
                m_account.warn(place, phrase("core", "%1.")(words));
            else if (error.empty())
                error = words;
        }
        return error;
    }

    void take(OGRFeatureH feature, const Wording& place, const Wording& trouble) {
        Feature result;
        result.id =
            m_file.idColumn ? OGR_F_GetFieldAsString(feature, *m_file.idColumn) : std::to_string(OGR_F_GetFID(feature));
        const bool wellKnownText = m_table && m_table->form == CoordinateColumns::Form::Wkt;
        result.attributes =
            m_attributes->valuesOf(feature, place, wellKnownText ? std::optional{m_table->x} : std::nullopt);
        gdal::GeometryHandle own;
        OGRGeometryH geometry = OGR_F_GetGeomFieldRef(feature, m_column);
        if (m_table) {
            const auto cell = [&](std::size_t column) {
                return std::string{OGR_F_GetFieldAsString(feature, static_cast<int>(column))};
            };
            RowGeometry row =
                geometryOfRow(m_table->form, cell(m_table->x), cell(m_table->y), m_table->z ? cell(*m_table->z) : "");
            if (!row.why.empty())
                return m_account.leftOut(place, phrase("core", "%1.")(row.why));
            own = std::move(row.geometry);
            geometry = static_cast<OGRGeometryH>(own.get());
        }
        if (!geometry || OGR_G_IsEmpty(geometry)) {
            if (!trouble.empty())
                return m_account.leftOut(place, phrase("core", "its geometry cannot be read: %1.")(trouble));
            ++m_withoutGeometry;
            if (m_withoutGeometryPlaces.size() < kPlacesNamed)
                m_withoutGeometryPlaces.push_back(place);
            return;
        }
        if (!trouble.empty())
            m_account.warn(place, phrase("core", "%1.")(trouble));
        m_rules.cornerLimit = m_request.cornerLimit - m_corners;
        SourceGeometry source = intake(geometry);
        m_corners += source.corners;
        for (const Wording& what : source.leftOut)
            m_account.leftOut(place, phrase("core", "%1.")(what));
        m_curved += source.curved ? 1 : 0;
        bool unwrapped = false;
        for (const SourcePart& part : source.parts) {
            EarthProjection::Projected projected = m_projection->toEarth(part, m_request.cornerLimit);
            if (!projected.geometry) {
                m_account.leftOut(place, phrase("core", "%1.")(projected.why));
                continue;
            }
            if (projected.addedCorners > 0) {
                m_addedCorners += projected.addedCorners;
                ++m_partsWithAddedCorners;
                m_corners = std::min(m_request.cornerLimit, m_corners + projected.addedCorners);
            }
            unwrapped = unwrapped || projected.unwrapped;
            result.parts.push_back(std::move(*projected.geometry));
        }
        if (result.parts.empty())
            return;
        // Which operation is used may differ from place to place; to ask takes time, and one in a hundred will do.
        if (m_taken % kFeaturesBetweenCautions == 0)
            if (Wording caution = m_projection->caution(); !caution.empty())
                m_cautions.emplace(caution.english(), std::move(caution));
        if (source.openRings > 0)
            m_account.changed(
                place,
                source.openRings == 1
                    ? Wording{phrase("core", "a ring was not closed: its last corner is joined to its first.")}
                    : Wording{phrase("core", "%1 rings were not closed: their last corners are joined to their first.")(
                          source.openRings)});
        if (unwrapped)
            m_account.changed(place, phrase("core", "an edge spans more than 180 degrees of longitude: it is taken the "
                                                    "short way, across the antimeridian."));
        joinAtAntimeridian(result.parts);
        result.lowestZ = source.lowestZ;
        result.highestZ = source.highestZ;
        for (const FeatureGeometry& part : result.parts)
            extend(part);
        ++m_taken;
        m_take(std::move(result));
    }

    SourceGeometry intake(OGRGeometryH geometry) const {
        try {
            return takeGeometry(geometry, m_rules);
        } catch (const Fault&) {
            throw Fault{phrase("core", "There are more than %1 corners.")(m_request.cornerLimit), m_request.path,
                        phrase("core", "Read a part of the file by a filter, or raise the limit.")};
        }
    }

    void extend(const FeatureGeometry& part) {
        const auto add = [this](const std::vector<model::Position>& corners) {
            for (const model::Position& corner : corners)
                m_content.extent.add(corner.lon, corner.lat);
        };
        if (const auto* place = std::get_if<model::Position>(&part))
            m_content.extent.add(place->lon, place->lat);
        else if (const auto* line = std::get_if<model::LineString>(&part))
            add(*line);
        else
            m_content.extent.add(geometry::boxOf(std::get<model::Polygon>(part)));
    }

    void summarise() {
        for (const auto& [english, caution] : m_cautions)
            m_account.warn("", caution);
        if (m_withoutGeometry > 0) {
            Wording places = Wording::joined(m_withoutGeometryPlaces, ", ");
            if (m_withoutGeometry > m_withoutGeometryPlaces.size())
                places = phrase("core", "%1 and others")(places);
            m_account.leftOut(places, m_withoutGeometry == 1
                                          ? Wording{phrase("core", "1 feature has no geometry.")}
                                          : phrase("core", "%1 features have no geometry.")(m_withoutGeometry));
        }
        if (m_addedCorners > 0)
            m_account.changed("", phrase("core", "%1 corners were added to %2 shapes, so that edges that are straight "
                                                 "in %3 stay within 1 mm of their place.")(
                                      m_addedCorners, m_partsWithAddedCorners, m_content.crs));
        if (m_curved > 0)
            m_account.changed(
                "", phrase("core", "in %1 features, arcs were replaced by chords that part from them by at most 1 cm.")(
                        m_curved));
        if (m_rules.closedLinesAreSurfaces && m_taken > 0)
            m_account.changed(
                "",
                phrase("core", "closed lines of the drawing are read as surfaces; arcs were replaced by chords of half "
                               "a degree, which part from them by at most a hundred-thousandth of the radius."));
    }

    const ReadRequest& m_request;
    ForeignFile& m_file;
    ReadingAccount& m_account;
    const gdal::ErrorCapture& m_said;
    const std::function<void(Feature&&)>& m_take;
    const Progress& m_progress;
    VectorContent m_content;
    std::size_t m_taken = 0;
    OGRLayerH m_layer = nullptr;
    int m_column = 0;
    std::optional<AttributeText> m_attributes;
    std::optional<CoordinateColumns> m_table;
    std::string m_crs;
    EarthProjection::Datum m_datum = EarthProjection::Datum::Other;
    std::optional<EarthProjection> m_projection;
    IntakeRules m_rules;
    std::optional<GIntBig> m_unfiltered;
    std::size_t m_corners = 0;
    std::size_t m_withoutGeometry = 0;
    std::vector<Wording> m_withoutGeometryPlaces;
    std::map<std::string, Wording> m_cautions; ///< each once, by its English
    std::size_t m_addedCorners = 0;
    std::size_t m_partsWithAddedCorners = 0;
    std::size_t m_curved = 0;
};

} // namespace

VectorContent readLayer(const ReadRequest& request, ForeignFile& file, ReadingAccount& account,
                        const gdal::ErrorCapture& said, const std::function<void(Feature&&)>& take,
                        const Progress& progress) {
    return LayerReading{request, file, account, said, take, progress}.run();
}

BatchedAttributes readLayerInBatches(const ReadRequest& request, ForeignFile& file, ReadingAccount& account,
                                     const gdal::ErrorCapture& said, const GeometrySink& take,
                                     const Progress& progress) {
    const std::function<void(Feature &&)> none;
    return LayerReading{request, file, account, said, none, progress}.runInBatches(take);
}

} // namespace fencewright::exchange::detail
