#include "desktop/dialogs/words_dialog.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

QString row(const QString& key, const QString& what) {
    return QStringLiteral("<tr><td style='padding:3px 24px 3px 0'><b>%1</b></td><td style='padding:3px 0'>%2</td></tr>")
        .arg(key.toHtmlEscaped(), what.toHtmlEscaped());
}

QString tr(const char* text) { return QCoreApplication::translate("WordsDialog", text); }

} // namespace

WordsDialog::WordsDialog(const QString& title, const QString& html, QWidget* parent) : QDialog{parent} {
    setObjectName("wordsDialog");
    setWindowTitle(title);
    resize(560, 560);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(24, 16, 16, 16);
    auto* page = new QTextBrowser{this};
    page->setOpenLinks(false);
    page->setHtml(html);
    column->addWidget(page, 1);
    auto* close = new QPushButton{tr("Close"), this};
    close->setDefault(true);
    auto* buttons = new QHBoxLayout;
    buttons->addStretch(1);
    buttons->addWidget(close);
    column->addLayout(buttons);
    connect(close, &QPushButton::clicked, this, &QDialog::accept);
}

QString keysPage(const QList<QAction*>& actions) {
    QString tools;
    QString commands;
    for (const QAction* action : actions) {
        if (action->shortcut().isEmpty())
            continue;
        QString words = action->text();
        words.remove('&').remove(QStringLiteral("…"));
        const QString line = row(action->shortcut().toString(QKeySequence::NativeText), words);
        (action->property("tool").toBool() ? tools : commands) += line;
    }
    QString map =
        row(tr("Enter"), tr("finish what is being drawn")) + row(tr("Backspace"), tr("take back the last corner")) +
        row(tr("Esc"), tr("step back; once more: back to selecting")) +
        row(tr("Shift"), tr("while drawing: keep to whole angles")) + row(tr("Wheel, + and −"), tr("nearer, farther")) +
        row(tr("Arrow keys"), tr("move the map")) + row(tr("Shift"), tr("while dragging the map: turn it")) +
        row(tr("K"), tr("while drawing or on a choice: keep-in or keep-out, home or alternate")) +
        row(tr("Space"), tr("held: drag the map with any tool")) +
        row(tr("digits"), tr("while drawing: type a distance and a bearing"));
    QString calendar = row(tr("← →"), tr("a day; with Shift a week")) +
                       row(tr("Page keys"), tr("a month; with Shift a year")) +
                       row(tr("Home, End"), tr("first and last day of the year"));
    const QString page = QStringLiteral("<h3>%1</h3><table>%2</table>");
    return page.arg(tr("Tools"), tools) + page.arg(tr("On the map"), map) + page.arg(tr("On the calendar"), calendar) +
           page.arg(tr("Commands"), commands);
}

QString aboutPage() {
    return tr("<h2>Fencewright %1</h2>"
              "<p>Prepares geofences, finds their faults before a flight finds them, and hands them out so that "
              "nothing "
              "permits more than what was approved.</p>"
              "<h3>Cautions</h3>"
              "<p>Fencewright prepares geofences; it does not replace the rules of the place, the permits they ask "
              "for, "
              "the aircraft's own limits, or the judgement of a licensed pilot, surveyor or biologist. Where they and "
              "this program differ, they hold.</p>"
              "<ul>"
              "<li>Published setbacks are starting points. The local authority, the permit and the season decide.</li>"
              "<li>Parcels and imagery are as good as their source and their date. A boundary that matters is "
              "surveyed.</li>"
              "<li>A fence stops an aircraft only where its flight system holds it, reads it alike and keeps a margin "
              "for position error, reaction and braking. Test before you rely on it.</li>"
              "<li>Fences are no substitute for watching the airspace and the people under it.</li>"
              "<li>After handing out, compare what the device really holds with what was delivered.</li>"
              "</ul>"
              "<h3>Built from</h3>"
              "<p>Qt (LGPL), GDAL (MIT), GEOS (LGPL), PROJ (MIT), SQLite (public domain), OpenSSL (Apache-2.0), JSON "
              "for "
              "Modern C++ (MIT), DejaVu fonts (Bitstream Vera licence).</p>")
        .arg(QCoreApplication::applicationVersion());
}

} // namespace fencewright::desktop
