#include "desktop/dialogs/deed_dialog.h"

#include "desktop/dialogs/dialog_rows.h"
#include "desktop/tools/new_thing.h"
#include "fault.h"
#include "geodesy/bearing_notation.h"
#include "geodesy/coordinate_notation.h"
#include "session/translated.h"
#include "units/number_notation.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

// Poorer than what surveys of the nineteenth century were held to: a course is likely misread. Common practice, no
// published source.
constexpr double kPoorPrecision = 500.0;

QString text(const std::string& words) { return QString::fromStdString(words); }

/// "12100": no more digits than it is worth.
QString roundedWords(double number) {
    const double step = std::pow(10.0, std::max(0.0, std::floor(std::log10(number)) - 2.0));
    return QString::number(qint64(std::round(number / step) * step));
}

/// With the digits that deeds have: "2.363 ac", "0.956 ha".
QString deedAreaWords(Area area, units::System units) {
    return text(units == units::System::Us ? units::fixed(area.inAcres(), 3) + " ac"
                                           : units::fixed(area.inHectares(), 4) + " ha");
}

} // namespace

DeedDialog::DeedDialog(const QString& start, units::System units, QWidget* parent)
    : QDialog{parent}, m_units{units}, m_kind{new QComboBox{this}}, m_start{new QLineEdit{this}},
      m_north{new QLineEdit{this}}, m_courses{new QPlainTextEdit{this}}, m_adjust{new QCheckBox{this}},
      m_closure{new QLabel{this}}, m_refusal{new QLabel{this}}, m_go{new QPushButton{tr("Draw the fence"), this}} {
    setObjectName("deedDialog");
    setWindowTitle(tr("Fence from a deed"));
    setMinimumSize(600, 560);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(24, 20, 24, 16);
    column->setSpacing(12);
    auto* heading = new QLabel{tr("Fence from a deed"), this};
    heading->setProperty("heading", true);
    column->addWidget(heading);
    auto* about =
        new QLabel{tr("One course a line: a bearing and a distance. A deed is as good as its survey: walk the "
                      "boundary where it matters, and leave its meaning to a licensed surveyor."),
                   this};
    about->setProperty("quiet", true);
    about->setWordWrap(true);
    column->addWidget(about);
    const auto quiet = [this](const QString& words, QWidget* buddy) {
        auto* label = new QLabel{words, this};
        label->setProperty("quiet", true);
        label->setBuddy(buddy);
        return label;
    };
    auto* form = new QFormLayout;
    form->setSpacing(8);
    m_kind->setObjectName("deedKind");
    m_kind->addItems({tr("Keep-out"), tr("Keep-in")});
    form->addRow(quiet(tr("&Kind"), m_kind), m_kind);
    m_start->setObjectName("deedStart");
    m_start->setText(start);
    form->addRow(quiet(tr("&Begins at"), m_start), m_start);
    m_north->setObjectName("deedNorth");
    m_north->setText(QStringLiteral("0°"));
    m_north->setToolTip(tr("True bearing of the deed's north: the grid's convergence, or the declination of its year"));
    form->addRow(quiet(tr("Deed's &north"), m_north), m_north);
    column->addLayout(form);
    m_courses->setObjectName("deedCourses");
    m_courses->setAccessibleName(tr("Courses"));
    m_courses->setTabChangesFocus(true);
    m_courses->setLineWrapMode(QPlainTextEdit::NoWrap);
    m_courses->setPlaceholderText(tr("S 68°05'35\" W 472.68 ft\n"
                                     "N 19-46-00 W 216.13 ft\n"
                                     "curve right, radius 200 ft, arc 104.72 ft\n"
                                     "120 m 45\n"
                                     "units: m, ft, ftUS, ch, yd, mi"));
    column->addWidget(m_courses, 1);
    m_adjust->setObjectName("deedAdjust");
    m_adjust->setText(tr("&Close it by the compass rule"));
    m_adjust->setToolTip(tr("Each course takes its share of the misclosure, by its length"));
    column->addWidget(m_adjust);
    m_closure->setObjectName("deedClosure");
    m_closure->setWordWrap(true);
    column->addWidget(m_closure);
    m_refusal->setObjectName("deedRefusal");
    m_refusal->setProperty("refusal", true);
    m_refusal->setWordWrap(true);
    column->addWidget(m_refusal);
    m_go->setObjectName("deedGo");
    m_go->setDefault(true);
    addButtons(*this, *column, *m_go);
    connect(m_go, &QPushButton::clicked, this, &QDialog::accept);
    connect(m_kind, &QComboBox::currentIndexChanged, this, &DeedDialog::restate);
    connect(m_start, &QLineEdit::textChanged, this, &DeedDialog::restate);
    connect(m_north, &QLineEdit::textChanged, this, &DeedDialog::restate);
    connect(m_courses, &QPlainTextEdit::textChanged, this, &DeedDialog::restate);
    connect(m_adjust, &QCheckBox::toggled, this, &DeedDialog::restate);
    restate();
    m_courses->setFocus();
}

model::FenceKind DeedDialog::kind() const {
    return m_kind->currentIndex() == 0 ? model::FenceKind::KeepOut : model::FenceKind::KeepIn;
}

QString DeedDialog::closureWords(const geometry::Closure& closure) const {
    const QString closes =
        closure.precision
            ? tr("Misclosure %1, bearing %2: 1 : %3.")
                  .arg(text(units::formatLengthExact(closure.misclosure, m_units)),
                       text(geodesy::formatBearing(Angle::radians(std::atan2(closure.eastMetres, closure.northMetres)),
                                                   geodesy::BearingNotation::Quadrant)),
                       roundedWords(*closure.precision))
            : tr("It closes.");
    QString all = tr("%1 Perimeter %2, area %3.")
                      .arg(closes, text(units::formatLengthExact(closure.perimeter, m_units)),
                           deedAreaWords(closure.area, m_units));
    if (closure.precision && *closure.precision < kPoorPrecision)
        all += ' ' + tr("That is poor: look for a course that was misread or is missing.");
    else if (closure.precision && !m_adjust->isChecked())
        all += ' ' + tr("A straight edge closes it.");
    return all;
}

void DeedDialog::restate() {
    m_shape.reset();
    QString refusal, closure;
    try {
        const auto courses = geometry::parseCourses(m_courses->toPlainText().toStdString(), m_units);
        if (!courses.empty()) {
            geometry::TraverseFigure figure = geometry::figureOf(courses);
            closure = closureWords(geometry::closureOf(figure));
            if (m_adjust->isChecked())
                figure = geometry::closedByCompassRule(figure);
            const geometry::TraversePlacement placement{geodesy::parsePosition(m_start->text().toStdString()),
                                                        geodesy::parseBearing(m_north->text().toStdString())};
            const auto side = kind() == model::FenceKind::KeepOut ? geometry::Side::Grow : geometry::Side::Shrink;
            model::Ring ring = geometry::ringOf(figure, placement, side);
            ring.corners = onFirstTurn(std::move(ring.corners));
            m_shape = model::DrawnPolygon{{std::move(ring), {}}};
        }
    } catch (const Fault& fault) {
        refusal = session::translated(fault);
    }
    m_closure->setText(closure);
    m_refusal->setText(refusal);
    m_refusal->setVisible(!refusal.isEmpty());
    m_go->setEnabled(m_shape.has_value());
    emit shapeChanged();
}

} // namespace fencewright::desktop
