#include "desktop/dialogs/summary_dialog.h"
#include "session/translated.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

QString text(const std::string& words) { return QString::fromStdString(words); }

QString kindWords(exchange::ReadNote::Kind kind) {
    switch (kind) {
    case exchange::ReadNote::Kind::Changed:
        return SummaryDialog::tr("changed");
    case exchange::ReadNote::Kind::LeftOut:
        return SummaryDialog::tr("left out");
    case exchange::ReadNote::Kind::Warning:
        break;
    }
    return SummaryDialog::tr("mind");
}

} // namespace

QString readingWords(const exchange::VectorContent& content) {
    QStringList parts{SummaryDialog::tr("%1 features read").arg(content.featuresInFile - content.featuresLeftOut)};
    parts << (content.featuresLeftOut ? SummaryDialog::tr("%1 left out").arg(content.featuresLeftOut)
                                      : SummaryDialog::tr("none left out"));
    if (!content.notes.empty())
        parts << (content.notes.size() == 1 ? SummaryDialog::tr("1 remark")
                                            : SummaryDialog::tr("%1 remarks").arg(content.notes.size()));
    return parts.join(", ");
}

SummaryDialog::SummaryDialog(const QString& title, const QString& outcome, const exchange::VectorContent& content,
                             const std::vector<exchange::ReadNote>& more, QWidget* parent)
    : QDialog{parent} {
    setObjectName("summaryDialog");
    setWindowTitle(title);
    resize(640, 420);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(24, 20, 24, 16);
    column->setSpacing(8);
    auto* heading = new QLabel{outcome, this};
    heading->setObjectName("summaryOutcome");
    heading->setProperty("heading", true);
    heading->setWordWrap(true);
    column->addWidget(heading);
    auto* file =
        new QLabel{tr("%1\n%2, layer %3, coordinates: %4\n%5")
                       .arg(text(content.path), text(content.format),
                            content.layer.empty() ? tr("of the file") : text(content.layer),
                            content.crs.empty() ? tr("as you named them") : text(content.crs), readingWords(content)),
                   this};
    file->setObjectName("summaryFile");
    file->setProperty("quiet", true);
    file->setWordWrap(true);
    file->setTextInteractionFlags(Qt::TextSelectableByMouse);
    column->addWidget(file);
    std::vector<exchange::ReadNote> notes = content.notes;
    notes.insert(notes.end(), more.begin(), more.end());
    auto* table = new QTableWidget{int(notes.size()), 3, this};
    table->setObjectName("summaryNotes");
    table->setAccessibleName(tr("What the reading changed or left out"));
    table->setHorizontalHeaderLabels({tr("Where"), tr("What"), tr("Why")});
    table->verticalHeader()->hide();
    table->setShowGrid(false);
    table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table->setSelectionBehavior(QAbstractItemView::SelectRows);
    table->horizontalHeader()->setStretchLastSection(true);
    table->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    for (std::size_t i = 0; i < notes.size(); ++i) {
        table->setItem(int(i), 0, new QTableWidgetItem{session::translated(notes[i].place)});
        table->setItem(int(i), 1, new QTableWidgetItem{kindWords(notes[i].kind)});
        table->setItem(int(i), 2, new QTableWidgetItem{session::translated(notes[i].words)});
    }
    table->resizeColumnsToContents();
    table->resizeRowsToContents();
    table->setVisible(!notes.empty());
    column->addWidget(table, 1);
    if (notes.empty()) {
        auto* nothing = new QLabel{tr("Everything in the file was taken as it is."), this};
        column->addWidget(nothing);
        column->addStretch(1);
        resize(560, 220);
    }
    auto* close = new QPushButton{tr("Close"), this};
    close->setObjectName("summaryClose");
    close->setDefault(true);
    connect(close, &QPushButton::clicked, this, &QDialog::accept);
    auto* buttons = new QHBoxLayout;
    buttons->addStretch(1);
    buttons->addWidget(close);
    column->addLayout(buttons);
}

} // namespace fencewright::desktop
