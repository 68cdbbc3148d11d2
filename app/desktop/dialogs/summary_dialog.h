#pragma once

#include <QDialog>

#include "exchange/vector_content.h"

namespace fencewright::desktop {

/// The account of a reading: what came in, what was changed or left out, and why.
class SummaryDialog : public QDialog {
    Q_OBJECT

public:
    /// @param outcome  the first line: "Added 12 sites and 12 setbacks."
    SummaryDialog(const QString& title, const QString& outcome, const exchange::VectorContent& content,
                  const std::vector<exchange::ReadNote>& more, QWidget* parent);
};

/// "61 features read, 2 left out, 3 remarks".
[[nodiscard]] QString readingWords(const exchange::VectorContent& content);

} // namespace fencewright::desktop
