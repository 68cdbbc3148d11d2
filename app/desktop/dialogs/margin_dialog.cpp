#include "desktop/dialogs/margin_dialog.h"

#include "desktop/dialogs/dialog_rows.h"
#include "desktop/panels/entry_notation.h"
#include "fault.h"
#include "session/translated.h"
#include "units/motion_notation.h"
#include "units/number_notation.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

QString shown(const std::string& text) { return QString::fromStdString(text); }

units::System other(units::System system) {
    return system == units::System::Metric ? units::System::Us : units::System::Metric;
}

QString speedText(const StatedSpeed& speed, units::System system) {
    return shown(speed.asWritten.empty() ? units::formatSpeed(speed.speed, system) : speed.asWritten);
}

QString decelerationText(const StatedAcceleration& braking, units::System system) {
    return shown(braking.asWritten.empty() ? units::formatAcceleration(braking.acceleration, system)
                                           : braking.asWritten);
}

} // namespace

MarginDialog::MarginDialog(const std::optional<model::Margin>& stated, units::System system, QWidget* parent)
    : QDialog{parent}, m_units{system}, m_margin{stated}, m_form{new QFormLayout}, m_basis{new QLineEdit{this}},
      m_words{new QLabel{this}}, m_go{new QPushButton{tr("State the margin"), this}} {
    setObjectName("marginDialog");
    setWindowTitle(tr("Margin"));
    setMinimumWidth(560);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(24, 20, 24, 16);
    column->setSpacing(12);
    auto* heading = new QLabel{tr("How far the aircraft keeps from every boundary, and why"), this};
    heading->setProperty("heading", true);
    heading->setWordWrap(true);
    column->addWidget(heading);
    m_form->setHorizontalSpacing(12);
    m_form->setVerticalSpacing(8);
    m_form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    column->addLayout(m_form);
    const bool metric = system == units::System::Metric;
    const auto given = [&](auto text) { return stated ? text(*stated) : QString{}; };
    m_positionError =
        addEntry(tr("Position error"), "marginError", metric ? "3 m" : "10 ft",
                 given([&](const model::Margin& margin) { return lengthText(margin.positionError, system); }));
    m_speed = addEntry(tr("Fastest over the ground, with the wind"), "marginSpeed", metric ? "15 m/s" : "35 mph",
                       given([&](const model::Margin& margin) { return speedText(margin.speed, system); }));
    m_reaction = addEntry(tr("Reaction, until it brakes"), "marginReaction", "1.5 s",
                          given([](const model::Margin& m) { return shown(units::formatSeconds(m.reaction)); }));
    m_deceleration =
        addEntry(tr("Deceleration, the least"), "marginDeceleration", metric ? "3 m/s²" : "10 ft/s²",
                 given([&](const model::Margin& margin) { return decelerationText(margin.deceleration, system); }));
    m_allowance = addEntry(tr("Further allowance, for gusts"), "marginAllowance", metric ? "2 m" : "5 ft",
                           given([&](const model::Margin& margin) { return lengthText(margin.allowance, system); }));
    m_basis->setObjectName("marginBasis");
    m_basis->setAccessibleName(tr("Where the figures come from"));
    m_basis->setPlaceholderText(tr("Manual, test flight, judgement: which, and whose"));
    m_basis->setText(given([](const model::Margin& margin) { return shown(margin.basis); }));
    addRow(*m_form, tr("Where the figures come from"), m_basis);
    m_words->setObjectName("marginWords");
    m_words->setTextFormat(Qt::PlainText);
    m_words->setWordWrap(true);
    m_words->setMinimumHeight(m_words->fontMetrics().height() * 3);
    column->addWidget(m_words);
    column->addStretch(1);
    if (stated) {
        auto* back = new QPushButton{tr("Take the margin back"), this};
        back->setObjectName("marginBack");
        back->setAutoDefault(false);
        connect(back, &QPushButton::clicked, this, [this] {
            m_margin.reset();
            accept();
        });
        column->addWidget(back, 0, Qt::AlignLeft);
    }
    m_go->setObjectName("marginGo");
    m_go->setDefault(true);
    addButtons(*this, *column, *m_go);
    connect(m_go, &QPushButton::clicked, this, [this] {
        m_margin = typed();
        accept();
    });
    for (QLineEdit* field : findChildren<QLineEdit*>())
        connect(field, &QLineEdit::textChanged, this, &MarginDialog::restate);
    m_positionError.field->setFocus();
    restate();
}

