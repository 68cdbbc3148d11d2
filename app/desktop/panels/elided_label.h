#pragma once

#include <QLabel>

namespace fencewright::desktop {

/// One line of plain text that ends in "…" where there is no room for all of it; the tooltip then has it whole.
class ElidedLabel : public QLabel {
    Q_OBJECT

public:
    using QLabel::QLabel;

    QSize minimumSizeHint() const override;
    /// The width of all of the text.
    int wholeWidth() const;

protected:
    void paintEvent(QPaintEvent* event) override;
    bool event(QEvent* event) override;
};

} // namespace fencewright::desktop
