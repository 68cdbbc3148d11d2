#include "store/detail/geometry_blob.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>

namespace fencewright::store {

namespace {

using model::Position;

// Well-known binary types, OGC 06-103r4, table 7.
enum class WkbType : std::uint32_t { Point = 1, LineString = 2, Polygon = 3, MultiPolygon = 6 };

class Bytes {
public:
    void byte(unsigned value) { m_bytes += static_cast<char>(value); }
    void word(std::uint32_t value) {
        for (int shift = 0; shift < 32; shift += 8)
            byte((value >> shift) & 0xFF);
    }
    void number(double value) {
        const auto bits = std::bit_cast<std::uint64_t>(value);
        for (int shift = 0; shift < 64; shift += 8)
            byte(static_cast<unsigned>((bits >> shift) & 0xFF));
    }
    void start(WkbType type) {
        byte(1); // little-endian
        word(static_cast<std::uint32_t>(type));
    }
    void count(std::size_t value) { word(static_cast<std::uint32_t>(value)); }
    void place(Position place) {
        number(place.lon);
        number(place.lat);
        m_extent.include(place);
        m_finite = m_finite && std::isfinite(place.lon) && std::isfinite(place.lat);
        m_places = true;
    }

    /// With the header before it: "GP", version 0, envelope [minx, maxx, miny, maxy], little-endian, WGS 84.
    [[nodiscard]] GeometryBlob blob() && {
        if (!m_finite || !m_places)
            return {};
        Bytes header;
        header.m_bytes = "GP";
        header.byte(0);
        header.byte(0b0000'0011);
        header.word(4326);
        for (const double bound : {m_extent.west, m_extent.east, m_extent.south, m_extent.north})
            header.number(bound);
        return {header.m_bytes + m_bytes, m_extent};
    }

private:
    std::string m_bytes;
    Extent m_extent;
    bool m_finite = true;
    bool m_places = false;
};

/// Twice the signed area in degrees, anticlockwise positive.
double turn(const std::vector<Position>& corners) {
    double sum = 0.0;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const Position& from = corners[i];
        const Position& to = corners[(i + 1) % corners.size()];
        sum += (from.lon - corners.front().lon) * (to.lat - corners.front().lat) -
               (to.lon - corners.front().lon) * (from.lat - corners.front().lat);
    }
    return sum;
}

void writeRing(Bytes& bytes, const model::Ring& ring, bool anticlockwise) {
    std::vector<Position> corners = ring.corners;
    if ((turn(corners) > 0.0) != anticlockwise)
        std::reverse(corners.begin(), corners.end());
    bytes.count(corners.empty() ? 0 : corners.size() + 1);
    for (const Position& corner : corners)
        bytes.place(corner);
    if (!corners.empty())
        bytes.place(corners.front());
}

void writePolygon(Bytes& bytes, const model::Polygon& polygon) {
    bytes.start(WkbType::Polygon);
    bytes.count(1 + polygon.holes.size());
    writeRing(bytes, polygon.shell, true);
    for (const model::Ring& hole : polygon.holes)
        writeRing(bytes, hole, false);
}

} // namespace

void Extent::include(Position place) {
    west = std::min(west, place.lon);
    east = std::max(east, place.lon);
    south = std::min(south, place.lat);
    north = std::max(north, place.lat);
}

void Extent::include(const Extent& other) {
    west = std::min(west, other.west);
    east = std::max(east, other.east);
    south = std::min(south, other.south);
    north = std::max(north, other.north);
}

GeometryBlob geometryBlob(Position place) {
    Bytes bytes;
    bytes.start(WkbType::Point);
    bytes.place(place);
    return std::move(bytes).blob();
}

GeometryBlob geometryBlob(const model::LineString& line) {
    Bytes bytes;
    bytes.start(WkbType::LineString);
    bytes.count(line.size());
    for (const Position& place : line)
        bytes.place(place);
    return std::move(bytes).blob();
}

GeometryBlob geometryBlob(const model::Polygon& polygon) {
    Bytes bytes;
    writePolygon(bytes, polygon);
    return std::move(bytes).blob();
}

GeometryBlob geometryBlob(const model::MultiPolygon& surface) {
    Bytes bytes;
    bytes.start(WkbType::MultiPolygon);
    bytes.count(surface.parts.size());
    for (const model::Polygon& part : surface.parts)
        writePolygon(bytes, part);
    return std::move(bytes).blob();
}

} // namespace fencewright::store