MarginDialog::Entry MarginDialog::addEntry(const QString& words, const char* objectName, const QString& example,
                                           const QString& given) {
    Entry entry{new QLineEdit{given, this}, new QLabel{this}};
    entry.field->setObjectName(objectName);
    entry.field->setAccessibleName(words);
    entry.field->setPlaceholderText(example);
    entry.aside->setProperty("quiet", true);
    entry.aside->setMinimumWidth(entry.aside->fontMetrics().horizontalAdvance(QStringLiteral("000.000 ft/s²")));
    auto* row = new QHBoxLayout;
    row->setSpacing(12);
    row->addWidget(entry.field, 1);
    row->addWidget(entry.aside);
    addRow(*m_form, words, row);
    return entry;
}

model::Margin MarginDialog::typed() const {
    const auto text = [](const QLineEdit* field) { return field->text().trimmed().toStdString(); };
    model::Margin margin;
    margin.positionError = lengthFrom(m_positionError.field->text(), m_units, LengthRange::NotNegative);
    margin.speed = units::parseSpeed(text(m_speed.field), m_units);
    margin.reaction = units::parseSeconds(text(m_reaction.field));
    margin.deceleration = units::parseAcceleration(text(m_deceleration.field), m_units);
    if (!text(m_allowance.field).empty())
        margin.allowance = lengthFrom(m_allowance.field->text(), m_units, LengthRange::NotNegative);
    margin.basis = text(m_basis);
    return margin;
}

/// What the figures come to, or what is missing.
void MarginDialog::restate() {
    const auto aside = [](const Entry& entry, auto read) {
        QString words;
        try {
            words = read();
        } catch (const Fault&) {
            words.clear(); // the words below say so
        }
        entry.aside->setText(words);
    };
    const auto length = [this](const Entry& entry) {
        return [this, &entry] {
            return lengthAside(lengthFrom(entry.field->text(), m_units, LengthRange::NotNegative), m_units);
        };
    };
    // A figure in knots or in g is shown in the units of the window, and one of those in the others.
    const auto asideUnits = [this](const std::string& own, const std::string& asWritten) {
        return own == asWritten ? other(m_units) : m_units;
    };
    aside(m_positionError, length(m_positionError));
    aside(m_allowance, length(m_allowance));
    aside(m_speed, [&] {
        const StatedSpeed speed = units::parseSpeed(m_speed.field->text().toStdString(), m_units);
        return asideUnits(units::formatSpeed(speed.speed, m_units), speed.asWritten) == units::System::Metric
                   ? shown(units::fixed(speed.speed.inMetresPerSecond(), 1) + " m/s")
                   : shown(units::fixed(speed.speed.inMilesPerHour(), 1) + " mph");
    });
    aside(m_deceleration, [&] {
        const auto [braking, asWritten] = units::parseAcceleration(m_deceleration.field->text().toStdString(), m_units);
        return asideUnits(units::formatAcceleration(braking, m_units), asWritten) == units::System::Metric
                   ? shown(units::fixed(braking.inMetresPerSecondSquared(), 2) + " m/s²")
                   : shown(units::fixed(braking.inFeetPerSecondSquared(), 1) + " ft/s²");
    });

    QString words;
    bool ready = false;
    const std::array needed{m_positionError.field, m_speed.field, m_reaction.field, m_deceleration.field};
    try {
        if (std::any_of(needed.begin(), needed.end(),
                        [](const QLineEdit* field) { return field->text().trimmed().isEmpty(); })) {
            words = tr("Type the figures of the aircraft, each with its unit.");
        } else {
            const auto found = model::distances(typed());
            const auto text = [&](Length distance) { return shown(units::formatLength(distance, m_units)); };
            words =
                tr("Position error %1, reaction %2, braking %3, allowance %4: the aircraft keeps %5 (%6) from every "
                   "boundary.")
                    .arg(text(found.positionError), text(found.reaction), text(found.braking), text(found.allowance),
                         text(found.total), shown(units::formatLength(found.total, other(m_units))));
            ready = !m_basis->text().trimmed().isEmpty();
            if (!ready)
                words += ' ' + tr("Say where the figures come from.");
        }
    } catch (const Fault& fault) {
        words = session::translatedWithoutPlace(fault);
    }
    m_words->setText(words);
    m_go->setEnabled(ready);
}

} // namespace fencewright::desktop
