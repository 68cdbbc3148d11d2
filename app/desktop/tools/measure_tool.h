#pragma once

#include <QCoreApplication>

#include "desktop/tools/line_tool.h"

namespace fencewright::desktop {

/// Measures along the ground: length and bearing of each leg and the whole way; of a ring, perimeter and area. Changes
/// nothing.
class MeasureTool final : public LineTool {
    Q_DECLARE_TR_FUNCTIONS(MeasureTool)

public:
    MeasureTool() : LineTool{LineEntry{LineEntry::Closing::Ring}} {}

    ToolAnswer handle(const ToolEvent& event, const ToolScene& scene) override;
    ToolPreview preview(const ToolScene& scene) const override;
    QString hint(const ToolScene& scene) const override;
    QString typedPrompt() const override;
    QString copiedText(const ToolScene& scene) const override;
    LineSoFar lineSoFar(const model::Position& pointer, bool wholeBearings) const override {
        return m_stage != Stage::Going ? LineSoFar{} : LineTool::lineSoFar(pointer, wholeBearings);
    }

private:
    enum class Stage {
        Going,
        Line, ///< it stands, and the next click begins another
        Ring
    };

    QString resultWords(units::System units) const;

    Stage m_stage = Stage::Going;
};

} // namespace fencewright::desktop
