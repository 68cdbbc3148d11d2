#pragma once

#include <QDialog>

#include "geometry/traverse.h"
#include "model/fence.h"
#include "units/measure_notation.h"

#include <optional>

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;
class QPlainTextEdit;
class QPushButton;

namespace fencewright::desktop {

/// A fence from the courses of a deed: typed or pasted, with how well they close.
class DeedDialog : public QDialog {
    Q_OBJECT

public:
    /// @param start  text of the place where the first course begins, as a proposal.
    DeedDialog(const QString& start, units::System units, QWidget* parent);

    /// What stands in the dialog as a shape; nothing while it cannot be one.
    const std::optional<model::DrawnPolygon>& shape() const { return m_shape; }
    model::FenceKind kind() const;

signals:
    /// The shape is another, or none.
    void shapeChanged();

private:
    void restate();
    QString closureWords(const geometry::Closure& closure) const;

    units::System m_units;
    std::optional<model::DrawnPolygon> m_shape;
    QComboBox* m_kind;
    QLineEdit* m_start;
    QLineEdit* m_north;
    QPlainTextEdit* m_courses;
    QCheckBox* m_adjust;
    QLabel* m_closure;
    QLabel* m_refusal;
    QPushButton* m_go;
};

} // namespace fencewright::desktop
