#include "exchange/detail/plain_reading.h"

#include "exchange/detail/shapefile_rows.h"

namespace fencewright::exchange::detail {

namespace {

constexpr std::uint64_t kIdsAtOnce = FeatureBatch::kMostFeatures / 4;
constexpr std::uint64_t kMostRanges = 4096;
constexpr double kShareOfGeometry = 0.6;

} // namespace

void PlainReading::plan() {
    std::int64_t first = 0, last = m_layer.shapes - 1;
    if (m_layer.table)
        std::tie(first, last) = GeopackageRows{*m_layer.table}.ids();
    if (last < first)
        return;
    const std::uint64_t more = static_cast<std::uint64_t>(last) - static_cast<std::uint64_t>(first);
    const std::uint64_t width = std::max(kIdsAtOnce, more / kMostRanges + 1);
    for (std::uint64_t begin = 0; begin <= more; begin += width) {
        const std::uint64_t end = std::min(more, begin + (width - 1));
        m_ranges.emplace_back(static_cast<std::int64_t>(static_cast<std::uint64_t>(first) + begin),
                              static_cast<std::int64_t>(static_cast<std::uint64_t>(first) + end));
        if (end == more)
            break;
    }
}

Crew::Job PlainReading::geometryJob() {
    auto projection = std::make_shared<EarthProjection>(m_layer.crs, m_layer.datum);
    const auto job = [this, projection](auto rows) {
        return [this, projection, rows, size = PlainStretch::Size{}](std::size_t number) mutable {
            const auto& [first, last] = m_ranges[number];
            PlainIntake intake{*projection, m_layer.cornerLimit};
            PlainStretch& stretch = m_stretches[number];
            stretch.reserve(size);
            rows(first, last, intake, stretch);
            size = stretch.size();
        };
    };
    if (m_layer.table) {
        auto rows = std::make_shared<GeopackageRows>(*m_layer.table);
        return job([rows](std::int64_t first, std::int64_t last, PlainIntake& intake, PlainStretch& into) {
            rows->readGeometry(first, last, intake, into);
        });
    }
    auto rows = std::make_shared<ShapefileRows>(m_layer.path, m_layer.encoding, ShapefileRows::Wanted::Geometry);
    return job([rows](std::int64_t first, std::int64_t last, PlainIntake& intake, PlainStretch& into) {
        rows->readGeometry(first, last + 1, intake, into);
    });
}

PlainReading::Geometry PlainReading::geometry(const Progress& progress) {
    plan();
    m_stretches.resize(m_ranges.size());
    {
        Crew crew{m_ranges.size(), [this] { return geometryJob(); }};
        crew.add(Crew::size());
        crew.finish(progress, 0.0, kShareOfGeometry, "Reading " + m_layer.name);
    }
    Geometry result;
    std::size_t corners = 0;
    for (PlainStretch& stretch : m_stretches) {
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
    auto rows = std::make_shared<ShapefileRows>(m_layer.path, m_layer.encoding, ShapefileRows::Wanted::Attributes);
    return [this, rows](std::size_t number) { m_attributes[number] = rows->readAttributes(m_stretches[number].ids); };
}

void PlainReading::beginAttributes() {
    m_attributes.resize(m_ranges.size());
    m_attributeCrew.emplace(m_ranges.size(), [this] { return attributeJob(); });
    m_attributeCrew->add(1);
}

std::vector<AttributeBatch> PlainReading::attributes(const Progress& progress) {
    m_attributeCrew->add(Crew::size() - 1);
    m_attributeCrew->finish(progress, kShareOfGeometry, 1.0, "Reading " + m_layer.name);
    m_attributeCrew.reset();
    return std::move(m_attributes);
}

} // namespace fencewright::exchange::detail
