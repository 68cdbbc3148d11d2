#include "session/given_names.h"

#include <QCoreApplication>

namespace fencewright::session {

NameGiver inWindowLanguage() {
    return NameGiver{
        [](const std::string& english) { return QCoreApplication::translate("core", english.c_str()).toStdString(); }};
}

} // namespace fencewright::session
