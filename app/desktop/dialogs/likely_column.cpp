#include "desktop/dialogs/likely_column.h"

#include <QString>
#include <QStringList>

namespace fencewright::desktop {
namespace {

QStringList names() { return {"name", "title", "label", "description"}; }
QStringList numbers() { return {"parcel", "number", "apn", "lot", "folio", "cadastral", "ref"}; }

/// The column whose name sounds most like what is wanted; 0 is "none".
int likely(const std::vector<std::string>& fields, const QStringList& words) {
    for (const QString& word : words)
        for (std::size_t i = 0; i < fields.size(); ++i)
            if (QString::fromStdString(fields[i]).compare(word, Qt::CaseInsensitive) == 0)
                return int(i) + 1;
    for (const QString& word : words)
        for (std::size_t i = 0; i < fields.size(); ++i)
            if (QString::fromStdString(fields[i]).contains(word, Qt::CaseInsensitive))
                return int(i) + 1;
    return 0;
}

} // namespace

int likelyName(const std::vector<std::string>& fields) { return likely(fields, names()); }
int likelyNumber(const std::vector<std::string>& fields) { return likely(fields, numbers()); }
int likelyLabel(const std::vector<std::string>& fields) { return likely(fields, numbers() + names()); }

} // namespace fencewright::desktop
