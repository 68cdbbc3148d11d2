#pragma once

#include <QString>

#include "session/settings.h"

#include <functional>

class QWidget;

namespace fencewright::desktop {

struct FileQuestion {
    QString title;
    QString filter; ///< "GeoPackage (*.gpkg);;All files (*)"
    QString proposal;
    QString suffix; ///< of a file to be written, without the point
    bool write = false;
    bool folder = false; ///< one is asked for, and not a file
};

/// Asks for one file without blocking; starts in the folder of the last answer. Says nothing when the person cancels.
void askForFile(QWidget& window, session::Settings& settings, const FileQuestion& question,
                std::function<void(const QString&)> answer);

} // namespace fencewright::desktop
