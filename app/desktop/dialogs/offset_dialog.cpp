#include "desktop/dialogs/offset_dialog.h"

#include "desktop/dialogs/dialog_rows.h"
#include "desktop/panels/entry_notation.h"
#include "fault.h"
#include "session/translated.h"

#include <QtWidgets>

namespace fencewright::desktop {

OffsetDialog::OffsetDialog(const QString& name, model::FenceKind kind, units::System units, QWidget* parent)
    : QDialog{parent}, m_units{units}, m_distance{new QLineEdit{this}}, m_side{new QComboBox{this}},
      m_kind{new QComboBox{this}}, m_words{new QLabel{this}}, m_go{new QPushButton{tr("Make the copy"), this}} {
    setObjectName("offsetDialog");
    setWindowTitle(tr("Copy at a distance"));
    setMinimumWidth(440);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(24, 20, 24, 16);
    column->setSpacing(12);
    auto* heading = new QLabel{tr("A copy of %1, at the same distance all round").arg(name), this};
    heading->setTextFormat(Qt::PlainText);
    heading->setProperty("heading", true);
    heading->setWordWrap(true);
    column->addWidget(heading);
    auto* form = new QFormLayout;
    form->setHorizontalSpacing(12);
    form->setVerticalSpacing(8);
    form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    const auto row = [&](const QString& words, QWidget* field, const char* objectName) {
        field->setObjectName(objectName);
        field->setAccessibleName(words);
        addRow(*form, words, field);
    };
    row(tr("Distance along the ground"), m_distance, "offsetDistance");
    m_distance->setPlaceholderText(units == units::System::Metric ? QStringLiteral("50 m") : QStringLiteral("150 ft"));
    row(tr("Side"), m_side, "offsetSide");
    m_side->addItems({tr("outside of it"), tr("inside of it")});
    row(tr("The copy is"), m_kind, "offsetKind");
    m_kind->addItems({tr("a keep-in"), tr("a keep-out")});
    m_kind->setCurrentIndex(kind == model::FenceKind::KeepIn ? 0 : 1);
    column->addLayout(form);
    m_words->setObjectName("offsetWords");
    m_words->setTextFormat(Qt::PlainText);
    m_words->setWordWrap(true);
    m_words->setMinimumHeight(m_words->fontMetrics().height() * 2);
    column->addWidget(m_words);
    column->addStretch(1);
    m_go->setObjectName("offsetGo");
    m_go->setDefault(true);
    addButtons(*this, *column, *m_go);
    connect(m_go, &QPushButton::clicked, this, &QDialog::accept);
    connect(m_distance, &QLineEdit::textChanged, this, &OffsetDialog::restate);
    connect(m_side, &QComboBox::currentIndexChanged, this, &OffsetDialog::restate);
    connect(m_kind, &QComboBox::currentIndexChanged, this, &OffsetDialog::restate);
    m_distance->setFocus();
    restate();
}

std::optional<StatedLength> OffsetDialog::distance() const {
    try {
        return lengthFrom(m_distance->text(), m_units, LengthRange::Positive);
    } catch (const Fault&) {
        return std::nullopt;
    }
}

airspace::OffsetDirection OffsetDialog::direction() const {
    return m_side->currentIndex() == 0 ? airspace::OffsetDirection::Outward : airspace::OffsetDirection::Inward;
}

model::FenceKind OffsetDialog::kind() const {
    return m_kind->currentIndex() == 0 ? model::FenceKind::KeepIn : model::FenceKind::KeepOut;
}

void OffsetDialog::say(const QString& refusal) {
    m_words->setText(refusal);
    m_go->setEnabled(refusal.isEmpty());
}

void OffsetDialog::restate() {
    QString refusal;
    try {
        (void)lengthFrom(m_distance->text(), m_units, LengthRange::Positive);
    } catch (const Fault& fault) {
        refusal = m_distance->text().trimmed().isEmpty() ? tr("Type a distance in any unit.")
                                                         : session::translatedWithoutPlace(fault);
    }
    say(refusal);
    emit changed();
}

} // namespace fencewright::desktop
