#include "exchange/detail/plain_reading.h"

#include "exchange/detail/shapefile_rows.h"

namespace fencewright::exchange::detail {

namespace {

constexpr std::int64_t kShapesAtOnce = FeatureBatch::kMostFeatures / 4;
constexpr double kShareOfGeometry = 0.6;

} // namespace

/// In how many stretches.
std::size_t PlainReading::plan() {
    if (m_layer.table) {
        m_pages.emplace(m_layer.path, GeopackageRows{*m_layer.table}.placeOfGeometry());
        return m_pages->stretches();
    }
    return static_cast<std::size_t>((m_layer.shapes + kShapesAtOnce - 1) / kShapesAtOnce);
}

Crew::Job PlainReading::geometryJob() {
    auto projection = std::make_shared<EarthProjection>(m_layer.crs, m_layer.datum);
    const auto job = [this, projection](auto read) {
        return [this, projection, read, size = PlainStretch::Size{}](std::size_t number) mutable {
            PlainIntake intake{*projection, m_layer.cornerLimit};
            PlainStretch& stretch = m_stretches[number];
            stretch.reserve(size);
            read(number, intake, stretch);
            size = stretch.size();
        };
    };
    if (m_pages)
        return job([this, room = std::string{}](std::size_t number, PlainIntake& intake, PlainStretch& into) mutable {
            m_pages->read(number, room, intake, into);
        });
    auto rows = std::make_shared<ShapefileRows>(m_layer.path, m_layer.encoding);
    return job([this, rows](std::size_t number, PlainIntake& intake, PlainStretch& into) {
        const auto first = static_cast<std::int64_t>(number) * kShapesAtOnce;
        rows->readGeometry(first, std::min(first + kShapesAtOnce, m_layer.shapes), intake, into);
    });
}

PlainReading::Geometry PlainReading::geometry(const Progress& progress) {
    m_stretches.resize(plan());
    {
        Crew crew{m_stretches.size(), [this] { return geometryJob(); }};
        crew.add(Crew::size());
        crew.finish(progress, 0.0, kShareOfGeometry, phrase("core", "Reading the features"));
    }
    Geometry result;
    std::size_t corners = 0;
    std::optional<std::int64_t> lastRow;
    for (PlainStretch& stretch : m_stretches) {
        if (stretch.rows) {
            if (lastRow && stretch.rows->first <= *lastRow)
                throw NotPlain{};
            lastRow = stretch.rows->last;
        }
        for (const std::size_t which : stretch.withoutGeometry)
            result.withoutGeometry.push_back(result.seen + which);
        result.seen += stretch.seen;
        result.taken += stretch.ids.size();
        corners += stretch.corners + stretch.addedCorners;
        result.addedCorners += stretch.addedCorners;
        result.partsWithAddedCorners += stretch.partsWithAddedCorners;
        result.cautions.merge(stretch.cautions);
        result.batches.push_back(std::move(stretch.batch));
    }
    if (corners > m_layer.cornerLimit)
        throw NotPlain{};
    return result;
}

Crew::Job PlainReading::attributeJob() {
    if (m_layer.table) {
        auto rows = std::make_shared<GeopackageRows>(*m_layer.table);
        return
            [this, rows](std::size_t number) { m_attributes[number] = rows->readAttributes(m_stretches[number].ids); };
    }
    auto rows = std::make_shared<ShapefileRows>(m_layer.path, m_layer.encoding);
    return [this, rows](std::size_t number) { m_attributes[number] = rows->readAttributes(m_stretches[number].ids); };
}

std::vector<AttributeBatch> PlainReading::attributes(const Progress& progress) {
    m_attributes.resize(m_stretches.size());
    Crew crew{m_stretches.size(), [this] { return attributeJob(); }};
    crew.add(Crew::size());
    crew.finish(progress, kShareOfGeometry, 1.0, phrase("core", "Reading the features"));
    return std::move(m_attributes);
}

} // namespace fencewright::exchange::detail
