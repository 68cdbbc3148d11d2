#include "desktop/dialogs/delivery_result_dialog.h"
#include "session/translated.h"

#include <QDesktopServices>
#include <QtWidgets>

namespace fencewright::desktop {
namespace {

QString text(const std::string& words) { return QString::fromStdString(words); }

/// A hook in a ring where confirmed, a cross where not: told apart by form.
QPixmap verdict(bool confirmed, const Palette& palette, qreal ratio) {
    QPixmap pixmap{int(28 * ratio), int(28 * ratio)};
    pixmap.setDevicePixelRatio(ratio);
    pixmap.fill(Qt::transparent);
    QPainter painter{&pixmap};
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen{confirmed ? palette.accent : palette.error, 2.2, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin});
    painter.drawEllipse(QRectF{2, 2, 24, 24});
    if (confirmed)
        painter.drawPolyline(QPolygonF{{8.5, 14.5}, {12.5, 18.5}, {19.5, 10}});
    else {
        painter.drawLine(QPointF{9.5, 9.5}, QPointF{18.5, 18.5});
        painter.drawLine(QPointF{18.5, 9.5}, QPointF{9.5, 18.5});
    }
    return pixmap;
}

} // namespace

DeliveryResultDialog::DeliveryResultDialog(const exchange::DeliveryReport& report, units::System units,
                                           const Palette& palette, QWidget* parent)
    : QDialog{parent} {
    setObjectName("deliveryResult");
    setWindowTitle(report.confirmed ? tr("Delivered") : tr("Not delivered"));
    setMinimumWidth(620);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(24, 20, 24, 16);
    column->setSpacing(12);
    auto* head = new QHBoxLayout;
    head->setSpacing(12);
    auto* mark = new QLabel{this};
    mark->setPixmap(verdict(report.confirmed, palette, devicePixelRatioF()));
    auto* words = new QLabel{report.confirmed ? tr("Confirmed: read back, and nothing in it permits more than the set")
                                              : tr("Not confirmed: the file does not count as delivered"),
                             this};
    words->setObjectName("deliveryVerdict");
    words->setProperty("heading", true);
    words->setWordWrap(true);
    head->addWidget(mark, 0, Qt::AlignTop);
    head->addWidget(words, 1);
    column->addLayout(head);
    auto* form = new QFormLayout;
    form->setHorizontalSpacing(16);
    form->setVerticalSpacing(6);
    const auto row = [&](const QString& label, const QString& value, const char* name) {
        auto* left = new QLabel{label, this};
        left->setProperty("quiet", true);
        auto* right = new QLabel{value, this};
        right->setObjectName(name);
        right->setWordWrap(true);
        right->setTextFormat(Qt::PlainText);
        right->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
        form->addRow(left, right);
    };
    row(tr("File"), text(report.path), "deliveryFile");
    row(tr("Format"), text(report.format), "deliveryFormatName");
    row(tr("Written"), tr("%1 fences, %2 corners").arg(report.fences).arg(report.corners), "deliveryWritten");
    row(tr("Cost"),
        tr("keep-outs larger by %1, keep-ins smaller by %2")
            .arg(text(units::formatArea(report.keepOutAdded, units)),
                 text(units::formatArea(report.keepInLost, units))),
        "deliveryCost");
    row(tr("SHA-256"), text(report.checksum).left(32) + QStringLiteral("\n") + text(report.checksum).mid(32),
        "deliveryChecksum");
    column->addLayout(form);
    QStringList lines;
    // First what a crew must act on; what rounding cost is summed up above already.
    for (const Wording& caution : report.cautions)
        lines << session::translated(caution);
    for (const compare::Difference& difference : report.differences)
        lines << session::translated(difference.words);
    if (!lines.isEmpty()) {
        auto* title = new QLabel{tr("To mind"), this};
        title->setProperty("strong", true);
        column->addWidget(title);
        auto* list = new QPlainTextEdit{lines.join("\n"), this};
        list->setObjectName("deliveryCautions");
        list->setAccessibleName(title->text());
        list->setReadOnly(true);
        list->setTabChangesFocus(true);
        list->setFixedHeight(std::min(160, 28 + 20 * int(lines.size())));
        column->addWidget(list);
    }
    auto* buttons = new QHBoxLayout;
    auto* folder = new QPushButton{tr("Show in folder"), this};
    folder->setAutoDefault(false);
    folder->setEnabled(report.confirmed);
    auto* copy = new QPushButton{tr("Copy checksum"), this};
    copy->setAutoDefault(false);
    auto* close = new QPushButton{tr("Close"), this};
    close->setObjectName("deliveryClose");
    close->setDefault(true);
    buttons->addWidget(folder);
    buttons->addWidget(copy);
    buttons->addStretch(1);
    buttons->addWidget(close);
    column->addLayout(buttons);
    connect(folder, &QPushButton::clicked, this, [path = text(report.path)] {
        QDesktopServices::openUrl(QUrl::fromLocalFile(QFileInfo{path}.absolutePath()));
    });
    connect(copy, &QPushButton::clicked, this,
            [sum = text(report.checksum)] { QGuiApplication::clipboard()->setText(sum); });
    connect(close, &QPushButton::clicked, this, &QDialog::accept);
}

} // namespace fencewright::desktop
