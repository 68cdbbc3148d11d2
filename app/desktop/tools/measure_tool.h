#pragma once

#include <QCoreApplication>

#include "desktop/tools/line_entry.h"
#include "desktop/tools/tool.h"

namespace fencewright::desktop {

/// Measures along the ground: length and bearing of each leg and the whole way; of a ring, perimeter and area. Changes
/// nothing.
class MeasureTool final : public Tool {
    Q_DECLARE_TR_FUNCTIONS(MeasureTool)

public:
    ToolAnswer handle(const ToolEvent& event, const ToolScene& scene) override;
    ToolPreview preview(const ToolScene& scene) const override;
    QString hint(const ToolScene& scene) const override;
    QString typedPrompt() const override;
    QString copiedText(const ToolScene& scene) const override;
    bool wantsSnap() const override { return true; }
    LineSoFar lineSoFar(const model::Position& pointer, bool wholeBearings) const override {
        return m_stage != Stage::Going ? LineSoFar{} : m_line.lineSoFar(pointer, wholeBearings);
    }

private:
    enum class Stage {
        Going,
        Line, ///< it stands, and the next click begins another
        Ring
    };

    QString resultWords(units::System units) const;

    LineEntry m_line{LineEntry::Closing::Ring};
    Stage m_stage = Stage::Going;
};

} // namespace fencewright::desktop
