#pragma once

#include "exchange/detail/earth_projection.h"
#include "exchange/feature_batch.h"
#include "wording.h"

#include <cmath>
#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace fencewright::exchange::detail {

/// Something in the file asks for a note, for a decision, or for more than the short way of reading knows: the file is
/// to be read the long way (see LayerReading), which says what is the matter.
struct NotPlain {};

/// What was read of a stretch of a layer.
struct PlainStretch {
    FeatureBatch batch;
    std::vector<std::int64_t> ids; ///< of the features in the batch
    std::size_t seen = 0;          ///< in the file
    struct Rows {
        std::int64_t first, last;
    };
    std::optional<Rows> rows;                 ///< the identities of those seen, where they have to ascend
    std::vector<std::size_t> withoutGeometry; ///< which of those seen; the first of them is one
    std::size_t corners = 0;                  ///< in the file
    std::size_t addedCorners = 0;
    std::size_t partsWithAddedCorners = 0;
    std::map<std::string, Wording> cautions; ///< each once, by its English

    struct Size {
        std::size_t features = 0, lines = 0, corners = 0;
    };
    [[nodiscard]] Size size() const { return {batch.size(), batch.lineKinds.size(), batch.corners.size()}; }
    /// Makes room for as much as that, and a little more.
    void reserve(const Size& likely);
};

/// Takes geometries that are as they should be to WGS 84, many at once: what comes out is, bit for bit, what
/// takeGeometry() and EarthProjection::toEarth() make of them one by one.
class PlainIntake {
public:
    PlainIntake(EarthProjection& projection, std::size_t cornerLimit)
        : m_projection{projection}, m_cornerLimit{cornerLimit} {}

    /// The corners of the line that is being taken, for the source to append to; of a ring, with the repeated last one.
    [[nodiscard]] std::vector<geodesy::PlanePoint>& corners() { return m_corners; }
    void height(double z) {
        if (std::isfinite(z)) {
            m_lowest = std::min(m_lowest.value_or(z), z);
            m_highest = std::max(m_highest.value_or(z), z);
        }
    }
    /// The corners appended since the last line are one. @throws NotPlain
    void endPoint() { endLine(LineKind::Point); }
    void endOpenLine();
    void endRing(bool hole);
    /// All since the last feature is one. @throws NotPlain
    void endFeature(std::int64_t id, PlainStretch& into);
    void endFeatureWithoutGeometry(PlainStretch& into);
    /// What was ended reaches the stretch at the latest now. @throws NotPlain
    void flush(PlainStretch& into);

private:
    struct Line {
        LineKind kind;
        std::size_t end; ///< in m_corners
    };
    struct Waiting {
        std::size_t endLine = 0;
        std::int64_t id = 0;
        std::optional<double> lowest, highest;
    };

    void endLine(LineKind kind);
    [[nodiscard]] std::size_t begin() const { return m_lines.empty() ? 0 : m_lines.back().end; }
    void place(std::span<const std::optional<model::Position>> earth, PlainStretch& into);
    [[nodiscard]] bool isPlainPart(std::size_t firstLine, std::size_t endLine,
                                   std::span<const std::optional<model::Position>> earth);
    void placeByProjection(std::size_t firstLine, std::size_t endLine, PlainStretch& into);

    EarthProjection& m_projection;
    std::size_t m_cornerLimit;
    std::vector<geodesy::PlanePoint> m_corners;
    std::vector<Line> m_lines;
    std::vector<Waiting> m_features;
    std::optional<double> m_lowest, m_highest;
    std::size_t m_read = 0; ///< corners of the feature, as the file has them
};

} // namespace fencewright::exchange::detail
