#pragma once

#include <QDialog>

#include "model/margin.h"
#include "units/measure_notation.h"

#include <optional>

class QLabel;
class QLineEdit;
class QPushButton;

namespace fencewright::desktop {

/// Asks for the figures of the set's margin, each in any unit, and shows what they come to.
class MarginDialog : public QDialog {
    Q_OBJECT

public:
    /// @param stated  as it is now; nothing: none yet.
    MarginDialog(const std::optional<model::Margin>& stated, units::System units, QWidget* parent);

    /// As it was accepted; nothing: the margin is taken back.
    const std::optional<model::Margin>& margin() const { return m_margin; }

private:
    /// A field, and what stands in it in the other units.
    struct Entry {
        QLineEdit* field;
        QLabel* aside;
    };
    Entry addEntry(const QString& words, const char* objectName, const QString& example, const QString& given);
    /// What is typed. @throws Fault  the first that cannot be read, and why.
    model::Margin typed() const;
    void restate();

    units::System m_units;
    std::optional<model::Margin> m_margin;
    class QFormLayout* m_form;
    Entry m_positionError, m_speed, m_reaction, m_deceleration, m_allowance;
    QLineEdit* m_basis;
    QLabel* m_words;
    QPushButton* m_go;
};

} // namespace fencewright::desktop
