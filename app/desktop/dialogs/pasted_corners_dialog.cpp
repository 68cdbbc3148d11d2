#include "desktop/dialogs/pasted_corners_dialog.h"

#include "desktop/dialogs/dialog_rows.h"
#include "fault.h"
#include "session/translated.h"

#include <QtWidgets>

namespace fencewright::desktop {

PastedCornersDialog::PastedCornersDialog(geodesy::PlaceRows rows, const std::vector<Offer>& offers,
                                         geodesy::Notation notation, QWidget* parent)
    : QDialog{parent}, m_rows{std::move(rows)}, m_notation{notation}, m_order{new QButtonGroup{this}},
      m_where{new QButtonGroup{this}}, m_read{new QLabel{this}}, m_go{new QPushButton{tr("Take them"), this}} {
    setObjectName("pastedCornersDialog");
    setWindowTitle(tr("Pasted corners"));
    setMinimumWidth(460);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(24, 20, 24, 16);
    column->setSpacing(8);
    auto* count = new QLabel{m_rows.rows.size() == 1 ? tr("One corner was read.")
                                                     : tr("%1 corners were read.").arg(m_rows.rows.size()),
                             this};
    count->setProperty("heading", true);
    column->addWidget(count);
    const auto choice = [&](QButtonGroup& group, int id, const char* name, const QString& words) {
        auto* button = new QRadioButton{words, this};
        button->setObjectName(name);
        group.addButton(button, id);
        column->addWidget(button);
        return button;
    };
    if (m_rows.hasBarePairs()) {
        auto* question = new QLabel{m_rows.order ? tr("Two numbers a row, of which some are beyond 90:")
                                                 : tr("Two numbers a row do not say which is which. Their order is:"),
                                    this};
        question->setWordWrap(true);
        column->addWidget(question);
        choice(*m_order, int(geodesy::AxisOrder::LatitudeFirst), "pastedLatitudeFirst", tr("latitude, then longitude"));
        choice(*m_order, int(geodesy::AxisOrder::LongitudeFirst), "pastedLongitudeFirst",
               tr("longitude, then latitude"));
        if (m_rows.order)
            for (QAbstractButton* button : m_order->buttons()) {
                button->setChecked(m_order->id(button) == int(*m_rows.order));
                button->setEnabled(button->isChecked());
            }
        column->addSpacing(8);
    }
    const char* const names[] = {"pastedInsteadOfChosen", "pastedAfter", "pastedInsteadOfAll"};
    for (const Offer& offer : offers)
        choice(*m_where, int(offer.where), names[std::size_t(offer.where)], offer.words);
    m_where->buttons().front()->setChecked(true);
    m_read->setObjectName("pastedRead");
    m_read->setWordWrap(true);
    m_read->setTextFormat(Qt::PlainText);
    m_read->setProperty("quiet", true);
    column->addSpacing(8);
    column->addWidget(m_read);
    m_go->setObjectName("pastedGo");
    m_go->setDefault(true);
    addButtons(*this, *column, *m_go);
    connect(m_order, &QButtonGroup::idToggled, this, &PastedCornersDialog::restate);
    connect(m_go, &QPushButton::clicked, this, &QDialog::accept);
    restate();
}

PastedCornersDialog::Where PastedCornersDialog::where() const { return Where(m_where->checkedId()); }

std::optional<geodesy::AxisOrder> PastedCornersDialog::order() const {
    return m_order->checkedId() < 0 ? std::nullopt : std::optional{geodesy::AxisOrder(m_order->checkedId())};
}

/// Reads the rows in the order chosen, and shows the first and the last as they are understood.
void PastedCornersDialog::restate() {
    m_go->setEnabled(false);
    if (m_rows.hasBarePairs() && !order()) {
        m_read->setText(tr("Choose the order of the numbers first."));
        return;
    }
    try {
        m_places = geodesy::placesOf(m_rows, order());
        const auto written = [&](const model::Position& place) {
            return QString::fromStdString(geodesy::formatFinely(place, m_notation));
        };
        m_read->setText(
            m_places.size() == 1
                ? tr("It is %1.").arg(written(m_places.front()))
                : tr("The first is %1, the last %2.").arg(written(m_places.front()), written(m_places.back())));
        m_go->setEnabled(true);
    } catch (const Fault& fault) {
        m_read->setText(session::translated(fault));
    }
}

} // namespace fencewright::desktop
