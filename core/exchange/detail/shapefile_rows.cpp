#include "exchange/detail/shapefile_rows.h"

#include "fault.h"

#include <gdal.h>
#include <ogr_api.h>

namespace fencewright::exchange::detail {

namespace {

void takeLine(OGRGeometryH line, PlainIntake& intake) {
    std::vector<geodesy::PlanePoint>& into = intake.corners();
    const std::size_t before = into.size();
    const int count = OGR_G_GetPointCount(line);
    if (count == 0)
        throw NotPlain{};
    into.resize(before + static_cast<std::size_t>(count));
    std::vector<double> heights(OGR_G_Is3D(line) ? static_cast<std::size_t>(count) : 0);
    constexpr int stride = sizeof(geodesy::PlanePoint);
    OGR_G_GetPoints(line, &into[before].x, stride, &into[before].y, stride, heights.empty() ? nullptr : heights.data(),
                    sizeof(double));
    for (const double z : heights)
        intake.height(z);
}

void takeGeometry(OGRGeometryH geometry, PlainIntake& intake) {
    switch (wkbFlatten(OGR_G_GetGeometryType(geometry))) {
    case wkbPoint:
        takeLine(geometry, intake);
        return intake.endPoint();
    case wkbLineString:
        takeLine(geometry, intake);
        return intake.endOpenLine();
    case wkbPolygon:
        for (int ring = 0; ring < OGR_G_GetGeometryCount(geometry); ++ring) {
            takeLine(OGR_G_GetGeometryRef(geometry, ring), intake);
            intake.endRing(ring > 0);
        }
        return;
    case wkbMultiPoint:
    case wkbMultiLineString:
    case wkbMultiPolygon:
        for (int part = 0; part < OGR_G_GetGeometryCount(geometry); ++part) {
            OGRGeometryH own = OGR_G_GetGeometryRef(geometry, part);
            if (OGR_G_IsEmpty(own))
                throw NotPlain{};
            takeGeometry(own, intake);
        }
        return;
    default:
        throw NotPlain{};
    }
}

} // namespace

void ShapefileRows::open(Wanted wanted) {
    if (m_layer)
        return;
    try {
        m_file = openForeign(m_path, m_encoding, m_account);
    } catch (const Fault&) {
        throw NotPlain{};
    }
    auto dataset = static_cast<GDALDatasetH>(m_file.dataset.get());
    if (GDALDatasetGetLayerCount(dataset) != 1)
        throw NotPlain{};
    OGRLayerH layer = GDALDatasetGetLayer(dataset, 0);
    // What is not wanted need not be read.
    std::vector<const char*> ignored;
    OGRFeatureDefnH definition = OGR_L_GetLayerDefn(layer);
    if (wanted == Wanted::Attributes)
        ignored.push_back("OGR_GEOMETRY");
    else
        for (int i = 0; i < OGR_FD_GetFieldCount(definition); ++i)
            ignored.push_back(OGR_Fld_GetNameRef(OGR_FD_GetFieldDefn(definition, i)));
    ignored.push_back(nullptr);
    if (OGR_L_SetIgnoredFields(layer, ignored.data()) != OGRERR_NONE)
        throw NotPlain{};
    m_layer = layer;
    m_heard = m_said.messages().size();
}

void ShapefileRows::requireSilence() const {
    if (m_said.messages().size() > m_heard)
        throw NotPlain{};
}

void ShapefileRows::readGeometry(std::int64_t first, std::int64_t end, PlainIntake& intake, PlainStretch& into) {
    if (!m_records)
        m_records.emplace(m_path);
    std::optional<std::int64_t> driverAt; // the shape that the driver gives next
    for (std::int64_t shape = first; shape < end; ++shape) {
        switch (m_records->look(shape, intake.corners())) {
        case ShapeRecords::Look::Deleted:
            continue;
        case ShapeRecords::Look::Ring:
            intake.endRing(false);
            intake.endFeature(shape, into);
            continue;
        case ShapeRecords::Look::Driver:
            break;
        }
        open(Wanted::Geometry);
        auto layer = static_cast<OGRLayerH>(m_layer);
        if (driverAt != shape && OGR_L_SetNextByIndex(layer, shape) != OGRERR_NONE)
            throw NotPlain{};
        const gdal::FeatureHandle handle{OGR_L_GetNextFeature(layer)};
        if (!handle)
            break; // there is none from here on
        auto feature = static_cast<OGRFeatureH>(handle.get());
        const std::int64_t id = OGR_F_GetFID(feature);
        if (id < shape)
            throw NotPlain{};
        driverAt = id + 1;
        if (id >= end)
            break; // those between are deleted
        shape = id;
        OGRGeometryH geometry = OGR_F_GetGeometryRef(feature);
        if (!geometry || OGR_G_IsEmpty(geometry)) {
            intake.endFeatureWithoutGeometry(into);
        } else {
            takeGeometry(geometry, intake);
            intake.endFeature(id, into);
        }
        requireSilence();
    }
    intake.flush(into);
    requireSilence();
}

AttributeBatch ShapefileRows::readAttributes(const std::vector<std::int64_t>& ids) {
    open(Wanted::Attributes);
    auto layer = static_cast<OGRLayerH>(m_layer);
    ReadingAccount account;
    AttributeText attributes{layer, m_encoding, account};
    AttributeBatch batch(attributes.fields().size() + 1);
    if (ids.empty())
        return batch;
    if (OGR_L_SetNextByIndex(layer, ids.front()) != OGRERR_NONE)
        throw NotPlain{};
    std::size_t taken = 0;
    while (taken < ids.size()) {
        const gdal::FeatureHandle handle{OGR_L_GetNextFeature(layer)};
        if (!handle)
            throw NotPlain{};
        const std::int64_t id = OGR_F_GetFID(static_cast<OGRFeatureH>(handle.get()));
        if (id < ids[taken])
            continue;
        if (id != ids[taken])
            throw NotPlain{};
        ++taken;
        batch[0].add(std::to_string(id));
        const std::vector<std::string> values = attributes.valuesOf(handle.get(), "", std::nullopt);
        for (std::size_t c = 0; c < values.size(); ++c)
            batch[c + 1].add(values[c]);
    }
    if (!account.notes().empty())
        throw NotPlain{};
    requireSilence();
    return batch;
}

} // namespace fencewright::exchange::detail
