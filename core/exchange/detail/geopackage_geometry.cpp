#include "exchange/detail/geopackage_geometry.h"

#include <bit>
#include <cstring>
#include <string_view>

namespace fencewright::exchange::detail {

namespace {

static_assert(std::endian::native == std::endian::little, "geometries are read as they lie in the file");

// A row with a geometry takes 36 bytes at least: no stretch has more of them than a batch.
constexpr std::size_t kStretchBytes = std::size_t{1} << 21;

/// Takes a geometry apart.
class BlobReading {
public:
    BlobReading(std::string_view blob, PlainIntake& intake) : m_rest{blob}, m_intake{intake} {}

    /// Whether there is a geometry.
    bool run() {
        skipHead();
        const Type type = nextType();
        switch (type.kind) {
        case kPoint:
            point(type);
            return true;
        case kLine:
            return openLine(type);
        case kPolygon:
            return polygon(type);
        case kMultiPoint:
        case kMultiLine:
        case kMultiPolygon:
            break;
        default:
            throw NotPlain{};
        }
        const auto parts = count(5);
        for (std::uint32_t i = 0; i < parts; ++i) {
            const Type own = nextType();
            if (own.kind != type.kind - 3 || own.stride != type.stride || own.hasZ != type.hasZ)
                throw NotPlain{};
            if (own.kind == kPoint)
                point(own);
            else if (!(own.kind == kLine ? openLine(own) : polygon(own)))
                throw NotPlain{};
        }
        return parts > 0;
    }

private:
    enum Kind : std::uint32_t { kPoint = 1, kLine, kPolygon, kMultiPoint, kMultiLine, kMultiPolygon };
    struct Type {
        std::uint32_t kind = 0;
        std::size_t stride = 16; ///< bytes of a corner
        bool hasZ = false;
    };

    template <class T> T next() {
        T value;
        if (m_rest.size() < sizeof value)
            throw NotPlain{};
        std::memcpy(&value, m_rest.data(), sizeof value);
        m_rest.remove_prefix(sizeof value);
        return value;
    }
    /// How many follow, each of at least so many bytes.
    std::uint32_t count(std::size_t bytesEach) {
        const auto number = next<std::uint32_t>();
        if (number > m_rest.size() / bytesEach)
            throw NotPlain{};
        return number;
    }

    void skipHead() {
        constexpr std::array<std::size_t, 5> envelope{0, 32, 48, 48, 64};
        const auto magic = next<std::array<char, 3>>();
        const auto flags = next<std::uint8_t>();
        const std::size_t kind = (flags >> 1) & 7U;
        // Not the first version of the form, or an extended one; or of another byte order.
        if (magic != std::array<char, 3>{'G', 'P', 0} || (flags & 0xE1U) != 1 || kind >= envelope.size() ||
            m_rest.size() < 4 + envelope[kind])
            throw NotPlain{};
        m_rest.remove_prefix(4 + envelope[kind]);
    }

    Type nextType() {
        if (next<std::uint8_t>() != 1)
            throw NotPlain{};
        const auto code = next<std::uint32_t>();
        const std::uint32_t dimensions = code / 1000;
        if (dimensions > 3)
            throw NotPlain{};
        return {code % 1000, dimensions == 0 ? 16U : dimensions == 3 ? 32U : 24U, dimensions == 1 || dimensions == 3};
    }

    void corners(std::size_t number, const Type& type) {
        if (number > m_rest.size() / type.stride)
            throw NotPlain{};
        std::vector<geodesy::PlanePoint>& into = m_intake.corners();
        const std::size_t before = into.size();
        into.resize(before + number);
        const char* at = m_rest.data();
        for (std::size_t i = 0; i < number; ++i, at += type.stride) {
            std::memcpy(&into[before + i].x, at, sizeof(double));
            std::memcpy(&into[before + i].y, at + 8, sizeof(double));
            if (type.hasZ) {
                double z = 0.0;
                std::memcpy(&z, at + 16, sizeof z);
                m_intake.height(z);
            }
        }
        m_rest.remove_prefix(number * type.stride);
    }

    void point(const Type& type) {
        corners(1, type);
        m_intake.endPoint(); // an empty one has coordinates that are no numbers: not plain
    }

    bool openLine(const Type& type) {
        const auto number = count(type.stride);
        if (number == 0)
            return false;
        corners(number, type);
        m_intake.endOpenLine();
        return true;
    }

    bool polygon(const Type& type) {
        const auto rings = count(4);
        for (std::uint32_t ring = 0; ring < rings; ++ring) {
            corners(count(type.stride), type);
            m_intake.endRing(ring > 0);
        }
        return rings > 0;
    }

    std::string_view m_rest;
    PlainIntake& m_intake;
};

} // namespace

GeopackageGeometry::GeopackageGeometry(const std::string& path, const Place& place)
    : m_pages{path, place.root}, m_column{place.column}, m_leavesAtOnce{kStretchBytes / m_pages.pageBytes()} {}

std::size_t GeopackageGeometry::stretches() const { return (m_pages.leaves() + m_leavesAtOnce - 1) / m_leavesAtOnce; }

void GeopackageGeometry::read(std::size_t stretch, std::string& room, PlainIntake& intake, PlainStretch& into) const {
    using Kind = TablePages::Value::Kind;
    const std::size_t first = stretch * m_leavesAtOnce, end = std::min(first + m_leavesAtOnce, m_pages.leaves());
    for (std::size_t leaf = first; leaf < end; ++leaf)
        m_pages.visitRows(leaf, m_column, room, [&](std::int64_t id, const TablePages::Value& value) {
            if (into.rows && id <= into.rows->last)
                throw NotPlain{};
            into.rows = {into.rows ? into.rows->first : id, id};
            if (value.kind != Kind::Blob && value.kind != Kind::Null)
                throw NotPlain{};
            if (value.kind == Kind::Blob && BlobReading{value.bytes, intake}.run())
                intake.endFeature(id, into);
            else
                intake.endFeatureWithoutGeometry(into);
        });
    intake.flush(into);
}

} // namespace fencewright::exchange::detail
