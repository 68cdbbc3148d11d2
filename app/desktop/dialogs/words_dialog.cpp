#include "desktop/dialogs/words_dialog.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

QString tr(const char* text) { return QCoreApplication::translate("WordsDialog", text); }

} // namespace

WordsDialog::WordsDialog(const QString& title, const QString& html, QWidget* parent) : QDialog{parent} {
    setObjectName("wordsDialog");
    setWindowTitle(title);
    resize(560, 560);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(24, 16, 16, 16);
    auto* page = new QTextBrowser{this};
    page->setAccessibleName(title);
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
