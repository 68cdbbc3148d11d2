#pragma once

#include <QLocale>
#include <QString>

#include "fault.h"
#include "wording.h"

namespace fencewright::session {

/// What core/ says, in the language of the window; phrases that are not translated stay English.
QString translated(const Wording& words);

/// Problem, place and remedy as sentences, such as std::exception::what() has them in English.
QString translated(const Fault& fault);

/// Problem and remedy, where the place can be seen.
QString translatedWithoutPlace(const Fault& fault);

/// For the names of months; numbers are never written by it, for its decimal sign may be a comma.
QLocale languageLocale();

} // namespace fencewright::session
