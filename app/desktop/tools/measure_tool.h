#pragma once

#include <QCoreApplication>

#include "desktop/tools/tool.h"

namespace fencewright::desktop {

/// Measures along the ground: length and bearing of each leg, and the whole way. Changes nothing.
class MeasureTool final : public Tool {
    Q_DECLARE_TR_FUNCTIONS(MeasureTool)

public:
    ToolAnswer handle(const ToolEvent& event, const ToolScene& scene) override;
    ToolPreview preview(const ToolScene& scene) const override;
    QString hint(const ToolScene& scene) const override;
    QString typedPrompt() const override;
    bool wantsSnap() const override { return true; }

private:
    void add(const model::Position& place);

    model::LineString m_places;
    model::Position m_pointer;
    bool m_ended = false; ///< the line stands, and the next click begins another
};

} // namespace fencewright::desktop
