// The index of a million boxes against the tree of GEOS.

#include "bench/bar.h"
#include "geometry/spatial_index.h"

#include <geos_c.h>

#include <memory>
#include <random>

using namespace fencewright;
using namespace fencewright::bench;

namespace {

constexpr int kAcross = 1000;

/// Boxes as a land record has them: side by side, of many sizes.
std::vector<geometry::Box> boxes() {
    std::mt19937 random{7};
    std::uniform_real_distribution<double> some{0.2, 1.2};
    std::vector<geometry::Box> all;
    for (int i = 0; i < kAcross; ++i)
        for (int k = 0; k < kAcross; ++k)
            all.push_back({i * 4e-4, k * 4e-4, (i + some(random)) * 4e-4, (k + some(random)) * 4e-4});
    return all;
}

class GeosTree {
public:
    GeosTree() { initGEOS(nullptr, nullptr); }
    ~GeosTree() {
        clear();
        for (GEOSGeometry* rectangle : m_rectangles)
            GEOSGeom_destroy(rectangle);
        finishGEOS();
    }
    GeosTree(const GeosTree&) = delete;
    GeosTree& operator=(const GeosTree&) = delete;

    /// Not part of the time: a program that uses GEOS has its geometries.
    void prepare(const std::vector<geometry::Box>& boxes) {
        for (const geometry::Box& box : boxes)
            m_rectangles.push_back(GEOSGeom_createRectangle(box.minX, box.minY, box.maxX, box.maxY));
    }
    void clear() {
        if (m_tree)
            GEOSSTRtree_destroy(m_tree);
        m_tree = nullptr;
    }
    void build() {
        m_tree = GEOSSTRtree_create(16);
        for (std::size_t i = 0; i < m_rectangles.size(); ++i)
            GEOSSTRtree_insert(m_tree, m_rectangles[i], reinterpret_cast<void*>(i));
        (void)meeting({0, 0, 0, 0}); // the first question builds it
    }
    std::vector<std::size_t> meeting(const geometry::Box& window) const {
        std::vector<std::size_t> hits;
        GEOSGeometry* rectangle = window.minX < window.maxX && window.minY < window.maxY
                                      ? GEOSGeom_createRectangle(window.minX, window.minY, window.maxX, window.maxY)
                                      : GEOSGeom_createPointFromXY(window.minX, window.minY);
        GEOSSTRtree_query(
            m_tree, rectangle,
            [](void* item, void* to) {
                static_cast<std::vector<std::size_t>*>(to)->push_back(reinterpret_cast<std::size_t>(item));
            },
            &hits);
        GEOSGeom_destroy(rectangle);
        std::sort(hits.begin(), hits.end());
        return hits;
    }

private:
    std::vector<GEOSGeometry*> m_rectangles;
    GEOSSTRtree* m_tree = nullptr;
};

struct Both {
    std::vector<geometry::Box> all = boxes();
    GeosTree tree;
    Both() { tree.prepare(all); }
};

Figures build(const Options& options) {
    Both both;
    return interleaved(
        options.rounds(), [&] { return milliseconds([&] { const geometry::SpatialIndex index{both.all}; }); },
        [&] {
            both.tree.clear();
            return milliseconds([&] { both.tree.build(); });
        });
}

Figures differingAnswers(const Options&) {
    Both both;
    both.tree.build();
    const geometry::SpatialIndex index{both.all};
    std::mt19937 random{11};
    std::uniform_real_distribution<double> place{-0.01, 0.41}, size{-5.0, -0.7};
    std::size_t differing = 0, hits = 0;
    for (int i = 0; i < 10'000; ++i) {
        const double x = place(random), y = place(random);
        const geometry::Box window{x, y, x + std::pow(10.0, size(random)), y + std::pow(10.0, size(random))};
        const auto ours = index.meeting(window);
        differing += ours != both.tree.meeting(window);
        hits += ours.size();
    }
    return {.ours = double(differing), .note = std::to_string(hits) + " hits compared"};
}

} // namespace

int main(int argc, char** argv) {
    return runBars(
        argc, argv,
        {{"index of 1,000,000 boxes: build, against GEOS STRtree insert and build", "ms", Sense::AtMost, 0.25, build},
         {"index: windows of 10,000 answered otherwise than by GEOS", "", Sense::AtMost, 0.0, differingAnswers}});
}
