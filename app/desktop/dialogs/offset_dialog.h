#pragma once

#include <QDialog>

#include "airspace/reshaping.h"
#include "units/measure_notation.h"

#include <optional>

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;

namespace fencewright::desktop {

/// Asks how far from a fence its copy is to stand, on which side, and of what kind it is to be.
class OffsetDialog : public QDialog {
    Q_OBJECT

public:
    /// @param name,kind  of the fence.
    OffsetDialog(const QString& name, model::FenceKind kind, units::System units, QWidget* parent);

    /// Nothing where what is typed is none.
    std::optional<StatedLength> distance() const;
    airspace::OffsetDirection direction() const;
    model::FenceKind kind() const;

    /// Why there is no such copy; empty: there is one.
    void say(const QString& refusal);

signals:
    /// Another copy is asked for.
    void changed();

private:
    void restate();

    units::System m_units;
    QLineEdit* m_distance;
    QComboBox* m_side;
    QComboBox* m_kind;
    QLabel* m_words;
    QPushButton* m_go;
};

} // namespace fencewright::desktop
