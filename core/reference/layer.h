#pragma once

#include "exchange/feature_batch.h"
#include "exchange/vector_content.h"
#include "geometry/spatial_index.h"
#include "model/polygon.h"
#include "model/position.h"
#include "reference/detail/layer_form.h"
#include "reference/detail/mapped_file.h"
#include "reference/detail/packed_corners.h"

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace fencewright::reference {

/// A layer of a foreign file, kept in a file of our own that lies in memory as it lies on disk: millions of features
/// open at once, and only what is looked at is read. Safe to use from many threads at once.
///
/// Features are numbered in Hilbert order, so that neighbours on the earth are neighbours in the file. Places are
/// WGS 84, exactly as the reader gave them.
class Layer {
public:
    /// @param key  what the file must have been made of.
    /// @throws Fault  not there, made of something else or by another version, damaged: wholly checked here, so that
    /// nothing that is asked later can leave the file.
    Layer(const std::string& path, std::string_view key);

    /// Where the geometry of a layer begins in a file whose attributes are still being written.
    struct GeometryAt {
        std::size_t byte = 0;
    };
    /// The geometry alone: without fields, every text empty.
    /// @throws Fault  it contradicts itself or is cut off.
    Layer(const std::string& path, GeometryAt begin);

    /// Format, CRS, fields, notes and so on; without the features.
    [[nodiscard]] const exchange::VectorContent& about() const { return m_about; }
    [[nodiscard]] std::size_t size() const { return m_head.features; }
    [[nodiscard]] std::optional<std::size_t> column(std::string_view field) const;

    /// The features whose boxes meet the box, on whatever turn its longitudes are, in ascending order.
    [[nodiscard]] std::vector<std::size_t> meeting(const geometry::Box& box) const;
    /// Calls `visit(feature, box)` for each feature whose box, rounded outwards by at most a few millionths of the
    /// layer's width, meets the window on the turn where it lies; until one call returns false. Looks at no
    /// coordinates and allocates nothing.
    template <class Visit> void visitMeeting(const geometry::Box& window, Visit&& visit) const;
    /// By how many degrees a window is to be turned to find all features: whole turns, from west to east.
    [[nodiscard]] std::vector<double> turnsOf(const geometry::Box& window) const;

    /// The box of a feature, exactly; empty where it has no corners.
    [[nodiscard]] geometry::Box box(std::size_t feature) const;
    /// A line of a feature, as long as it is visited.
    struct Line {
        std::span<const model::Position> corners; ///< one: a point
        bool closed = false;
        bool hole = false;
    };
    template <class Visit> void visitLines(std::size_t feature, Visit&& visit) const;
    /// The same for whoever visits many features.
    /// @param room  for the corners: used again from feature to feature.
    template <class Visit>
    void visitLines(std::size_t feature, std::vector<model::Position>& room, Visit&& visit) const {
        visitLinesOf(feature, corners(feature, {}, room), visit);
    }
    [[nodiscard]] std::size_t cornersOf(std::size_t feature) const;
    [[nodiscard]] std::vector<exchange::FeatureGeometry> parts(std::size_t feature) const;
    /// The surfaces among the parts.
    [[nodiscard]] model::MultiPolygon surface(std::size_t feature) const;
    /// Whether a surface of the feature holds the place, on whatever turn; on a boundary it may be either.
    [[nodiscard]] bool encloses(std::size_t feature, const model::Position& place) const;

    /// As the reader gave it, attributes and all.
    [[nodiscard]] exchange::Feature feature(std::size_t feature) const;
    [[nodiscard]] std::string_view attribute(std::size_t feature, std::size_t column) const;
    [[nodiscard]] std::string_view id(std::size_t feature) const { return text(feature, 0); }
    /// Its place in the order of the foreign file, which is the order of drawing.
    [[nodiscard]] std::size_t fileNumber(std::size_t feature) const { return m_fileNumbers[feature]; }

    /// Features whose value in the column is the words, then those whose value contains them: at most `limit` of each.
    /// Small and capital letters are the same in Latin, Greek and Cyrillic script.
    [[nodiscard]] std::vector<std::size_t> search(std::size_t column, std::string_view words, std::size_t limit) const;

    /// Gives back the memory of what was looked at so far.
    void release() const { m_file.release(); }

private:
    class Sections;

    void takeGeometry(Sections& sections);
    void takeAttributes(Sections& sections);
    [[nodiscard]] bool cornersAreSound() const;
    [[nodiscard]] std::string_view text(std::size_t feature, std::size_t column) const {
        if (m_columnEnds.empty())
            return {};
        const std::uint32_t* ends = m_columnEnds[column];
        return {m_columnTexts[column] + ends[feature], ends[feature + 1] - ends[feature]};
    }
    template <class Visit>
    void visitLinesOf(std::size_t feature, std::span<const model::Position> all, Visit& visit) const;
    /// The corners of a feature, in `few` where there is room in it.
    [[nodiscard]] std::span<const model::Position> corners(std::size_t feature, std::span<model::Position> few,
                                                           std::vector<model::Position>& many) const;
    [[nodiscard]] geometry::Box boxOf(const detail::NodeBox& node) const {
        return {m_head.originX + double{node.minX}, m_head.originY + double{node.minY},
                m_head.originX + double{node.maxX}, m_head.originY + double{node.maxY}};
    }

    detail::MappedFile m_file;
    detail::GeometryHead m_head;
    exchange::VectorContent m_about;
    std::vector<std::size_t> m_levelEnds;
    const detail::NodeBox* m_nodes = nullptr;
    const std::uint32_t* m_featureLines = nullptr;
    const std::uint32_t* m_lineCorners = nullptr;
    const exchange::LineKind* m_lineKinds = nullptr;
    const std::uint32_t* m_fileNumbers = nullptr;
    const detail::CornerBlock* m_blocks = nullptr;
    const char* m_packed = nullptr;
    const double* m_lows = nullptr;
    const double* m_highs = nullptr;
    std::vector<const std::uint32_t*> m_columnEnds;
    std::vector<const char*> m_columnTexts;
};

template <class Visit> void Layer::visitMeeting(const geometry::Box& window, Visit&& visit) const {
    if (m_head.features == 0 || window.empty())
        return;
    // The same subtraction as in the file: where two numbers were equal, they still are.
    const geometry::Box local{window.minX - m_head.originX, window.minY - m_head.originY, window.maxX - m_head.originX,
                              window.maxY - m_head.originY};
    const auto meets = [&local](const detail::NodeBox& box) {
        return double{box.minX} <= local.maxX && local.minX <= double{box.maxX} && double{box.minY} <= local.maxY &&
               local.minY <= double{box.maxY};
    };
    struct Step {
        std::size_t level, node; // the node is counted from the begin of its level
    };
    std::array<Step, 17 * detail::kNodeSize> steps;
    std::size_t waiting = 0;
    steps[waiting++] = {m_levelEnds.size() - 1, 0};
    while (waiting > 0) {
        const auto [level, node] = steps[--waiting];
        const std::size_t begin = level == 0 ? 0 : m_levelEnds[level - 1];
        if (!meets(m_nodes[begin + node]))
            continue;
        const std::size_t below = level <= 1 ? 0 : m_levelEnds[level - 2];
        const std::size_t first = level == 0 ? node : node * detail::kNodeSize;
        const std::size_t end = level == 0 ? node + 1 : std::min(first + detail::kNodeSize, begin - below);
        if (level <= 1) {
            for (std::size_t feature = first; feature < end; ++feature)
                if (meets(m_nodes[feature]) && !visit(feature, boxOf(m_nodes[feature])))
                    return;
            continue;
        }
        // From the last to the first, so that they are taken off in ascending order.
        for (std::size_t i = end; i-- > first;)
            steps[waiting++] = {level - 1, i};
    }
}

template <class Visit> void Layer::visitLines(std::size_t feature, Visit&& visit) const {
    std::array<model::Position, 32> few;
    std::vector<model::Position> many;
    visitLinesOf(feature, corners(feature, few, many), visit);
}

template <class Visit>
void Layer::visitLinesOf(std::size_t feature, std::span<const model::Position> all, Visit& visit) const {
    using exchange::LineKind;
    std::uint32_t line = m_featureLines[feature];
    const std::uint32_t begin = m_lineCorners[line];
    for (; line < m_featureLines[feature + 1]; ++line) {
        const LineKind kind = m_lineKinds[line];
        const std::uint32_t first = m_lineCorners[line];
        visit(Line{all.subspan(first - begin, m_lineCorners[line + 1] - first),
                   kind != LineKind::Point && kind != LineKind::Line,
                   kind == LineKind::Hole || kind == LineKind::HoleClosed});
    }
}

} // namespace fencewright::reference
