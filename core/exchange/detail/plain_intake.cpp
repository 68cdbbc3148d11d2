#include "exchange/detail/plain_intake.h"

namespace fencewright::exchange::detail {

namespace {

constexpr std::size_t kCornersAtOnce = 16'384;
// What comes near the antimeridian may have to be unwrapped, joined or turned: that is for the long way.
constexpr double kEasternmost = 179.9;

bool threeApart(std::span<const geodesy::PlanePoint> corners) {
    const geodesy::PlanePoint& first = corners.front();
    const geodesy::PlanePoint* second = nullptr;
    for (const geodesy::PlanePoint& corner : corners)
        if (!second && corner != first)
            second = &corner;
        else if (second && corner != first && corner != *second)
            return true;
    return false;
}

} // namespace

void PlainStretch::reserve(const Size& likely) {
    const auto room = [](std::size_t count) { return count + count / 16; };
    ids.reserve(room(likely.features));
    batch.featureLines.reserve(room(likely.features) + 1);
    batch.boxes.reserve(room(likely.features));
    batch.lineCorners.reserve(room(likely.lines) + 1);
    batch.lineKinds.reserve(room(likely.lines));
    batch.corners.reserve(room(likely.corners));
}

void PlainIntake::endLine(LineKind kind) {
    m_read += m_corners.size() - begin();
    for (std::size_t i = begin(); i < m_corners.size(); ++i)
        if (!std::isfinite(m_corners[i].x) || !std::isfinite(m_corners[i].y))
            throw NotPlain{};
    m_lines.push_back({kind, m_corners.size()});
}

void PlainIntake::endOpenLine() {
    const auto line = std::span{m_corners}.subspan(begin());
    if (std::all_of(line.begin(), line.end(), [&](const geodesy::PlanePoint& p) { return p == line.front(); }))
        throw NotPlain{};
    endLine(LineKind::Line);
}

void PlainIntake::endRing(bool hole) {
    const auto ring = std::span{m_corners}.subspan(begin());
    if (ring.size() < 4 || ring.front() != ring.back() || !threeApart(ring))
        throw NotPlain{};
    m_corners.pop_back();
    ++m_read;
    endLine(hole ? LineKind::Hole : LineKind::Shell);
}

void PlainIntake::endFeatureWithoutGeometry(PlainStretch& into) {
    if (m_corners.size() != begin() || m_lines.size() != (m_features.empty() ? 0 : m_features.back().endLine))
        throw NotPlain{};
    into.withoutGeometry.push_back(into.seen++);
}

void PlainIntake::endFeature(std::int64_t id, PlainStretch& into) {
    if (m_lines.size() == (m_features.empty() ? 0 : m_features.back().endLine))
        throw NotPlain{};
    ++into.seen;
    into.corners += std::exchange(m_read, 0);
    m_features.push_back(
        {m_lines.size(), id, std::exchange(m_lowest, std::nullopt), std::exchange(m_highest, std::nullopt)});
    if (m_corners.size() >= kCornersAtOnce)
        flush(into);
}

void PlainIntake::flush(PlainStretch& into) {
    if (m_features.empty())
        return;
    if (m_projection.isWgs84()) {
        place({}, into);
    } else {
        place(m_projection.cornersToWgs84(m_corners), into);
        if (Wording caution = m_projection.caution(); !caution.empty())
            into.cautions.emplace(caution.english(), std::move(caution));
    }
    m_corners.clear();
    m_lines.clear();
    m_features.clear();
}

bool PlainIntake::isPlainPart(std::size_t firstLine, std::size_t endLine,
                              std::span<const std::optional<model::Position>> earth) {
    for (std::size_t line = firstLine; line < endLine; ++line) {
        const std::size_t first = line == 0 ? 0 : m_lines[line - 1].end;
        const std::size_t end = m_lines[line].end;
        for (std::size_t i = first; i < end; ++i)
            if (!earth[i])
                return false;
        if (m_projection.arePlainEdges(std::span{m_corners}.subspan(first, end - first)))
            continue;
        for (std::size_t i = first; i + 1 < end; ++i)
            if (!m_projection.isPlainEdge(m_corners[i], m_corners[i + 1]))
                return false;
        if (m_lines[line].kind != LineKind::Line && !m_projection.isPlainEdge(m_corners[end - 1], m_corners[first]))
            return false;
    }
    return true;
}

void PlainIntake::placeByProjection(std::size_t firstLine, std::size_t endLine, PlainStretch& into) {
    const LineKind kind = m_lines[firstLine].kind;
    SourcePart part;
    part.kind = kind == LineKind::Point  ? SourcePart::Kind::Point
                : kind == LineKind::Line ? SourcePart::Kind::Line
                                         : SourcePart::Kind::Surface;
    for (std::size_t line = firstLine; line < endLine; ++line) {
        const auto first = static_cast<std::ptrdiff_t>(line == 0 ? 0 : m_lines[line - 1].end);
        const auto end = static_cast<std::ptrdiff_t>(m_lines[line].end);
        part.lines.push_back({{m_corners.begin() + first, m_corners.begin() + end}, false});
    }
    EarthProjection::Projected projected = m_projection.toEarth(part, m_cornerLimit);
    if (!projected.geometry || projected.unwrapped)
        throw NotPlain{};
    if (projected.addedCorners > 0) {
        into.addedCorners += projected.addedCorners;
        ++into.partsWithAddedCorners;
    }
    const auto take = [&](std::span<const model::Position> places, LineKind as) {
        into.batch.corners.insert(into.batch.corners.end(), places.begin(), places.end());
        into.batch.endLine(as);
    };
    if (const auto* point = std::get_if<model::Position>(&*projected.geometry)) {
        take({point, 1}, LineKind::Point);
    } else if (const auto* line = std::get_if<model::LineString>(&*projected.geometry)) {
        take(*line, LineKind::Line);
    } else {
        const auto& polygon = std::get<model::Polygon>(*projected.geometry);
        take(polygon.shell.corners, LineKind::Shell);
        for (const model::Ring& hole : polygon.holes)
            take(hole.corners, LineKind::Hole);
    }
}

void PlainIntake::place(std::span<const std::optional<model::Position>> earth, PlainStretch& into) {
    FeatureBatch& batch = into.batch;
    std::size_t line = 0;
    for (const Waiting& feature : m_features) {
        while (line < feature.endLine) {
            const std::size_t firstLine = line;
            while (++line < feature.endLine && m_lines[line].kind == LineKind::Hole) {
            }
            if (!earth.empty() && !isPlainPart(firstLine, line, earth)) {
                placeByProjection(firstLine, line, into);
                continue;
            }
            for (std::size_t own = firstLine; own < line; ++own) {
                for (std::size_t i = own == 0 ? 0 : m_lines[own - 1].end; i < m_lines[own].end; ++i)
                    batch.corners.push_back(earth.empty() ? model::Position{m_corners[i].x, m_corners[i].y}
                                                          : *earth[i]);
                batch.endLine(m_lines[own].kind);
            }
        }
        batch.endFeature(feature.lowest, feature.highest);
        into.ids.push_back(feature.id);
        const geometry::Box& box = batch.boxes.back();
        if (!(box.minX >= -kEasternmost && box.maxX <= kEasternmost && box.maxX - box.minX <= 180.0 &&
              box.minY >= -90.0 && box.maxY <= 90.0) ||
            batch.size() > FeatureBatch::kMostFeatures)
            throw NotPlain{};
    }
}

} // namespace fencewright::exchange::detail
