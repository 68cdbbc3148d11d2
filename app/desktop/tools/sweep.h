#pragma once

#include "desktop/tools/tool.h"

#include <vector>

namespace fencewright::desktop {

/// A stretch of the map that the pointer sweeps over, to choose what lies wholly in it: a box that stands upright on
/// the screen, or a loop drawn by hand.
class Sweep {
public:
    enum class Form { Box, Loop };
    Sweep(Form form, const model::Position& start) : m_form{form}, m_start{start}, m_outline{start} {}

    void extend(const model::Position& place, Length tolerance, const ToolScene& scene);
    /// Its corners, as a ring.
    const model::LineString& outline() const { return m_outline; }
    /// Fences by their outlines, in the order of the set; then sites, then homes.
    std::vector<Thing> within(const ToolScene& scene) const;

private:
    Form m_form;
    model::Position m_start;
    model::LineString m_outline;
};

} // namespace fencewright::desktop
